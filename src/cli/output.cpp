#include "cli/output.hpp"

#include <string_view>

#include "base/diag/utf8.hpp"
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

void refuse_name_beside_job(const std::string& name) {
    const std::string_view file = name;
    for (const char* end : {".secret", ".sqlite", ".sqlite-wal", ".sqlite-shm", ".sqlite-journal"})
        if (file.ends_with(end))
            throw system::UsageError("cannot write " + diag::quoted(name) + ": names that end in " +
                                     end +
                                     " are for what lies beside a job; give another name, "
                                     "as in hall.yaml");
}

}  // namespace gallipot::cli
