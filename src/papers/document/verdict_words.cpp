#include "papers/document/verdict_words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <span>

#include "base/diag/utf8.hpp"
#include "tracking/analysis/rules.hpp"

namespace gallipot::document {

namespace {

using analysis::Action;
using analysis::Caution;
using analysis::Day;
using analysis::Formula;
using analysis::Trend;
using analysis::Verdict;
using analysis::Why;
using text::Catalog;

std::string_view key(Verdict verdict) {
    constexpr std::array<std::string_view, 18> keys{
        "not_started", "never_visited", "not_counted", "counted_once", "none_seen",
        "gone",        "none_now",      "falling",     "lower",        "no_change",
        "rising",      "rebound",       "stalled",     "taken_up",     "control",
        "wood_active", "wood_quiet",    "wood_unknown"};
    return keys.at(static_cast<std::size_t>(verdict));
}

std::string_view key(Why why) {
    constexpr std::array<std::string_view, 19> keys{
        "none",           "past_its_time",  "spoilt",   "dry",        "runs_empty",
        "came_back",      "worse",          "no_fall",  "too_long",   "in_wood",
        "place_at_fault", "none_came",      "gone",     "until_gone", "until_traps",
        "until_result",   "until_too_long", "none_fed", "few_left"};
    return keys.at(static_cast<std::size_t>(why));
}

std::string_view key(Action action) {
    constexpr std::array<std::string_view, 14> keys{
        "call_professional", "find",  "wipe_up", "put_back", "set_out",     "visit",
        "replace",           "clear", "top_up",  "move_it",  "change_bait", "take_up",
        "keep_going",        "look"};
    return keys.at(static_cast<std::size_t>(action));
}

/// 97.5 % down is "98 %", but 99.7 % is not "100 %" while one is left.
std::string down_text(double change_percent, const Catalog& words) {
    const double down = std::min(-change_percent, 100.0);
    const double rounded = down < 100 ? std::min(std::round(down), 99.0) : 100;
    return words.percent(rounded / 100);
}

/// All the arguments a verdict may ask for; a message takes those it names.
text::Arguments arguments(const Trend& t, Day as_of, const Catalog& words) {
    text::Arguments all{{"n", static_cast<std::int64_t>(t.counts)}};
    if (t.counts == 0) return all;
    const auto day = [&](analysis::LocalTime time) {
        return near_day(analysis::day_of(time), as_of, words);
    };
    all.insert(all.end(), {{"first", count_text(t.first.seen, words)},
                           {"first_day", day(t.first.time)},
                           {"last", count_text(t.last.seen, words)},
                           {"day", day(t.last.time)},
                           {"lowest", count_text(t.lowest, words)}});
    if (t.none_since) all.emplace_back("since", day(*t.none_since));
    if (t.drawn) {
        all.emplace_back("most", count_text(t.drawn->seen, words));
        all.emplace_back("most_day", day(t.drawn->time));
    }
    if (t.change_percent) all.emplace_back("percent", down_text(*t.change_percent, words));
    if (t.half && t.half->low && t.half->high) {
        all.emplace_back("half", days_text(t.half->days, words));
        all.emplace_back("low", days_figure(*t.half->low, words));
        all.emplace_back("high", days_figure(*t.half->high, words));
    }
    return all;
}

std::string falling_key(const Trend& t) {
    if (t.drawn) return "falling_drawn";
    if (t.of_mean_place && t.half && t.half->high) return "falling_mean";
    return t.half && t.half->high ? "falling_half" : "falling";
}

}  // namespace

std::string verdict_sentence(const analysis::StationReport& station, Day as_of,
                             const Catalog& words) {
    const Trend& t = station.trend;
    std::string which(key(station.verdict));
    if (station.verdict == Verdict::falling) which = falling_key(t);
    if (station.early &&
        (station.verdict == Verdict::no_change || station.verdict == Verdict::rising))
        which = "early";
    if (station.verdict == Verdict::counted_once) {
        if (station.counts.not_alike > 0)
            which = "not_alike";
        else if (station.counts.baseline)
            which = "baseline";
    }
    if (station.verdict == Verdict::retired && t.counts > 0) which = "taken_up_last";
    if (station.pest == "termites" && station.verdict == Verdict::wood_quiet)
        which = "wood_quiet_termites";
    if (station.verdict == Verdict::control && t.counts == 1) which = "control_once";
    if (station.verdict == Verdict::control && t.counts == 0) which = "control_not_counted";
    text::Arguments all = arguments(t, as_of, words);
    if (station.result_by) all.emplace_back("until", near_day(*station.result_by, as_of, words));
    return words("verdict." + which, all);
}

std::string verdict_sentence(const analysis::PestReport& pest, Day as_of, const Catalog& words) {
    std::string which(key(pest.verdict));
    if (pest.verdict == Verdict::falling) which = falling_key(pest.trend);
    if (pest.pest == "termites" && pest.verdict == Verdict::wood_quiet)
        which = "wood_quiet_termites";
    return words("verdict_all." + which, arguments(pest.trend, as_of, words));
}

std::string verdict_name(Verdict verdict, const Catalog& words) {
    return words("verdict_name." + std::string(key(verdict)));
}

std::string effect_figure(double percent, const Catalog& words) {
    return percent > 0 ? down_text(-percent, words) : words("report.table.no_effect");
}

std::string caution_sentence(Caution caution, const Catalog& words) {
    constexpr std::array<std::string_view, 8> keys{
        "none",         "no_control",   "not_together", "none_at_control",
        "like_control", "control_gone", "two_places",   "one_control"};
    if (caution == Caution::none) return {};
    return words("caution." + std::string(keys.at(static_cast<std::size_t>(caution))));
}

std::string effect_sentence(const analysis::Efficacy& efficacy, Day as_of, const Catalog& words) {
    if (!efficacy.percent) return {};
    // Nothing is clipped: six times as many are -500 %.
    const auto percent = [&](double value) {
        return value > 0 ? down_text(-value, words)
                         : "-" + words.percent(std::round(-value) / 100);
    };
    std::string which =
        efficacy.formula == Formula::abbott ? "effect.abbott" : "effect.henderson_tilton";
    if (*efficacy.percent <= 0)
        which += "_none";
    else if (efficacy.interval && !efficacy.plain())
        which += "_unsure";
    text::Arguments all{{"n", static_cast<std::int64_t>(efficacy.controls)},
                        {"percent", percent(*efficacy.percent)}};
    if (efficacy.interval) {
        all.emplace_back("low", percent(efficacy.interval->low));
        all.emplace_back("high", percent(efficacy.interval->high));
    }
    if (efficacy.counted_from) {
        all.emplace_back("from", near_day(*efficacy.counted_from, as_of, words));
        all.emplace_back("to", near_day(*efficacy.counted_to, as_of, words));
    }
    return words(which, all);
}

std::string flag_name(analysis::Flag flag, const Catalog& words) {
    std::string which(analysis::word(flag));
    for (char& c : which)
        if (c == ' ') c = '_';
    return words("flag." + which);
}

namespace {

std::string action_sentence(const analysis::Step& step, Day as_of, const Catalog& words) {
    text::Arguments all;
    if (step.action == Action::keep_going) all.emplace_back("day", near_day(step.on, as_of, words));
    return words("action." + std::string(key(step.action)), all);
}

/// What to do, and why where that is not plain.
std::string with_reason(const analysis::Step& step, Day as_of, const Catalog& words) {
    std::string text = action_sentence(step, as_of, words);
    if (step.why == Why::none) return text;
    text::Arguments all;
    if (step.why == Why::too_long || step.why == Why::gone)
        all.emplace_back("days", days_text(step.days, words));
    if (step.why == Why::until_traps) all.emplace_back("n", std::int64_t{step.days});
    return text + " " + words("why." + std::string(key(step.why)), all);
}

bool same_task(const analysis::Step& a, const analysis::Step& b) {
    return a.action == b.action && a.on == b.on && a.why == b.why;
}

/// Says each of `steps` as `say` does, once for all containers that it is the same for.
template <class Say>
std::vector<std::string> said(const analysis::StationReport& station,
                              std::span<const analysis::Step> steps, const Catalog& words,
                              Say say) {
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < steps.size();) {
        const analysis::Step& step = steps[i];
        std::vector<std::string> ids;
        bool whole = false;
        for (; i < steps.size() && same_task(steps[i], step); ++i) {
            whole = whole || steps[i].container == 0;
            ids.push_back(station.container_id(steps[i].container));
        }
        const std::string sentence = say(step);
        sentences.push_back(
            whole ? sentence
                  : words("action.of", {{"ids", words.list(ids)}, {"action", sentence}}));
    }
    return sentences;
}

std::string run_together(const std::vector<std::string>& sentences) {
    std::string text;
    for (const std::string& sentence : sentences) text += (text.empty() ? "" : " ") + sentence;
    return text;
}

}  // namespace

