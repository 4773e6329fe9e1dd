#include "web/form_parts.hpp"

#include <algorithm>
#include <array>

#include "tracking/log/fields.hpp"
#include "web/counting.hpp"

namespace gallipot::web {
namespace {

/// Fields that carry a fault are marked, and named by the text that says what it is.
class Fields {
  public:
    Fields(const Page& page, const FormErrors& errors) : page_(page), trouble_(errors) {}

    [[nodiscard]] Html count(const std::string& name, const std::string& value) const {
        Attributes input{{"type", "text"},       {"inputmode", "numeric"}, {"name", name},
                         {"id", name},           {"value", value},         {"maxlength", "20"},
                         {"autocomplete", "off"}};
        mark(input, name);
        return element("div", {{"class", "field"}},
                       {label(name), lone("input", input), fault_note(name)});
    }

    [[nodiscard]] Html line(const std::string& name, const std::string& value,
                            const char* autocomplete, const char* type, std::size_t longest) const {
        Attributes input{{"type", type},
                         {"name", name},
                         {"id", name},
                         {"value", value},
                         {"autocomplete", autocomplete}};
        if (longest > 0) input.push_back({"maxlength", std::to_string(longest)});
        mark(input, name);
        return element("div", {{"class", "field"}},
                       {label(name), lone("input", input), fault_note(name)});
    }

    [[nodiscard]] Html lines(const std::string& name, const std::string& value,
                             std::size_t longest) const {
        Attributes area{
            {"name", name}, {"id", name}, {"rows", "3"}, {"maxlength", std::to_string(longest)}};
        mark(area, name);
        // A line feed right after the tag is dropped by browsers: one of ours goes before the text.
        return element("div", {{"class", "field"}},
                       {label(name), element("textarea", area, {"\n", value}), fault_note(name)});
    }

    /// One button to press. `value` is what it sends.
    [[nodiscard]] Html choice(const char* type, const std::string& name, const std::string& value,
                              bool on, const std::string& text) const {
        const std::string id = name + "-" + (value.empty() ? "none" : value);
        Attributes input{{"type", type}, {"name", name}, {"value", value}, {"id", id}};
        if (on) input.push_back({"checked", ""});
        return element("span", {{"class", "choice"}},
                       {lone("input", input), element("label", {{"for", id}}, {text})});
    }

    [[nodiscard]] Html group(const std::string& name, const std::string& heading,
                             const Html& choices) const {
        Attributes fieldset{{"id", name}};
        if (faulty(name)) fieldset.push_back({"aria-describedby", name + "-fault"});
        return element("fieldset", fieldset,
                       {element("legend", {heading}),
                        element("div", {{"class", "choices"}}, {choices}), fault_note(name)});
    }

    template <class Mark>
    [[nodiscard]] Html ticks(const std::string& name, std::span<const Mark> all,
                             const std::set<std::string>& on, const std::string& words) const {
        Html choices;
        for (const Mark mark : all) {
            const std::string word(visit::word(mark));
            choices += choice("checkbox", name, word, on.contains(word), page_.words(words + word));
        }
        return group(name, page_.words("web.form." + name), choices);
    }

  private:
    [[nodiscard]] Html label(const std::string& name) const {
        return element("label", {{"for", name}}, {page_.words("web.form." + name)});
    }
    [[nodiscard]] bool faulty(const std::string& name) const {
        return std::any_of(trouble_.faults.begin(), trouble_.faults.end(),
                           [&](const Fault& fault) { return fault.field == name; });
    }
    void mark(Attributes& attributes, const std::string& name) const {
        if (!faulty(name)) return;
        attributes.push_back({"aria-invalid", "true"});
        attributes.push_back({"aria-describedby", name + "-fault"});
    }
    [[nodiscard]] Html fault_note(const std::string& name) const {
        if (!faulty(name)) return {};
        Html note;
        for (const Fault& fault : trouble_.faults)
            if (fault.field == name)
                note += element("span", {page_.words(fault.key, fault.arguments)});
        return element("p", {{"class", "fault"}, {"id", name + "-fault"}}, {note});
    }

