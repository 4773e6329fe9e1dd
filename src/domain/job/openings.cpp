#include "domain/job/openings.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <iterator>
#include <numbers>
#include <string_view>

#include "base/units/parse.hpp"

namespace gallipot::job {

namespace {

units::Area disc(units::Length diameter) {
    return std::numbers::pi / 4 * (diameter * diameter);
}

struct Pattern {
    std::string_view one, many;
    bool side;
};
constexpr Pattern patterns[] = {{" side hole of ", " side holes of ", true},
                                {" hole in the lid of ", " holes in the lid of ", false}};

}  // namespace

std::optional<Openings> read_openings(const yaml::Node& node, const Key& key, const Body& body,
                                      ReadContext& context) {
    if (!read_text(node, key, context)) return {};
    const std::string_view text = node.text;
    Openings openings;
    openings.text = node.text;
    openings.place = node.place;
    if (text == "closed") {
        openings.closed = true;
        return openings;
    }
    constexpr std::string_view open[] = {"open top", "open",   "open at the top", "open lid",
                                         "lid off",  "no lid", "without lid",     "without a lid"};
    if (std::find(std::begin(open), std::end(open), text) != std::end(open)) {
        if (body.diameter) openings.area = disc(*body.diameter);
        if (!body.diameter && body.lid) openings.area = disc(*body.lid);
        return openings;
    }
    const auto wrong = [&](diag::Text message) -> std::optional<Openings> {
        context.out.error(
            "bad-openings", node.place, std::move(message),
            "write how many and how wide, as in `N side holes of W mm` or `N holes in the lid of W "
            "mm`; or `open top`, or `closed`");
        return {};
    };
    if (text == "shut" || text == "sealed") {
        context.out.error("bad-openings", node.place, diag::say("'{}' describes no openings", text),
                          "did you mean 'closed'?");
        return {};
    }
    for (const Pattern& pattern : patterns) {
        for (const std::string_view middle : {pattern.one, pattern.many}) {
            const auto at = text.find(middle);
            if (at == std::string_view::npos) continue;
            const auto count = units::parse_whole(text.substr(0, at));
            const auto diameter = units::parse_length(text.substr(at + middle.size()));
            if (const auto* problem = std::get_if<units::Problem>(&count)) {
                return wrong(problem->message);
            }
            if (const auto* problem = std::get_if<units::Problem>(&diameter)) {
                report(*problem, node, units::Dimension::length, context);
                return {};
            }
            const int holes = std::get<int>(count);
            const units::Length width = std::get<units::Length>(diameter);
            if (holes < 1 || holes > 200) {
                return wrong(diag::say("a container has 1 to 200 holes, not {}", holes));
            }
            if (width < units::mm(0.1) || width > units::mm(200)) {
                return wrong(diag::say("a hole is 0.1 mm to 200 mm wide, not {}",
                                       text.substr(at + middle.size())));
            }
            openings.side = pattern.side;
            openings.hole = width;
            openings.area = holes * disc(width);
            return openings;
        }
    }
    return wrong(diag::say("'{}' describes no openings", text));
}

}  // namespace gallipot::job