std::string action_sentences(const analysis::StationReport& station,
                             const std::vector<analysis::Step>& steps, Day as_of,
                             const Catalog& words) {
    return run_together(said(station, steps, words, [&](const analysis::Step& step) {
        return action_sentence(step, as_of, words);
    }));
}

std::vector<std::string> step_sentences(const analysis::StationReport& station, Day as_of,
                                        const Catalog& words) {
    const std::span<const analysis::Step> steps(station.steps);
    const auto goes_on = [](const analysis::Step& step) {
        return step.action == Action::keep_going;
    };
    std::vector<std::string> sentences;
    for (std::size_t i = 0; i < steps.size();) {
        const analysis::Step& first = steps[i];
        std::size_t end = i + 1;
        while (!goes_on(first) && end < steps.size() && steps[end].on == first.on &&
               !goes_on(steps[end]))
            ++end;
        const std::string what = run_together(
            said(station, steps.subspan(i, end - i), words,
                 [&](const analysis::Step& step) { return with_reason(step, as_of, words); }));
        sentences.push_back(
            goes_on(first) ? what
                           : words(first.on <= as_of ? "action.now" : "action.by",
                                   {{"day", near_day(first.on, as_of, words)}, {"action", what}}));
        i = end;
    }
    return sentences;
}

