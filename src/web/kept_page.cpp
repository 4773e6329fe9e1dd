#include <array>

#include "web/form_parts.hpp"
#include "web/pages.hpp"

namespace gallipot::web {
namespace {

/// The fields of a visit's form in their order; a form may hold others, which are no use.
constexpr std::array field_names{"token", "station", "seen", "dead", "level",    "state",
                                 "did",   "note",    "by",   "time", "corrects", "withdraw"};

}  // namespace

Response kept_page(const Page& page, int status, const Form& form, const std::string& action) {
    std::vector<std::pair<std::string, Html>> shown;
    Html hidden;
    for (const std::string name : field_names)
        for (const std::string& value : form.values(name)) {
            // Empty values too: in a correction they clear the field.
            hidden += lone("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
            if (!value.empty() && name != "token")
                shown.emplace_back(page.words("web.form." + name), value);
        }
    const Html main = element(
        "div", {{"class", "trouble"}, {"role", "alert"}},
        {element("p", {page.words.rich("web.trouble.kept")}), facts(shown),
         element(
             "form", {{"method", "post"}, {"action", action}, {"accept-charset", "utf-8"}},
             {hidden, element("button", {{"type", "submit"}}, {page.words("web.form.save")})})});
    return answer(page, status, page.words("web.trouble.title"), std::nullopt, main);
}

}  // namespace gallipot::web
