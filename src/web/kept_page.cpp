#include "web/form_parts.hpp"
#include "web/pages.hpp"

namespace gallipot::web {

Response kept_page(const Page& page, int status, const Typed& typed, const std::string& action) {
    std::vector<std::pair<std::string, Html>> shown;
    Html hidden;
    const auto keep = [&](const std::string& name, const std::string& value,
                          const std::string& text) {
        if (value.empty()) return;
        hidden += lone("input", {{"type", "hidden"}, {"name", name}, {"value", value}});
        if (!text.empty()) shown.emplace_back(page.words("web.form." + name), text);
    };
    keep("token", typed.token, "");
    keep("station", typed.station, typed.station);
    keep("seen", typed.seen, typed.seen);
    keep("dead", typed.dead, typed.dead);
    keep("level", typed.level, typed.level);
    for (const std::string& state : typed.state) keep("state", state, state);
    for (const std::string& did : typed.did) keep("did", did, did);
    keep("note", typed.note, typed.note);
    keep("by", typed.by, typed.by);
    keep("time", typed.time, typed.time);
    keep("corrects", typed.corrects, typed.corrects);
    if (typed.withdraw) keep("withdraw", "yes", page.words("web.form.withdraw"));

    const Html main = element(
        "div", {{"class", "trouble"}, {"role", "alert"}},
        {element("p", {page.words.rich("web.trouble.kept")}), facts(shown),
         element(
             "form", {{"method", "post"}, {"action", action}, {"accept-charset", "utf-8"}},
             {hidden, element("button", {{"type", "submit"}}, {page.words("web.form.save")})})});
    return answer(page, status, page.words("web.trouble.title"), std::nullopt, main);
}

}  // namespace gallipot::web