std::string next_round_sentence(const analysis::Report& report,
                                const std::vector<analysis::Round>& walks, const Catalog& words) {
    if (walks.empty()) return {};
    const analysis::Round& next = walks.front();
    const std::string day = near_day(next.on, report.as_of, words);
    constexpr std::size_t maximum_named = 12;
    if (next.stops.size() > maximum_named)
        return words("report.next_many",
                     {{"day", day}, {"n", static_cast<std::int64_t>(next.stops.size())}});
    std::vector<std::string> ids;
    for (const analysis::Stop& stop : next.stops) ids.push_back(report.stations[stop.station].id);
    return words("report.next", {{"day", day}, {"ids", words.list(ids)}});
}

std::string see_to_sentence(const analysis::Report& report, const Catalog& words) {
    std::vector<std::string> ids;
    for (const analysis::StationReport& station : report.stations)
        if (!station.flags.empty()) ids.push_back(station.id);
    constexpr std::size_t maximum_named = 12;
    if (ids.size() > maximum_named)
        return words("report.see_to_many", {{"n", static_cast<std::int64_t>(ids.size())}});
    return ids.empty() ? std::string() : words("report.see_to", {{"ids", words.list(ids)}});
}

namespace {

/// The first of them, and how many there are.
std::string entries_sentence(const char* key, const std::vector<std::int64_t>& entries,
                             const Catalog& words) {
    constexpr std::size_t maximum_named = 20;
    std::vector<std::string> numbers;
    for (const std::int64_t number : entries) {
        if (numbers.size() == maximum_named) {
            numbers.back() = "…";
            break;
        }
        numbers.push_back(std::to_string(number));
    }
    return words(key, {{"n", std::int64_t(entries.size())}, {"numbers", words.list(numbers)}});
}

}  // namespace

