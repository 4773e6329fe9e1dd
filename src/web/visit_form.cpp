#include "web/visit_form.hpp"

#include <charconv>
#include <fmt/format.h>
#include <random>

#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/period.hpp"

namespace gallipot::web {
namespace {

using log::TextFault;

std::string print(const std::optional<int>& count) {
    return count ? std::to_string(*count) : std::string();
}

std::string joined(const std::set<std::string>& words) {
    std::string all;
    for (const std::string& word : words) all += word + " ";
    return all;
}

class Reader {
  public:
    explicit Reader(Reading& reading) : reading_(reading) {}

    std::optional<int> count(const std::string& field, const std::string& text, int least = 0) {
        if (log::tidy(text).empty()) return std::nullopt;
        const auto value = log::parse_count(text);
        if (!value || *value < least)
            fault(field, least == 0 ? "count" : "count_from_one",
                  {{"most", std::int64_t{log::most_counted}}});
        return value;
    }

    std::string words(const std::string& field, const std::string& text, std::size_t longest,
                      bool lines) {
        std::string tidied = log::tidy(text);
        switch (log::find_fault(tidied, longest, lines)) {
            case TextFault::none:
                break;
            case TextFault::not_utf8:  // a form that is not UTF-8 does not come this far
            case TextFault::control_character:
                fault(field, "character");
                break;
            case TextFault::too_long:
                fault(field, "too_long", {{"most", std::int64_t(longest)}});
                break;
        }
        return tidied;
    }

    void fault(const std::string& field, const std::string& key, text::Arguments arguments = {}) {
        reading_.faults.push_back({field, "web.fault." + key, std::move(arguments)});
    }

    void doubted(log::LocalTime time) { reading_.doubted = time; }

