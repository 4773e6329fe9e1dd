#include "domain/job/accept.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <string_view>
#include <tuple>

#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

/// Departures from what is published: who means them may have them.
constexpr std::array<std::string_view, 5> acceptable_errors{
    "far-from-usual", "no-published-support", "advised-against", "termite-food-bait",
    "report-first"};

auto position(const Place& place) {
    return std::tuple(place.line, place.column);
}

/// Where the last value inside a node begins.
Place last_place(const yaml::Node& node) {
    Place last = node.place;
    const auto later = [&](const Place& place) {
        if (position(last) < position(place)) last = place;
    };
    for (const yaml::Node& item : node.items) later(last_place(item));
    for (const auto& [key, value] : node.entries) {
        later(key.place);
        later(last_place(value));
    }
    return last;
}

bool covers(const Acceptance& acceptance, const diag::Diagnostic& found) {
    if (found.code != *acceptance.code) return false;
    if (acceptance.everywhere) return true;
    return found.place.source == acceptance.from.source &&
           position(acceptance.from) <= position(found.place) &&
           position(found.place) <= position(acceptance.to);
}

}  // namespace

void read_accepted(const Fields& fields, std::string_view section, bool whole_job,
                   const Place& from, Job& job, ReadContext& context) {
    const std::string path = section.empty() ? "accept.*" : std::string(section) + ".accept.*";
    for (const yaml::Node& item : fields.list("accept")) {
        const auto code = read_text(item, *find_key(path), context);
        if (!code) continue;
        job.accepted.push_back({*code, whole_job, from, last_place(fields.node())});
    }
}

bool may_be_accepted(const diag::Diagnostic& found) {
    return found.severity == diag::Severity::warning ||
           std::ranges::find(acceptable_errors, found.code) != acceptable_errors.end();
}

std::vector<diag::Diagnostic> take_accepted(const Job& job, diag::Diagnostics& found) {
    std::vector<diag::Diagnostic> taken;
    // Beyond so many, messages are only counted, so that the rest could not be put back.
    if (job.accepted.empty() || found.errors() > diag::Diagnostics::kept ||
        found.warnings() > diag::Diagnostics::kept)
        return taken;
    diag::Diagnostics left;
    for (diag::Diagnostic& each : found.in_order()) {
        const bool accepted = may_be_accepted(each) &&
                              std::ranges::any_of(job.accepted, [&](const Acceptance& acceptance) {
                                  return covers(acceptance, each);
                              });
        if (accepted)
            taken.push_back(std::move(each));
        else
            left.add(std::move(each));
    }
    found = std::move(left);
    return taken;
}

void check_accepted(const Job& job, const std::vector<diag::Diagnostic>& taken,
                    diag::Diagnostics& found) {
    const std::vector<diag::Diagnostic> left = found.in_order();
    std::vector<std::string> codes;
    for (const diag::Diagnostic& each : left)
        if (may_be_accepted(each)) codes.push_back(each.code);
    for (const Acceptance& acceptance : job.accepted) {
        const auto covered = [&](const diag::Diagnostic& each) { return covers(acceptance, each); };
        if (std::ranges::any_of(taken, covered)) continue;
        const bool refused = std::ranges::any_of(left, covered);
        const std::string near = diag::nearest(*acceptance.code, codes);
        // What errors kept from being looked at may still be there.
        if (!refused && near.empty() && found.has_errors()) continue;
        found.warning("accepts-nothing", acceptance.code.place,
                      refused
                          ? diag::say("the error '{}' cannot be accepted", *acceptance.code)
                          : diag::say("there is no message '{}' here to accept", *acceptance.code),
                      near.empty() || refused ? diag::say("take it out")
                                              : diag::say("did you mean '{}'?", near));
    }
}

}  // namespace gallipot::job
