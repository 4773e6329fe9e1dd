#include <algorithm>
#include <chrono>
#include <fmt/format.h>
#include <numbers>
#include <set>

#include "base/units/duration_words.hpp"
#include "domain/job/reader.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

using diag::Diagnostics;

constexpr std::size_t many_languages = 6;

Date day_of(LocalTime time) {
    return std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(time));
}

void on_the_job(const Job& job, Diagnostics& out) {
    const Place whole = job.title.place;  // what the job lacks stands nowhere in it
    if (job.measures.empty() && !job.mixes.empty()) {
        out.warning("no-measures", whole, "nothing to measure with is listed",
                    "add measures: with the spoons, cups, jugs and scales there are");
    }
    const auto is_control = [](const Station& s) { return s.control; };
    // One that was taken up was counted as long as it stood.
    const bool control = std::ranges::any_of(job.stations, is_control) ||
                         std::ranges::any_of(job.retired, is_control);
    if (!control) {
        out.warning(
            "no-control", whole,
            "no station is unbaited (control: true), so a fall may have other causes",
            "add a station with control: true where pests are counted and nothing is set out");
    }
    if (!job.help.contact) {
        out.warning("no-contact", job.help.region.place,
                    "the papers will not say who looks after the baits",
                    "add contact: { name: .., phone: .. } under help");
    }
    if (job.languages.size() >= many_languages) {
        out.warning(
            "many-languages", job.languages.back().place,
            diag::say("{} languages: every household sheet comes in each", job.languages.size()),
            "keep those that are read in the house");
    }
    if (job.visits.empty()) {
        out.warning("no-visits", whole, "no visits are planned",
                    "add visits: [1 d, 7 d, 14 d, 21 d, 28 d]");
    }
}

void on_mixes(const Job& job, Diagnostics& out) {
    std::set<std::string> used, used_containers;
    for (const Station& station : job.stations) {
        if (station.mix) used.insert(**station.mix);
        if (station.container) used_containers.insert(**station.container);
    }
    for (const Mix& mix : job.mixes) {
        if (!used.contains(mix.id)) {
            out.warning("unused", mix.place, diag::say("no station uses the mix '{}'", mix.id),
                        "name it at a station, or take it out");
        }
        if (!mix.lasts && *mix.form != Form::spray) {
            out.warning("no-lasts", mix.place,
                        diag::say("'{}' does not say when to replace it", mix.id),
                        "add lasts: with how long it stays good");
        }
    }
    for (const Container& container : job.containers) {
        if (!used_containers.contains(container.id)) {
            out.warning("unused", container.place,
                        diag::say("no station uses the container '{}'", container.id),
                        "name it at a station, or take it out");
        }
        const Body& body = container.body;
        if (!body.diameter || !body.height) continue;
        const units::Volume outside =
            std::numbers::pi / 4 * (*body.diameter * *body.diameter) * *body.height;
        if (outside < *container.holds) {
            out.warning(
                "small-body", body.place,
                diag::say("'{}' is said to hold {:.3g} mL, but its body takes up {:.3g} mL",
                          container.id, units::in_mL(*container.holds), units::in_mL(outside)),
                "measure the container again");
        }
    }
}

void on_when(const Job& job, const Station& station, Diagnostics& out) {
    if (!station.placed || station.control) return;
    const auto placed = std::chrono::local_days(day_of(**station.placed));
    const auto prepared = std::chrono::local_days(*job.prepared);
    if (placed < prepared) {
        out.warning("placed-early", station.placed->place,
                    diag::say("'{}' is set out before the mix is made", *station.id),
                    "check placed and prepared");
        return;
    }
    const Mix* mix = station.mix ? job.mix(**station.mix) : nullptr;
    if (mix == nullptr || !mix->lasts) return;
    const double days = static_cast<double>((placed - prepared).count());
    if (days > units::in_days(**mix->lasts)) {
        out.warning("placed-late", station.placed->place,
                    diag::say("'{}' is set out {} after the mix was made, which lasts {}",
                              *station.id, units::days_in_words(days),
                              units::days_in_words(units::in_days(**mix->lasts))),
                    "make a fresh mix, and set prepared to that day");
    }
}

}  // namespace

void advise(const Job& job, Diagnostics& out) {
    on_the_job(job, out);
    on_mixes(job, out);
    advise_on_languages(job, out);
    advise_on_places(job, out);
    advise_on_visits(job, out);
    const bool plan = job.floor_plan.has_value();
    for (const Station& station : job.stations) {
        on_when(job, station, out);
        if (!plan && (station.at || station.floor)) {
            out.warning("no-plan", station.at ? station.at->place : station.floor->place,
                        "there is no floor plan that this could stand on",
                        "add floor_plan: with its rooms, or leave this out");
        }
    }
}

}  // namespace gallipot::job