std::string left_out_sentence(const analysis::Report& report, const Catalog& words) {
    std::string sentences;
    const auto add = [&](const std::string& sentence) {
        sentences += (sentences.empty() ? "" : " ") + sentence;
    };
    if (!report.unknown_stations.empty()) {
        std::vector<std::string> ids;
        std::int64_t visits = 0;
        for (const auto& [id, number] : report.unknown_stations) {
            ids.push_back(diag::printable(id));
            visits += static_cast<std::int64_t>(number);
        }
        add(words("report.strangers", {{"n", visits}, {"ids", words.list(ids)}}));
    }
    if (!report.left_out.impossible.empty())
        add(entries_sentence("report.impossible", report.left_out.impossible, words));
    if (!report.left_out.unreadable.empty())
        add(entries_sentence("report.unreadable", report.left_out.unreadable, words));
    if (!report.left_out.after_end.empty())
        add(entries_sentence("report.after_end", report.left_out.after_end, words));
    std::vector<std::string> not_alike;
    for (const analysis::StationReport& station : report.stations)
        if (station.counts.not_alike > 0) not_alike.push_back(station.id);
    if (!not_alike.empty()) add(words("report.not_alike", {{"ids", words.list(not_alike)}}));
    return sentences;
}

std::string recipes_sentence(const job::Job& job, const std::vector<analysis::Site>& sites,
                             const Catalog& words) {
    if (sites.empty() || !sites.front().recipes) return {};
    const recipe::Book& recipes = *sites.front().recipes;
    std::vector<std::string> titles;
    for (const job::Mix& mix : job.mixes)
        if (recipes.number(mix.id) > 1) titles.push_back(mix.title->in(words.tag()));
    return titles.empty() ? std::string()
                          : words("report.recipes", {{"mixes", words.list(titles)}});
}

std::string counting_sentence(const analysis::StationReport& station, const Catalog& words) {
    const analysis::Counts& counts = station.counts;
    std::string sentences;
    if (counts.exposures_differ && station.trend.counts > 1)
        sentences =
            words(counts.unit == analysis::ExposureUnit::trap_nights ? "counting.shown_trap_nights"
                                                                     : "counting.shown_minutes",
                  {{"n", static_cast<std::int64_t>(counts.exposure)}});
    if (counts.not_alike > 0)
        sentences +=
            (sentences.empty() ? "" : " ") +
            words("counting.not_alike", {{"n", static_cast<std::int64_t>(counts.not_alike)}});
    return sentences;
}

std::string count_text(double seen, const Catalog& words) {
    return std::round(seen) == seen ? words.number(seen, text::Figures::whole) : words.amount(seen);
}

bool shows_fall(const Trend& t) {
    return t.half && !t.rebounds &&
           (t.falls || t.last.seen <= analysis::rules::halved * t.first.seen);
}

std::string near_day(Day day, Day as_of, const Catalog& words) {
    const std::chrono::year_month_day date(day);
    // Half a year either way there is no doubt which year is meant.
    constexpr std::chrono::days plain{180};
    return std::chrono::abs(day - as_of) <= plain ? words.day(date) : words.date(date);
}

std::string days_figure(double days, const Catalog& words) {
    // Rounding may turn 9.97 into 10.0: decide on what is shown.
    if (std::round(days * 10) < 100) return words.number(days, text::Figures::one_decimal);
    return words.number(days, text::Figures::whole);
}

std::string days_text(double days, const Catalog& words) {
    const double shown =
        std::round(days * 10) < 100 ? std::round(days * 10) / 10 : std::round(days);
    return words("report.days", {{"n", shown}});
}

std::string fall_range(const analysis::FallTime& fall, const Catalog& words) {
    if (!fall.low) return {};
    constexpr double years = 1000;  // days: as good as never
    if (!fall.high || *fall.high > years) return words("report.table.from", {{"low", days_figure(*fall.low, words)}});
    return words("report.table.range", {{"low", days_figure(*fall.low, words)},
                                        {"high", days_figure(*fall.high, words)}});
}

std::string forecast_range(const analysis::Forecast& forecast, Day as_of, const Catalog& words) {
    const std::string low = near_day(analysis::day_of(forecast.low), as_of, words);
    if (!forecast.high) return words("report.table.from", {{"low", low}});
    return words(
        "report.table.range",
        {{"low", low}, {"high", near_day(analysis::day_of(*forecast.high), as_of, words)}});
}

std::string change_text(double percent, const Catalog& words) {
    // Not the minus U+2212, which the papers' fonts do not have; nor a dash, which a line may end
    // on.
    if (percent < 0) return "-" + down_text(percent, words);
    const std::string up = words.percent(std::round(percent) / 100);
    return percent > 0 ? "+" + up : up;
}

}  // namespace gallipot::document
