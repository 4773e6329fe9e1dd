#include "cli/tell.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <ostream>
#include <set>
#include <utility>

#include "base/diag/utf8.hpp"
#include "base/strings/dates.hpp"
#include "base/system/parallel.hpp"
#include "cli/messages.hpp"
#include "cli/terminal.hpp"

namespace gallipot::cli {

void tell_of_new_secret(const app::Session& session, Environment& environment) {
    if (!session.secret_is_new) return;
    environment.err << "gallipot: created "
                    << diag::printable(app::secret_path(session.file).string())
                    << ", which makes your QR codes work; back it up\n";
    if (app::has_log(session))
        environment.err << "gallipot: labels printed before, with another secret, open nothing any "
                           "more: print and replace them\n";
}

namespace {

/// What `check` does not show, or is wrong beside the job and not in it: told in full every time.
constexpr std::array<std::string_view, 3> always_in_full{"secret-not-private", "one-home",
                                                         "no-bait"};

/// "coarse-scale, old-numbers", each once.
std::string codes_of(const diag::Diagnostics& found) {
    std::vector<std::string> codes;
    for (const auto& each : found.in_order())
        if (std::ranges::find(codes, each.code) == codes.end()) codes.push_back(each.code);
    return fmt::format("{}", fmt::join(codes, ", "));
}

/// The command that shows in full what is only counted here.
std::string check_command(const app::Session& session) {
    std::string command = "gallipot check " + diag::for_shell(session.file.string());
    if (session.data.own_templates)
        command += " --templates " + diag::for_shell(session.data.own_templates->string());
    if (session.asked_for) command += " --on " + strings::iso_date(*session.asked_for);
    return command;
}

/// "2 more warnings (coarse-scale, no-control); read them with: gallipot check hall.yaml"
diag::Text only_counted_text(const diag::Diagnostics& counted, bool more,
                             const std::string& command) {
    const std::string codes = codes_of(counted);
    const std::size_t n = counted.warnings();
    if (n == 1)
        return more ? diag::say("1 more warning ({}); read it with: {}", codes, command)
                    : diag::say("1 warning ({}); read it with: {}", codes, command);
    return more ? diag::say("{} more warnings ({}); read them with: {}", n, codes, command)
                : diag::say("{} warnings ({}); read them with: {}", n, codes, command);
}

}  // namespace

ExitCode tell(app::Session& session, Environment& environment) {
    return tell(session, session.found, environment);
}

ExitCode tell(app::Session& session, const diag::Diagnostics& known, Environment& environment) {
    std::set<std::pair<std::string, std::string>> in_check;
    for (const auto& each : known.in_order()) in_check.emplace(each.code, each.message.english());
    app::apply_accepted(session);
    diag::Diagnostics full, counted;
    for (const auto& each : session.found.in_order()) {
        const bool only_counted =
            each.severity == diag::Severity::warning &&
            std::ranges::find(always_in_full, each.code) == always_in_full.end() &&
            in_check.contains({each.code, each.message.english()});
        (only_counted ? counted : full).add(each);
    }
    environment.err << print(full, session.data, environment);
    if (counted.warnings() > 0)
        environment.err << only_counted_text(counted, full.warnings() > 0, check_command(session))
                               .in(translator(session.data, environment))
                        << '\n';
    return session.good() ? ExitCode::ok : ExitCode::bad_input;
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

ExitCode tell_all(app::Session& session, Environment& environment) {
    app::apply_accepted(session);
    environment.err << print(session.found, session.data, environment);
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
