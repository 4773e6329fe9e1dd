#include "web/visit_form.hpp"

#include <algorithm>
#include <charconv>
#include <fmt/format.h>
#include <random>

#include "base/diag/utf8.hpp"
#include "tracking/log/fields.hpp"
#include "tracking/log/period.hpp"
#include "tracking/log/typed_count.hpp"

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
        const auto typed = log::parse_typed_count(text);
        if (!typed || typed->value < minimum) {
            fault(field, minimum == 0 ? "count" : "count_from_one",
                  {{"most", std::int64_t{log::maximum_counted}}});
            return std::nullopt;
        }
        if (typed->approximate)
            approximate_ += (approximate_.empty() ? "" : ", ") + field + ": " + log::tidy(text);
        return typed->value;
    }

    /// What was counted about: "seen: 20+", in the names of the CSV.
    [[nodiscard]] const std::string& approximate() const { return approximate_; }

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
    std::string approximate_;
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

/// A tenfold count is more often a digit too many than a swarm; asked about until it is said to be
/// right (our own choice).
void ask_about_count(Reader& reader, FormContext& reading, const FormData& data,
                     const Before& before) {
    constexpr int tenfold = 10;
    const auto& seen = reading.draft.visit.seen;
    if (!seen || !before.seen || *before.seen < 1 || *seen / tenfold < *before.seen) return;
    if (data.sure_seen == std::to_string(*seen)) return;
    if (before.old && before.old->visit.seen == seen) return;
    reader.fault("seen", "tenfold",
                 {{"n", std::int64_t{*seen}}, {"last", std::int64_t{*before.seen}}});
    reading.doubted_count = seen;
}

/// The time of a form that was opened long ago and says none: as it was answered, else asked for.
void read_opened(Reader& reader, FormContext& reading, const FormData& data, const log::Zone& zone,
                 log::LocalTime now, const Before& before) {
    const auto opened = log::parse_time(data.opened, zone);
    if (!opened || *opened > now || now - *opened < fresh_form || before.recorded || before.old)
        return;
    if (data.when == log::print_time(*opened)) {
        reading.draft.visit.time = *opened;
        reading.draft.time_is_now = false;
    } else if (data.when != "now") {
        reader.fault("when", "opened");
    }
    reading.opened = opened;
}

/// "All well, same level": what that is for the container that is meant, or for all.
void read_well(Reader& reader, FormContext& reading, const Before& before) {
    visit::Visit& visit = reading.draft.visit;
    // The same form once more means what it meant then, however full they are by now.
    if (before.recorded) {
        visit.level_percent = before.recorded->visit.level_percent;
        visit.container = before.recorded->visit.container;
        return;
    }
    if (!visit.state.empty() || before.levels.empty()) {
        reader.fault("state", "not_well");
        return;
    }
    if (visit.level_percent) return;  // it was chosen
    if (visit.container != 0) {
        if (const auto level = before.levels.find(visit.container); level != before.levels.end())
            visit.level_percent = level->second;
        else
            reader.fault("state", "not_well");
        return;
    }
    const int first = before.levels.begin()->second;
    if (std::ranges::all_of(before.levels, [&](const auto& one) { return one.second == first; }))
        visit.level_percent = first;
    else
        reading.each = before.levels;
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

FormData data(const Form& form, const std::string& prefix) {
    const auto value = [&](const char* name) { return form.value(prefix + name); };
    FormData data;
    data.token = value("token");
    data.station = value("station");
    data.seen = value("seen");
    data.dead = value("dead");
    data.minutes = value("minutes");
    data.young = value("young");
    data.trap_nights = value("trap_nights");
    data.feeding = value("feeding");
    data.sure = value("sure");
    data.sure_seen = value("sure_seen");
    data.opened = value("opened");
    data.when = value("when");
    data.well = value("well") == "yes";
    data.level = value("level");
    data.by = value("by");
    data.time = value("time");
    data.note = value("note");
    for (const std::string& word : form.values(prefix + "state")) data.state.insert(word);
    for (const std::string& word : form.values(prefix + "did")) data.did.insert(word);
    data.corrects = value("corrects");
    data.withdraw = value("withdraw") == "yes";
    for (const std::string& photo : form.values(prefix + "kept"))
        if (log::is_photo_id(photo) && data.photos.size() < log::maximum_photos &&
            std::ranges::find(data.photos, photo) == data.photos.end())
            data.photos.push_back(photo);
    return data;
}

bool is_empty(const FormData& data) {
    const auto blank = [](const std::string& text) { return log::tidy(text).empty(); };
    return !data.well && data.state.empty() && data.did.empty() && blank(data.seen) &&
           blank(data.dead) && blank(data.minutes) && blank(data.young) &&
           blank(data.trap_nights) && blank(data.feeding) && blank(data.level) && blank(data.note);
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
    data.photos = entry.photos;
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
    if (!form.has("photos")) kept.photos = before.photos;
    if (form.has("level")) return;
    kept.level = before.level;
    if (!form.has("state")) kept.state = before.state;
    if (!form.has("did")) kept.did = before.did;
}

FormData empty_form(log::LocalTime now, const std::string& station, const std::string& by) {
    FormData data;
    data.opened = log::print_time(now);
    data.token = new_token();
    data.station = station;
    data.by = by;
    return data;
}

FormContext read_visit(const FormData& data, const plan::Plan& plan, const plan::Station& station,
                       const log::Zone& zone, log::LocalTime now, const Before& before) {
    const std::optional<log::Entry>& old = before.old;
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
    // That it was not counted exactly is kept, where the note has room for it.
    if (const std::string& about = reader.approximate();
        !about.empty() && visit.note.size() + about.size() < log::longest_note)
        visit.note += (visit.note.empty() ? "" : "\n") + about;
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
    } else {
        read_opened(reader, reading, data, zone, now, before);
    }
    if (!data.withdraw) ask_about_count(reader, reading, data, before);
    if (data.well) read_well(reader, reading, before);
    reading.draft.withdrawn = data.withdraw;
    if (!data.corrects.empty()) {
        reading.draft.corrects = entry_number(data.corrects);
        if (!reading.draft.corrects) reader.fault("corrects", "gone");
    }
    if (data.withdraw && !reading.draft.corrects) reader.fault("withdraw", "gone");
    constexpr std::size_t longest_token = 64;
    reading.draft.token = data.token.substr(0, longest_token);
    reading.draft.photos = data.photos;
    if (reading.faults.empty() && !data.withdraw && reading.each.empty() && data.photos.empty() &&
        !log::says_something(visit))
        reader.fault("seen", "nothing");
    return reading;
}

std::vector<log::Draft> drafts_of(const FormContext& reading) {
    if (reading.each.empty()) return {reading.draft};
    // Levels are those from before anything was done: the containers come first.
    std::vector<log::Draft> drafts;
    for (const auto& [container, level] : reading.each) {
        log::Draft one;
        one.visit.station = reading.draft.visit.station;
        one.visit.time = reading.draft.visit.time;
        one.visit.by = reading.draft.visit.by;
        one.visit.container = container;
        one.visit.level_percent = level;
        one.token = reading.draft.token + "." + std::to_string(container);
        one.time_is_now = reading.draft.time_is_now;
        drafts.push_back(std::move(one));
    }
    if (log::says_something(reading.draft.visit)) drafts.push_back(reading.draft);
    drafts.back().token = reading.draft.token;
    drafts.back().photos = reading.draft.photos;
    return drafts;
}

}  // namespace gallipot::web
