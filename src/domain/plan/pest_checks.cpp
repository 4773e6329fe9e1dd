#include "domain/plan/pest_checks.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <string>

namespace gallipot::plan {

using reference::Pest;
using reference::Preparation;
using reference::Support;

namespace {

diag::Text accept_hint(const diag::Text& otherwise, std::string_view code) {
    return diag::say("{}; if you mean it, add accept: [{}]", otherwise, code);
}

std::string near_pest(const std::string& against) {
    std::vector<std::string> names;
    for (const Pest& pest : reference::pests())
        for (const std::string_view name : reference::names_of(pest)) names.emplace_back(name);
    return diag::nearest(against, names);
}

void unknown_pest(const job::Mix& mix, diag::Diagnostics& out) {
    const std::string near = near_pest(*mix.against);
    out.error("no-published-support", mix.against.place,
              diag::say("nothing published is known to support a home-made bait or spray against "
                        "'{}'",
                        *mix.against),
              near.empty()
                  ? accept_hint("ask a licensed professional what it is and what helps, or "
                                "see gallipot pests for those that are known",
                                "no-published-support")
                  : diag::say("did you mean '{}'?", near));
}

void refused(const job::Mix& mix, const Pest& pest, diag::Diagnostics& out) {
    const bool none = pest.support.value == Support::none;
    const std::string code = none ? "no-published-support" : "advised-against";
    out.error(code, mix.against.place,
              none ? diag::say("nothing published supports a home-made bait or spray against {} "
                               "({})",
                               diag::term(pest.name), pest.support.source)
                   : diag::say("trials of such baits against {} contradict each other ({})",
                               diag::term(pest.name), pest.support.source),
              accept_hint(diag::term(pest.instead), code));
}

/// A food bait against what lives in wood, or a spray against what comes to eat.
void check_form(const job::Mix& mix, const Pest& pest, diag::Diagnostics& out) {
    const bool spray = *mix.form == job::Form::spray;
    if (pest.lives_in_wood && !spray) {
        if (pest.name == "termites") {
            out.error("termite-food-bait", mix.form.place,
                      diag::say("'{}' is a bait to eat against termites, whose colony goes on out "
                                "of sight while it stands",
                                mix.id),
                      accept_hint("ask a licensed termite inspector", "termite-food-bait"));
        } else {
            out.error("no-published-support", mix.form.place,
                      diag::say("{} live in wood and come to no bait, but '{}' is none that is "
                                "sprayed",
                                diag::term(pest.name), mix.id),
                      accept_hint("treat the wood they live in, with a mix that is sprayed",
                                  "no-published-support"));
        }
    } else if (std::ranges::none_of(pest.usual,
                                    [&](const reference::UsualStrength& usual) {
                                        return usual.preparation == preparation(*mix.form);
                                    }) &&
               pest.support.value == Support::yes) {
        out.warning(
            "unpublished-form", mix.form.place,
            diag::say("no strength is published for a {} mix against {}",
                      diag::term(reference::word(preparation(*mix.form))), diag::term(pest.name)),
            "choose a form that gallipot pests shows a strength for, or accept: "
            "[unpublished-form]");
    }
    if (pest.support.value == Support::weak && !(pest.lives_in_wood && spray)) {
        out.warning("weak-support", mix.against.place,
                    diag::say("there is little to say that such a bait works against {} ({})",
                              diag::term(pest.name), pest.support.source),
                    "count with care and ask a licensed professional in time, or accept: "
                    "[weak-support]");
    }
}

void check_inspected(const job::Job& job, const job::Mix& mix, diag::Diagnostics& out) {
    for (const job::Station& station : job.stations) {
        if (!station.mix || **station.mix != mix.id || station.inspected) continue;
        out.warning("not-inspected", station.id.place,
                    diag::say("nobody licensed has looked for termites at '{}' yet, as far as the "
                              "job says",
                              *station.id),
                    "ask a licensed termite inspector, then add inspected: { by: .., on: .. }");
    }
}

}  // namespace

Preparation preparation(job::Form form) {
    switch (form) {
        case job::Form::dry:
            return Preparation::dry;
        case job::Form::paste:
            return Preparation::paste;
        case job::Form::spray:
            return Preparation::spray;
        case job::Form::liquid:
            break;
    }
    return Preparation::liquid;
}

void check_support(const job::Job& job, const job::Mix& mix, diag::Diagnostics& out) {
    const auto named = reference::all_pests_in(*mix.against);
    if (named.empty()) {
        unknown_pest(mix, out);
        return;
    }
    if (named.size() > 1) {
        std::vector<diag::Text> names;
        for (const Pest* pest : named) names.push_back(diag::term(pest->name));
        out.warning("several-pests", mix.against.place,
                    diag::say("'{}' names {}; the mix is treated as one against {}", *mix.against,
                              diag::chained(names, "{} and {}"), names.front()),
                    "make a mix of its own against each pest");
    }
    const Pest& pest = *named.front();
    if (pest.name == "fire ants" && *job.help.region == "AU") {
        out.error("report-first", mix.against.place,
                  "fire ants must be reported in Australia before anything is done about them "
                  "(Queensland: Biosecurity Act 2014, telephone 13 25 23)",
                  accept_hint("report them", "report-first"));
    }
    if (pest.support.value == Support::none || pest.support.value == Support::conflicting) {
        refused(mix, pest, out);
        return;
    }
    check_form(mix, pest, out);
    if (pest.name == "termites") check_inspected(job, mix, out);
}

}  // namespace gallipot::plan
