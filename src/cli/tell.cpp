#include "cli/tell.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ostream>

#include "base/diag/utf8.hpp"
#include "base/system/parallel.hpp"
#include "cli/terminal.hpp"

namespace gallipot::cli {

void tell_of_new_secret(const app::Session& session, Environment& environment) {
    if (!session.secret_is_new) return;
    environment.err
        << "gallipot: made " << diag::printable(app::secret_path(session.file).string())
        << ", the secret behind the codes; keep it. Labels printed with another secret open "
           "nothing any more: replace them\n";
}

bool speaks(const app::Session& session, const std::vector<std::string>& wanted,
            Environment& environment) {
    std::vector<std::string> spoken;
    for (const auto& language : session.job->languages) spoken.push_back(*language);
    for (const std::string& language : wanted) {
        if (std::find(spoken.begin(), spoken.end(), language) != spoken.end()) continue;
        complain(environment) << fmt::format("--language {}: the job's languages are {}\n",
                                             diag::printable(language), fmt::join(spoken, ", "));
        return false;
    }
    return true;
}

ExitCode tell(app::Session& session, Environment& environment) {
    app::apply_accepted(session);
    environment.err << print(session.found, environment);
    return session.good() ? ExitCode::ok : ExitCode::bad_input;
}

app::Resources resources_of(const Environment& environment) {
    const auto wanted = environment.environment("GALLIPOT_THREADS");
    std::size_t number = 0;
    if (wanted) std::from_chars(wanted->data(), wanted->data() + wanted->size(), number);
    constexpr std::size_t maximum = 256;
    return {environment.environment("GALLIPOT_FONTS").value_or(""),
            number > 0 ? std::min(number, maximum) : system::cores()};
}

}  // namespace gallipot::cli