  private:
    Reading& reading_;
};

/// A day that may be a slip is asked about, until it is said to be right or corrected.
void ask_about_slip(Reader& reader, const log::Period& period, const plan::Station& station,
                    const visit::Visit& visit, const Typed& typed,
                    const std::optional<log::Entry>& old) {
    const auto doubt = period.doubt(station, visit);
    const bool said_right = typed.sure == log::print_time(visit.time);
    // What stood so in the entry that is corrected was let stand before.
    const bool stood_so = old && period.doubt(station, old->visit).kind == doubt.kind &&
                          old->visit.time == visit.time;
    if (doubt.kind == log::DateDoubt::none || said_right || stood_so) return;
    const auto day = [](log::LocalTime time) {
        return std::chrono::year_month_day(std::chrono::floor<std::chrono::days>(time));
    };
    const auto before = std::chrono::floor<std::chrono::days>(doubt.placed) -
                        std::chrono::floor<std::chrono::days>(visit.time);
    reader.fault("time", doubt.kind == log::DateDoubt::long_before ? "long_before" : "bait_before",
                 {{"day", day(visit.time)},
                  {"placed", day(doubt.placed)},
                  {"n", std::int64_t{before.count()}}});
    reader.doubted(visit.time);
}

}  // namespace

std::optional<std::int64_t> entry_number(const std::string& text) {
    std::int64_t number = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
    if (error != std::errc() || end != text.data() + text.size() || number < 1) return std::nullopt;
    return number;
}

std::string new_token() {
    std::random_device random;
    return fmt::format("{:08x}{:08x}{:08x}{:08x}", random(), random(), random(), random());
}

Typed typed(const Form& form) {
    Typed typed;
    typed.token = form.value("token");
    typed.station = form.value("station");
    typed.seen = form.value("seen");
    typed.dead = form.value("dead");
    typed.minutes = form.value("minutes");
    typed.young = form.value("young");
    typed.trap_nights = form.value("trap_nights");
    typed.feeding = form.value("feeding");
    typed.sure = form.value("sure");
    typed.level = form.value("level");
    typed.by = form.value("by");
    typed.time = form.value("time");
    typed.note = form.value("note");
    for (const std::string& word : form.values("state")) typed.state.insert(word);
    for (const std::string& word : form.values("did")) typed.did.insert(word);
    typed.corrects = form.value("corrects");
    typed.withdraw = form.value("withdraw") == "yes";
    return typed;
}

Typed typed(const log::Entry& entry) {
    const visit::Visit& visit = entry.visit;
    Typed typed;
    typed.token = new_token();
    typed.station = log::print_target(visit);
    typed.seen = print(visit.seen);
    typed.dead = print(visit.dead);
    typed.minutes = print(visit.minutes);
    typed.young = print(visit.young);
    typed.trap_nights = print(visit.trap_nights);
    if (visit.feeding) typed.feeding = log::print_yes_no(*visit.feeding);
    typed.level = print(visit.level_percent);
    typed.by = diag::printable(visit.by);
    typed.time = log::print_time(visit.time);
    typed.time[10] = 'T';  // as a browser's field for it wants it
    typed.note = diag::printable_lines(visit.note);
    for (const visit::State state : visit::all_states())
        if (visit.state.has(state)) typed.state.emplace(visit::word(state));
    for (const visit::Did did : visit::all_dids())
        if (visit.did.has(did)) typed.did.emplace(visit::word(did));
    typed.corrects = std::to_string(entry.number);
    return typed;
}

void keep_what_is_not_there(Typed& kept, const Form& form, const log::Entry& old) {
    const Typed before = typed(old);
    const auto keep = [&](const char* name, std::string Typed::*field) {
        if (!form.has(name)) kept.*field = before.*field;
    };
    keep("station", &Typed::station);
    keep("seen", &Typed::seen);
    keep("dead", &Typed::dead);
    keep("minutes", &Typed::minutes);
    keep("young", &Typed::young);
    keep("trap_nights", &Typed::trap_nights);
    keep("feeding", &Typed::feeding);
    keep("note", &Typed::note);
    keep("by", &Typed::by);
    if (log::tidy(kept.time).empty()) kept.time = before.time;
    if (form.has("level")) return;
    kept.level = before.level;
    if (!form.has("state")) kept.state = before.state;
    if (!form.has("did")) kept.did = before.did;
}

Typed empty_form(const std::string& station, const std::string& by) {
    Typed typed;
    typed.token = new_token();
    typed.station = station;
    typed.by = by;
    return typed;
}

Reading read_visit(const Typed& typed, const plan::Plan& plan, const plan::Station& station,
                   const log::Zone& zone, log::LocalTime now,
                   const std::optional<log::Entry>& old) {
    Reading reading;
    Reader reader(reading);
    visit::Visit& visit = reading.draft.visit;
    if (old) visit = old->visit;
    visit.station = station.id;
    visit.container = 0;
    if (!typed.station.empty()) {
        const auto target = log::find_target(plan, typed.station);
        if (target && target->station == station.id)
            visit.container = target->container;
        else
            reader.fault("station", "which");
    }
    visit.seen = reader.count("seen", typed.seen);
    visit.dead = reader.count("dead", typed.dead);
    visit.minutes = reader.count("minutes", typed.minutes, 1);
    visit.trap_nights = reader.count("trap_nights", typed.trap_nights, 1);
    visit.young = reader.count("young", typed.young);
    visit.feeding.reset();
    if (!log::tidy(typed.feeding).empty()) {
        visit.feeding = log::parse_yes_no(typed.feeding);
        if (!visit.feeding) reader.fault("feeding", "word");
    }
    visit.level_percent.reset();
    if (!log::tidy(typed.level).empty()) {
        visit.level_percent = log::parse_level(typed.level);
        if (!visit.level_percent) reader.fault("level", "level");
    }
    std::string stranger;
    if (const auto states = log::parse_states(joined(typed.state), stranger))
        visit.state = *states;
    else
        reader.fault("state", "word");
    if (const auto dids = log::parse_dids(joined(typed.did), stranger))
        visit.did = *dids;
    else
        reader.fault("did", "word");
    visit.note = reader.words("note", typed.note, log::longest_note, true);
    visit.by = reader.words("by", typed.by, log::longest_name, false);
    visit.time = now;
    reading.draft.time_is_now = log::tidy(typed.time).empty();
    const log::Period period(plan, now);
    if (!reading.draft.time_is_now) {
        const auto time = log::parse_time(log::tidy(typed.time), zone);
        if (!time)
            reader.fault("time", "time");
        else if (period.is_to_come(*time) || period.fault(*time) == log::TimeFault::too_late)
            reader.fault("time", "future");
        else if (period.fault(*time) == log::TimeFault::too_early)
            reader.fault("time", "too_early");
        else
            visit.time = *time;
        if (time && visit.time == *time && !typed.withdraw)
            ask_about_slip(reader, period, station, visit, typed, old);
    } else if (!period.clock_can_be()) {
        reader.fault("time", "clock");
    }
    reading.draft.withdrawn = typed.withdraw;
    if (!typed.corrects.empty()) {
        reading.draft.corrects = entry_number(typed.corrects);
        if (!reading.draft.corrects) reader.fault("corrects", "gone");
    }
    if (typed.withdraw && !reading.draft.corrects) reader.fault("withdraw", "gone");
    constexpr std::size_t longest_token = 64;
    reading.draft.token = typed.token.substr(0, longest_token);
    if (reading.faults.empty() && !typed.withdraw && !log::says_something(visit))
        reader.fault("seen", "nothing");
    return reading;
}

}  // namespace gallipot::web
