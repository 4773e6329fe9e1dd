#include "cli/output.hpp"

#include "base/system/error.hpp"

namespace gallipot::cli {

bool is_standard_output(const std::string& name) {
    return name == "-";
}

void refuse_standard_output(const std::string& option, const std::string& name) {
    if (is_standard_output(name))
        throw system::UsageError(option +
                                 " -: this cannot go to standard output; give a name, or "
                                 "./- for a file that is called so");
}

}  // namespace gallipot::cli