    const Page& page_;
    const FormErrors& trouble_;
};

struct Level {
    const char* value;
    const char* key;
};
constexpr std::array levels{Level{"100", "web.level.full"}, Level{"75", "web.level.three_quarters"},
                            Level{"50", "web.level.half"}, Level{"25", "web.level.quarter"},
                            Level{"0", "web.level.empty"}};

Html level_group(const Fields& fields, const Page& page, const std::string& data) {
    const auto percent = log::parse_level(data);
    const std::string value = percent ? std::to_string(*percent) : std::string();
    Html choices =
        fields.choice("radio", "level", "", value.empty(), page.words("web.level.not_looked"));
    bool known = value.empty();
    for (const Level& level : levels) {
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

Html hidden(const char* name, const std::string& value) {
    return lone("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
}

}  // namespace

Html trouble_box(const Page& page, const FormErrors& errors) {
    if (errors.key.empty() && errors.faults.empty()) return {};
    Html content;
    if (!errors.key.empty())
        content += element("p", {page.words.rich(errors.key, errors.arguments)});
    if (!errors.faults.empty()) {
        content += element("p", {page.words("web.trouble.faults")});
        Html list;
        for (const Fault& fault : errors.faults)
            list += element("li", {element("a", {{"href", "#" + fault.field}},
                                           {page.words("web.form." + fault.field)}),
                                   ": ", page.words(fault.key, fault.arguments)});
        content += element("ul", {list});
    }
    if (errors.before) content += visit_facts(page, errors.before->visit);
    return element("div", {{"class", "trouble"}, {"role", "alert"}}, {content});
}

Html visit_form(const Page& page, const Place& place, const FormData& data,
                const FormErrors& errors, const std::string& action) {
    const auto& words = page.words;
    const Fields fields(page, errors);
    const bool baited = place.mixed != nullptr && !place.site.sprayed;
    const bool correction = !data.corrects.empty() && !errors.before;

    Html content = hidden("token", data.token);
    if (correction) content += hidden("corrects", data.corrects);
    if (errors.before) content += corrects_group(fields, page, errors, data.corrects);
    if (place.planned.container_ids.size() > 1)
        content += which_group(fields, page, place, data.station);
    const bool before = before_placing(page.context, place);
    content += element("div", {{"class", "pair"}},
                       {fields.count("seen", data.seen), fields.count("dead", data.dead)});
    if (!place.site.timber)
        content += element(
            "div", {{"class", "pair"}},
            {fields.count("minutes", data.minutes), fields.count("trap_nights", data.trap_nights)});
    if (tells_young_apart(place) || !data.young.empty())
        content += fields.count("young", data.young);
    if (baited) {
        if (!before || !data.feeding.empty()) content += feeding_group(fields, page, data.feeding);
        content += level_group(fields, page, data.level);
        // What was ticked before stays to be seen in a correction.
        const bool dry_ticked = data.state.contains(std::string(visit::word(visit::State::dry)));
        const auto states = visit::states_of(place.site.powder && !dry_ticked);
        content += fields.ticks("state", std::span(states), data.state, "flag.");
        content += fields.ticks("did", visit::all_dids(), data.did, "web.did.");
    }
    content += fields.lines("note", data.note, log::longest_note);
    content += fields.line("by", data.by, "name", "text", log::longest_name);
    Attributes other{{"class", "other"}};
    if (!data.time.empty()) other.push_back({"open", ""});
    content += element("details", other,
                       {element("summary", {words("web.form.other_time")}),
                        fields.line("time", data.time, "off", "datetime-local", 0)});
    if (errors.doubted) content += sure_group(fields, page, errors);
    if (correction)
        content += element("div", {{"class", "choices"}},
                           {fields.choice("checkbox", "withdraw", "yes", data.withdraw,
                                          words("web.form.withdraw"))});
    content += element("button", {{"type", "submit"}},
                       {words(correction ? "web.form.save_correction" : "web.form.save")});
    return element("form",
                   {{"method", "post"},
                    {"action", action},
                    {"accept-charset", "utf-8"},
                    {"novalidate", ""},
                    {"aria-label", words("web.form.heading")}},
                   {content});
}

}  // namespace gallipot::web
