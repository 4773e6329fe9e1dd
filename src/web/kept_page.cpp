#include <algorithm>
#include <array>

#include "web/form_parts.hpp"
#include "web/pages.hpp"

namespace gallipot::web {
namespace {

/// What is shown of it, in order; everything is sent again.
constexpr std::array shown_fields{
    "station", "seen", "dead", "minutes", "trap_nights", "young",    "level", "feeding", "state",
    "did",     "note", "by",   "time",    "corrects",    "withdraw", "told",  "words"};

}  // namespace

Response kept_page(const Page& page, int status, const Form& form, const std::string& action,
                   const std::string& key) {
    std::vector<std::pair<std::string, Html>> shown;
    for (const std::string name : shown_fields)
        for (const std::string& value : form.values(name))
            if (!value.empty()) shown.emplace_back(page.words("web.form." + name), value);
    Html hidden_fields;
    // Empty values too: in a correction they clear the field.
    for (const auto& [name, value] : form.fields()) hidden_fields += hidden(name, value);
    const std::string title = page.words("web.trouble.title");
    const Html again = element(
        "form", {{"method", "post"}, {"action", action}, {"accept-charset", "utf-8"}},
        {hidden_fields, element("button", {{"type", "submit"}}, {page.words("web.form.save")})});
    const Html main =
        element("h1", {title}) + trouble(page, key, shown.empty() ? again : facts(shown) + again);
    return answer(page, status, title, std::nullopt, main);
}

}  // namespace gallipot::web
