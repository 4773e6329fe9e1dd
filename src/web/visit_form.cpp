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
    explicit Reader(FormContext& reading) : reading_(reading) {}

    std::optional<int> count(const std::string& field, const std::string& text, int minimum = 0) {
        if (log::tidy(text).empty()) return std::nullopt;
        const auto value = log::parse_count(text);
        if (!value || *value < minimum)
            fault(field, minimum == 0 ? "count" : "count_from_one",
                  {{"most", std::int64_t{log::maximum_counted}}});
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
    FormContext& reading_;
};

/// A day that may be a slip is asked about, until it is said to be right or corrected.
void ask_about_slip(Reader& reader, const log::Period& period, const plan::Station& station,
                    const visit::Visit& visit, const FormData& data,
                    const std::optional<log::Entry>& old) {
    const auto doubt = period.doubt(station, visit);
    const bool said_right = data.sure == log::print_time(visit.time);
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

FormData data(const Form& form) {
    FormData data;
    data.token = form.value("token");
    data.station = form.value("station");
    data.seen = form.value("seen");
    data.dead = form.value("dead");
    data.minutes = form.value("minutes");
    data.young = form.value("young");
    data.trap_nights = form.value("trap_nights");
    data.feeding = form.value("feeding");
    data.sure = form.value("sure");
    data.level = form.value("level");
    data.by = form.value("by");
    data.time = form.value("time");
    data.note = form.value("note");
    for (const std::string& word : form.values("state")) data.state.insert(word);
    for (const std::string& word : form.values("did")) data.did.insert(word);
    data.corrects = form.value("corrects");
    data.withdraw = form.value("withdraw") == "yes";
    return data;
}

FormData data(const log::Entry& entry) {
    const visit::Visit& visit = entry.visit;
    FormData data;
    data.token = new_token();
    data.station = log::print_target(visit);
    data.seen = print(visit.seen);
    data.dead = print(visit.dead);
    data.minutes = print(visit.minutes);
    data.young = print(visit.young);
    data.trap_nights = print(visit.trap_nights);
    if (visit.feeding) data.feeding = log::print_yes_no(*visit.feeding);
    data.level = print(visit.level_percent);
    data.by = diag::printable(visit.by);
    data.time = log::print_time(visit.time);
    data.time[10] = 'T';  // as a browser's field for it wants it
    data.note = diag::printable_lines(visit.note);
    for (const visit::State state : visit::all_states())
        if (visit.state.has(state)) data.state.emplace(visit::word(state));
    for (const visit::Did did : visit::all_dids())
        if (visit.did.has(did)) data.did.emplace(visit::word(did));
    data.corrects = std::to_string(entry.number);
    return data;
}

void keep_what_is_not_there(FormData& kept, const Form& form, const log::Entry& old) {
    const FormData before = data(old);
    const auto keep = [&](const char* name, std::string FormData::*field) {
        if (!form.has(name)) kept.*field = before.*field;
    };
    keep("station", &FormData::station);
    keep("seen", &FormData::seen);
    keep("dead", &FormData::dead);
    keep("minutes", &FormData::minutes);
    keep("young", &FormData::young);
    keep("trap_nights", &FormData::trap_nights);
    keep("feeding", &FormData::feeding);
    keep("note", &FormData::note);
    keep("by", &FormData::by);
    if (log::tidy(kept.time).empty()) kept.time = before.time;
    if (form.has("level")) return;
    kept.level = before.level;
    if (!form.has("state")) kept.state = before.state;
    if (!form.has("did")) kept.did = before.did;
}

FormData empty_form(const std::string& station, const std::string& by) {
    FormData data;
    data.token = new_token();
    data.station = station;
    data.by = by;
    return data;
}

FormContext read_visit(const FormData& data, const plan::Plan& plan, const plan::Station& station,
                       const log::Zone& zone, log::LocalTime now,
                       const std::optional<log::Entry>& old) {
    FormContext reading;
    Reader reader(reading);
    visit::Visit& visit = reading.draft.visit;
    if (old) visit = old->visit;
    visit.station = station.id;
    visit.container = 0;
    if (!data.station.empty()) {
        const auto target = log::find_target(plan, data.station);
        if (target && target->station == station.id)
            visit.container = target->container;
        else
            reader.fault("station", "which");
    }
    visit.seen = reader.count("seen", data.seen);
    visit.dead = reader.count("dead", data.dead);
    visit.minutes = reader.count("minutes", data.minutes, 1);
    visit.trap_nights = reader.count("trap_nights", data.trap_nights, 1);
    visit.young = reader.count("young", data.young);
    visit.feeding.reset();
    if (!log::tidy(data.feeding).empty()) {
        visit.feeding = log::parse_yes_no(data.feeding);
        if (!visit.feeding) reader.fault("feeding", "word");
    }
    visit.level_percent.reset();
    if (!log::tidy(data.level).empty()) {
        visit.level_percent = log::parse_level(data.level);
        if (!visit.level_percent) reader.fault("level", "level");
    }
    std::string stranger;
    if (const auto states = log::parse_states(joined(data.state), stranger))
        visit.state = *states;
    else
        reader.fault("state", "word");
    if (const auto dids = log::parse_dids(joined(data.did), stranger))
        visit.did = *dids;
    else
        reader.fault("did", "word");
    visit.note = reader.words("note", data.note, log::longest_note, true);
    visit.by = reader.words("by", data.by, log::longest_name, false);
    visit.time = now;
    reading.draft.time_is_now = log::tidy(data.time).empty();
    const log::Period period(plan, now);
    if (!reading.draft.time_is_now) {
        const auto time = log::parse_time(log::tidy(data.time), zone);
        if (!time)
            reader.fault("time", "time");
        else if (period.is_to_come(*time) || period.fault(*time) == log::TimeFault::too_late)
            reader.fault("time", "future");
        else if (period.fault(*time) == log::TimeFault::too_early)
            reader.fault("time", "too_early");
        else
            visit.time = *time;
        if (time && visit.time == *time && !data.withdraw)
            ask_about_slip(reader, period, station, visit, data, old);
    } else if (!period.clock_can_be()) {
        reader.fault("time", "clock");
    }
    reading.draft.withdrawn = data.withdraw;
    if (!data.corrects.empty()) {
        reading.draft.corrects = entry_number(data.corrects);
        if (!reading.draft.corrects) reader.fault("corrects", "gone");
    }
    if (data.withdraw && !reading.draft.corrects) reader.fault("withdraw", "gone");
    constexpr std::size_t longest_token = 64;
    reading.draft.token = data.token.substr(0, longest_token);
    if (reading.faults.empty() && !data.withdraw && !log::says_something(visit))
        reader.fault("seen", "nothing");
    return reading;
}

}  // namespace gallipot::web
