#include "app/round.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>

#include "app/overflows.hpp"
#include "app/station_choice.hpp"
#include "domain/plan/planner.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/round_sheet.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/overflow.hpp"

namespace gallipot::app {
namespace {

/// A level is hardly read more finely, and a card is not to list fifty fills.
double in_quarters(double part) {
    return std::ceil(part * 4) / 4;
}

std::vector<ToFill> to_fill(const analysis::Report& report,
                            const std::vector<analysis::Stop>& stops) {
    std::vector<ToFill> all;
    for (const analysis::Stop& stop : stops) {
        const analysis::StationReport& station = report.stations.at(stop.station);
        for (const analysis::Task& task : analysis::tasks_of(station, stop)) {
            const double part = analysis::to_fill(station, task);
            if (part <= 0 || station.containers.empty()) continue;
            all.push_back({station.container_id(task.number), stop.station, in_quarters(part),
                           analysis::is_filled_afresh(task)});
        }
    }
    return all;
}

/// The kind of container that a station has, filled only so far as it is topped up.
std::string add_top_up(job::Job& job, const std::string& type, double part) {
    const std::string id = type + ", " + std::to_string(std::lround(part * 4)) + "/4";
    if (job.container(id) != nullptr) return id;
    job::Container container = *job.container(type);
    container.id = id;
    container.fill.value = container.fill.value * part;
    job.containers.push_back(container);
    return id;
}

/// The job of what is made for a round: each container that is filled is a station of its own.
job::Job job_of(const job::Job& whole, const std::vector<ToFill>& fill, analysis::Day on) {
    job::Job job = whole;
    job.prepared.value = job::Date(on);
    job.stations.clear();
    job.retired.clear();
    job.idle_mixes.clear();
    for (const ToFill& each : fill) {
        job::Station station = whole.stations.at(each.station);
        station.id.value = each.id;
        station.count = 1;
        station.placed = {analysis::LocalTime(on) + std::chrono::hours(12), station.id.place};
        station.placed_by_day = true;
        station.filled.reset();
        station.written.reset();
        station.changes.clear();
        station.until.reset();
        if (each.part < 1)
            station.container->value = add_top_up(job, **station.container, each.part);
        job.stations.push_back(std::move(station));
    }
    // As much as the round takes, whatever was made at first.
    for (job::Mix& mix : job.mixes) {
        mix.batch.reset();
        mix.batch_times.reset();
        mix.makes.reset();
        mix.vessel.reset();
        mix.made.reset();
    }
    std::erase_if(job.mixes, [&](const job::Mix& mix) {
        return std::ranges::none_of(job.stations, [&](const job::Station& station) {
            return station.mix && **station.mix == mix.id;
        });
    });
    return job;
}

/// A batch too small to be measured with what there is becomes the nearest larger one that can be.
bool enlarge(job::Job& job, const plan::Plan& plan) {
    bool changed = false;
    for (job::Mix& mix : job.mixes) {
        const plan::Mix* planned = plan.mix(mix.id);
        if (planned == nullptr || mix.batch) continue;
        for (const plan::Ingredient& ingredient : planned->ingredients) {
            if (ingredient.within_tolerance || ingredient.better_batches.empty()) continue;
            const plan::BetterBatch& larger = ingredient.better_batches.back();
            if (larger.factor <= 1) continue;
            mix.batch = {larger.measured, mix.place};
            changed = true;
            break;
        }
    }
    return changed;
}

/// Where nothing that small can be measured, as much is made as for the whole job.
void make_whole_batches(job::Job& job, const Session& whole) {
    for (job::Mix& mix : job.mixes) {
        const job::Mix& asked = *whole.job->mix(mix.id);
        mix.batch = asked.batch;
        mix.batch_times = asked.batch_times;
        mix.makes = asked.makes;
        if (mix.batch || mix.batch_times || mix.makes) continue;
        if (const plan::Mix* planned = whole.plan.mix(mix.id); planned != nullptr)
            mix.batch = {planned->measured, mix.place};
    }
}

/// What is unwise of the whole job was said of it; how this batch measures was not.
bool tells_of_measuring(const diag::Diagnostic& found) {
    constexpr std::array codes{"coarse-scale",   "measure-off",     "over-limit-measured",
                               "no-measure-for", "never-dissolves", "batch-too-small"};
    return found.severity == diag::Severity::error ||
           std::ranges::find(codes, found.code) != codes.end();
}

/// Plans what is made, with the codes of the whole job.
void plan_it(Session& made, const Session& whole, const std::vector<ToFill>& fill) {
    std::map<std::string, std::string> links;
    for (const ToFill& each : fill) links[each.id] = whole.plan.stations.at(each.station).link;
    const auto link = [&](const job::Station& station) { return links[*station.id]; };
    diag::Diagnostics found;
    made.plan = plan::make_plan(*made.job, link, found);
    if (enlarge(*made.job, made.plan)) {
        found = {};
        made.plan = plan::make_plan(*made.job, link, found);
    }
    if (found.has_errors()) {
        make_whole_batches(*made.job, whole);
        found = {};
        made.plan = plan::make_plan(*made.job, link, found);
    }
    made.found = {};
    for (const diag::Diagnostic& each : found.in_order()) {
        if (tells_of_measuring(each)) made.found.add(each);
    }
    apply_accepted(made);
}

std::string file_name(const char* name, const std::string& language, bool first) {
    return first ? std::string(name) + ".pdf" : std::string(name) + "-" + language + ".pdf";
}

}  // namespace

NextRound next_round(const Session& session, const Evidence& evidence,
                     std::optional<analysis::Day> on) {
    NextRound round;
    round.on = on.value_or(evidence.report.as_of);
    round.to_make.file = session.file;
    round.to_make.data = session.data;
    round.to_make.secret = session.secret;
    round.to_make.who = session.who;
    if (!evidence.rounds.empty()) {
        const analysis::Round& next = evidence.rounds.front();
        if (!on || next.on <= *on) {
            round.on = on.value_or(next.on);
            round.stops = next.stops;
        } else {
            round.later = next.on;
        }
    }
    round.fill = to_fill(evidence.report, round.stops);
    round.to_make.job = job_of(*session.job, round.fill, round.on);
    if (round.fill.empty()) return round;
    plan_it(round.to_make, session, round.fill);
    for (const ToFill& each : round.fill)
        if (each.fresh) round.labels.push_back(each.id);
    return round;
}

Papers round_papers(NextRound& round, const Session& session, const Evidence& evidence,
                    const Resources& resources, const PaperChoice& choice) {
    Papers papers;
    papers.faces = find_faces(session, resources);
    Session& made = round.to_make;
    std::vector<std::string> languages = choice.languages;
    if (languages.empty())
        for (const auto& language : session.job->languages) languages.push_back(*language);
    made.read_words(languages, resources.threads);
    if (made.found.has_errors()) return papers;
    const auto lay_out = [&](const std::string& file, const std::string& name,
                             const text::Catalog& words, std::vector<document::Sheet> sheets) {
        document::Document document;
        document.title =
            document::headed(words, session.job->title->in(words.tag()), words("paper." + name));
        document.language = words.tag();
        document.sheets = std::move(sheets);
        const auto style =
            *session.job->paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
        try {
            papers.all.push_back({file, layout::lay_out(document, style, papers.faces), true, {}});
        } catch (const layout::LayoutError& error) {
            tell_overflows(error.overflows(), *made.job, {}, made.found);
        }
    };
    for (const std::string& language : languages) {
        const bool first = language == languages.front();
        const text::Catalog& words = made.words(language);
        lay_out(file_name("round", language, first), "round", words,
                {document::round_sheet(*session.job, evidence.report, round.stops, round.on,
                                       *made.job, made.plan, words)});
        if (!made.plan.mixes.empty())
            lay_out(file_name("cards", language, first), "cards", words,
                    document::mixing_cards(*made.job, made.plan, made.who, words));
    }
    if (round.labels.empty() || made.found.has_errors()) return papers;
    PaperChoice labels = choice;
    labels.only = {"labels"};
    labels.stations = choose_stations(made.plan, round.labels, false);
    Papers printed = make_papers(made, resources, labels);
    std::ranges::move(printed.all, std::back_inserter(papers.all));
    std::ranges::move(printed.labels, std::back_inserter(papers.labels));
    return papers;
}

}  // namespace gallipot::app
