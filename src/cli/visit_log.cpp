#include "cli/visit_log.hpp"

#include "cli/terminal.hpp"

namespace gallipot::cli {

void NamedUnreadable::operator()(const log::Unreadable& entry) {
    constexpr std::size_t maximum_named = 10;
    if (++count_ <= maximum_named)
        warn(environment_) << "entry " << entry.number << " of the visit log cannot be read ("
                           << entry.column << "); it is left out\n";
    else if (count_ == maximum_named + 1)
        warn(environment_) << "more entries of the visit log cannot be read; they are left out\n";
}

}  // namespace gallipot::cli
