#include "web/form_parts.hpp"

#include <algorithm>
#include <array>

#include "papers/document/joins.hpp"
#include "tracking/log/fields.hpp"
#include "web/counting.hpp"
#include "web/form_context.hpp"
#include "web/form_fields.hpp"
#include "web/photo_parts.hpp"

namespace gallipot::web {
namespace {

Html level_group(const Fields& fields, const Page& page, const std::string& data) {
    const auto percent = log::parse_level(data);
    const std::string value = percent ? std::to_string(*percent) : std::string();
    Html choices =
        fields.choice("radio", "level", "", value.empty(), page.words("web.level.not_looked"));
    bool known = value.empty();
    for (const Level& level : usual_levels()) {
        known = known || value == level.value;
        choices += fields.choice("radio", "level", level.value, value == level.value,
                                 page.words(level.key));
    }
    if (!known)
        choices +=
            fields.choice("radio", "level", value, true, page.words.percent(*percent / 100.0));
    return fields.group("level", page.words("web.form.level"), choices);
}

Html which_group(const Fields& fields, const Page& page, const Place& place,
                 const std::string& data) {
    const std::string& id = place.planned.id;
    const bool one =
        std::find(place.planned.container_ids.begin(), place.planned.container_ids.end(), data) !=
        place.planned.container_ids.end();
    Html choices = fields.choice("radio", "station", id, !one, page.words("web.form.all"));
    for (const std::string& container : place.planned.container_ids)
        choices += fields.choice("radio", "station", container, container == data, container);
    return fields.group("station", page.words("web.form.station"), choices);
}

/// A form that was recorded before, with other content: what is meant by it now?
Html corrects_group(const Fields& fields, const Page& page, const FormErrors& errors,
                    const std::string& data) {
    const std::string number = std::to_string(errors.before->number);
    Html choices = fields.choice("radio", "corrects", number, data == number,
                                 page.words("web.form.corrects_before"));
    choices += fields.choice("radio", "corrects", "", data != number,
                             page.words("web.form.corrects_nothing"));
    return fields.group("corrects", page.words("web.form.corrects"), choices);
}

/// Whether any fed on the bait: asked once there is some.
Html feeding_group(const Fields& fields, const Page& page, const std::string& data) {
    const auto said = log::parse_yes_no(data);
    Html choices = fields.choice("radio", "feeding", "", !said, page.words("web.level.not_looked"));
    for (const bool yes : {true, false})
        choices += fields.choice("radio", "feeding", log::print_yes_no(yes), said == yes,
                                 page.words(yes ? "web.feeding.yes" : "web.feeding.no"));
    return fields.group("feeding", page.words("web.form.feeding"), choices);
}

/// A day that may be a slip: said to be right with one tick, or corrected in its field.
Html sure_group(const Fields& fields, const Page& page, const FormErrors& errors) {
    const log::LocalTime time = *errors.doubted;
    const job::Date day(std::chrono::floor<std::chrono::days>(time));
    return fields.group(
        "sure", page.words("web.form.sure"),
        fields.choice("checkbox", "sure", log::print_time(time), false,
                      page.words("web.form.sure_yes", {{"day", page.words.date(day)}})));
}

/// A count that may be a slip: said to be right with one tick, or corrected in its field.
Html sure_seen_group(const Fields& fields, const Page& page, int count) {
    return fields.group(
        "sure_seen", page.words("web.form.sure_seen"),
        fields.choice("checkbox", "sure_seen", std::to_string(count), false,
                      page.words("web.form.sure_seen_yes", {{"n", std::int64_t{count}}})));
}

}  // namespace

Html when_group(const Fields& fields, const Page& page, log::LocalTime opened,
                const std::string& data) {
    const auto& words = page.words;
    const std::string at_opening = log::print_time(opened);
    return fields.group(
        "when", words("web.form.when"),
        fields.choice("radio", "when", at_opening, data == at_opening,
                      words("web.form.when_opened", {{"time", words.date_time(opened)}})) +
            fields.choice(
                "radio", "when", "now", data == "now",
                words("web.form.when_now", {{"time", words.date_time(page.context.local_now())}})));
}

namespace {

/// One tap for a station where nothing has changed since the last visit.
Html well_button(const Page& page, const Place& place) {
    const auto level = level_now(page.context, place);
    if (level.empty()) return {};
    return element("button",
                   {{"type", "submit"}, {"name", "well"}, {"value", "yes"}, {"class", "well"}},
                   {well_text(page, level)});
}

}  // namespace

std::span<const Level> usual_levels() {
    static constexpr std::array levels{
        Level{"100", "web.level.full"}, Level{"75", "web.level.three_quarters"},
        Level{"50", "web.level.half"}, Level{"25", "web.level.quarter"},
        Level{"0", "web.level.empty"}};
    return levels;
}

std::string well_text(const Page& page, const Levels& levels) {
    const int first = levels.begin()->second;
    const bool same =
        std::ranges::all_of(levels, [&](const auto& one) { return one.second == first; });
    if (!same) return page.words("web.form.well_each");
    return page.words("web.form.well", {{"level", page.words.percent(first / 100.0)}});
}

Html trouble(const Page& page, const std::string& key, const Html& more) {
    // The focus goes there, so that a screen reader begins with it.
    return element("div",
                   {{"class", "trouble"}, {"role", "alert"}, {"tabindex", "-1"}, {"autofocus", ""}},
                   {key.empty() ? Html() : element("p", {page.words.rich(key)}), more});
}

Html trouble_box(const Page& page, const FormErrors& errors) {
    if (errors.key.empty() && errors.faults.empty()) return {};
    Html content;
    if (!errors.faults.empty()) {
        content += element("p", {page.words("web.trouble.faults")});
        Html list;
        for (const Fault& fault : errors.faults)
            list += element("li", {element("a", {{"href", "#" + fault.field}},
                                           {page.words("web.form." + fault.field)}),
                                   document::mark(page.words, document::Join::colon),
                                   page.words(fault.key, fault.arguments)});
        content += element("ul", {list});
    }
    if (errors.before)
        content += visit_facts(page, errors.before->visit) + photos_of(page, *errors.before);
    return trouble(page, errors.key, content);
}

Html visit_form(const Page& page, const Place& place, const FormData& data,
                const FormErrors& errors, const std::string& action) {
    const auto& words = page.words;
    const Fields fields(page, errors);
    const bool baited = place.mixed != nullptr && !place.site.sprayed;
    const bool correction = !data.corrects.empty() && !errors.before;
    const bool before = before_placing(page.context, place);
    const auto any_faulty = [&](std::initializer_list<const char*> names) {
        return std::any_of(names.begin(), names.end(),
                           [&](const char* name) { return fields.faulty(name); });
    };

    Html content = hidden("token", data.token);
    if (correction) content += hidden("corrects", data.corrects);
    if (!correction && !data.opened.empty()) content += hidden("opened", data.opened);
    // What the Enter key of a keyboard presses: never "all well".
    content += element(
        "button",
        {{"type", "submit"}, {"class", "enter"}, {"tabindex", "-1"}, {"aria-hidden", "true"}},
        {words("web.form.save")});
    if (!correction && !errors.before && baited) content += well_button(page, place);
    if (errors.before) content += corrects_group(fields, page, errors, data.corrects);
    if (place.planned.container_ids.size() > 1)
        content += which_group(fields, page, place, data.station);
    if (!correction && errors.opened)
        content += when_group(fields, page, *errors.opened, data.when);
    content += fields.count("seen", data.seen);
    if (errors.doubted_count) content += sure_seen_group(fields, page, *errors.doubted_count);
    if (baited) {
        content += level_group(fields, page, data.level);
        content += fields.ticks("did", visit::all_dids(), data.did, "web.did.");
    }

    Html more;
    if (baited) {
        // What was ticked before stays to be seen in a correction.
        const bool dry_ticked = data.state.contains(std::string(visit::word(visit::State::dry)));
        const auto states = visit::states_of(place.site.powder && !dry_ticked);
        more += fields.ticks("state", std::span(states), data.state, "flag.");
        if (!before || !data.feeding.empty()) more += feeding_group(fields, page, data.feeding);
    }
    const bool young = tells_young_apart(place) || !data.young.empty();
    more += element(
        "div", {{"class", "pair"}},
        {fields.count("dead", data.dead), young ? fields.count("young", data.young) : Html()});
    if (!place.site.timber)
        more += element(
            "div", {{"class", "pair"}},
            {fields.count("minutes", data.minutes), fields.count("trap_nights", data.trap_nights)});
    const bool filled = !data.state.empty() || !data.feeding.empty() || !data.dead.empty() ||
                        !data.young.empty() || !data.minutes.empty() || !data.trap_nights.empty();
    // For the first count, how it was counted matters most.
    content += fold(words(baited ? "web.form.more" : "web.form.more_counts"),
                    filled || before ||
                        any_faulty({"state", "feeding", "dead", "young", "minutes", "trap_nights"}),
                    more);
    content += fields.lines("note", data.note, log::longest_note);
    content += fields.line("by", data.by, "name", "text", log::longest_name);
    content += fold(words("web.form.other_time"), !data.time.empty() || fields.faulty("time"),
                    fields.line("time", data.time, "", "datetime-local", 0));
    if (errors.doubted) content += sure_group(fields, page, errors);
    if (correction)
        content += element("div", {{"class", "choices"}},
                           {fields.choice("checkbox", "withdraw", "yes", data.withdraw,
                                          words("web.form.withdraw"))});
    // Last of what is filled in: where the photos are too much, all that was typed has come before.
    content += photo_field(page, fields, data);
    content +=
        element("div", {{"class", "save"}},
                {element("button", {{"type", "submit"}},
                         {words(correction ? "web.form.save_correction" : "web.form.save")})});
    return element("form",
                   {{"method", "post"},
                    {"action", action},
                    {"accept-charset", "utf-8"},
                    {"enctype", "multipart/form-data"},
                    {"novalidate", ""},
                    {"aria-label", words("web.form.heading")}},
                   {content});
}

}  // namespace gallipot::web
