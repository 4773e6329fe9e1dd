#include "web/form_fields.hpp"

#include <algorithm>

namespace gallipot::web {

Html Fields::count(const std::string& name, const std::string& value) const {
    return line(name, value, "", "text", 20);
}

Html Fields::line(const std::string& name, const std::string& value, const char* autocomplete,
                  const char* type, std::size_t longest) const {
    Attributes input{
        {"type", type}, {"name", prefix_ + name}, {"id", prefix_ + name}, {"value", value}};
    const bool counted = autocomplete[0] == 0 && std::string_view(type) == "text";
    if (counted) input.push_back({"inputmode", "numeric"});
    if (autocomplete[0] != 0) input.push_back({"autocomplete", autocomplete});
    if (longest > 0) input.push_back({"maxlength", std::to_string(longest)});
    if (!counted) input.push_back({"dir", "auto"});
    mark(input, name);
    return element("div", {{"class", "field"}},
                   {label(name), lone("input", input), fault_note(name)});
}

Html Fields::lines(const std::string& name, const std::string& value, std::size_t longest) const {
    Attributes area{{"name", prefix_ + name},
                    {"id", prefix_ + name},
                    {"rows", "2"},
                    {"maxlength", std::to_string(longest)},
                    {"dir", "auto"}};
    mark(area, name);
    // A line feed right after the tag is dropped by browsers: one of ours goes before the text.
    return element("div", {{"class", "field"}},
                   {label(name), element("textarea", area, {"\n", value}), fault_note(name)});
}

Html Fields::photos(const std::string& name) const {
    Attributes input{{"type", "file"},
                     {"name", prefix_ + name},
                     {"id", prefix_ + name},
                     {"accept", "image/jpeg,image/png"},
                     {"multiple", ""}};
    mark(input, name);
    return element("div", {{"class", "field"}},
                   {label(name), lone("input", input), fault_note(name)});
}

Html Fields::choice(const char* type, const std::string& name, const std::string& value, bool on,
                    const std::string& text) const {
    const std::string id = prefix_ + name + "-" + (value.empty() ? "none" : value);
    Attributes input{{"type", type}, {"name", prefix_ + name}, {"value", value}, {"id", id}};
    if (on) input.push_back({"checked", ""});
    return element("span", {{"class", "choice"}},
                   {lone("input", input), element("label", {{"for", id}}, {text})});
}

Html Fields::group(const std::string& name, const std::string& heading, const Html& choices) const {
    Attributes fieldset{{"id", prefix_ + name}};
    if (faulty(name)) fieldset.push_back({"aria-describedby", prefix_ + name + "-fault"});
    return element("fieldset", fieldset,
                   {element("legend", {heading}), element("div", {{"class", "choices"}}, {choices}),
                    fault_note(name)});
}

Html Fields::list(const std::string& name,
                  const std::vector<std::pair<std::string, std::string>>& options,
                  const std::string& chosen) const {
    Html items;
    for (const auto& [value, text] : options) {
        Attributes option{{"value", value}};
        if (value == chosen) option.push_back({"selected", ""});
        items += element("option", option, {text});
    }
    Attributes select{{"name", prefix_ + name}, {"id", prefix_ + name}};
    mark(select, name);
    return element("div", {{"class", "field"}},
                   {label(name), element("select", select, {items}), fault_note(name)});
}

Html Fields::label(const std::string& name) const {
    return element("label", {{"for", prefix_ + name}}, {page_.words("web.form." + name)});
}

bool Fields::faulty(const std::string& name) const {
    return std::any_of(errors_.faults.begin(), errors_.faults.end(),
                       [&](const Fault& fault) { return fault.field == name; });
}

void Fields::mark(Attributes& attributes, const std::string& name) const {
    if (!faulty(name)) return;
    attributes.push_back({"aria-invalid", "true"});
    attributes.push_back({"aria-describedby", prefix_ + name + "-fault"});
}

Html Fields::fault_note(const std::string& name) const {
    if (!faulty(name)) return {};
    Html note;
    for (const Fault& fault : errors_.faults)
        if (fault.field == name) note += element("span", {page_.words(fault.key, fault.arguments)});
    return element("p", {{"class", "fault"}, {"id", prefix_ + name + "-fault"}}, {note});
}

Html Fields::hidden(const std::string& name, const std::string& value) const {
    return web::hidden(prefix_ + name, value);
}

Html hidden(const std::string& name, const std::string& value) {
    return lone("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
}

Html fold(const std::string& heading, bool open, const Html& content) {
    Attributes details{{"class", "other"}};
    if (open) details.push_back({"open", ""});
    return element("details", details, {element("summary", {heading}), content});
}

}  // namespace gallipot::web
