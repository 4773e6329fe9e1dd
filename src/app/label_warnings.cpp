#include "app/label_warnings.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string_view>
#include <unordered_set>

#include "domain/safety/precautions.hpp"
#include "papers/layout/label_fit.hpp"

namespace gallipot::app {

namespace {

using units::in_mm;

/// Names beyond this are only counted.
constexpr std::size_t names_shown = 4;

/// What to do about a check of a code that is not good.
diag::Text remedy(const std::string& check) {
    if (check == "curvature") return "use wider containers, or lid labels (--stock)";
    if (check == "printer-dots") return "use a printer with more dots, or larger labels (--stock)";
    return "use larger labels (--stock), or a shorter log.address";
}

/// Of what whoever finds a label looks for; empty for the rest.
diag::Text on_every_larger_label(document::Part part) {
    if (part == document::Part::place) return "the place it belongs to";
    if (part == document::Part::caption) return "the words beside the code (scan: log, first aid)";
    return {};
}

/// What of a label a reader misses.
diag::Text in_words(document::Part part) {
    if (part == document::Part::origin) return "that it is home-made and not registered";
    if (part == document::Part::contact) return "who looks after it";
    return diag::term(templates::name(part));
}

/// "the place it belongs to, P201, P264, who looks after it", what is missed most first; empty when
/// everything is there.
diag::Text left_out(const layout::LabelReport& report) {
    std::vector<diag::Text> list;
    const auto add = [&](const diag::Text& what) { list.push_back(what); };
    if (report.without_frame) add("the frame round what to do if swallowed");
    for (const auto part : report.left_out)
        if (const auto words = on_every_larger_label(part); !words.empty()) add(words);
    for (const auto& code : report.statements_left_out) {
        const auto published = safety::published_code(code);
        add(published.empty() ? std::string_view(code) : published);
    }
    for (const auto part : report.left_out)
        // Its statements stand there by their codes.
        if (part != document::Part::precautions && on_every_larger_label(part).empty())
            add(in_words(part));
    for (const auto part : report.shortest)
        add(part == document::Part::dates ? "days of making and placing"
                                          : "what is in it beside borates");
    return diag::joined(list, ", ");
}

}  // namespace

diag::Text listed(const std::vector<std::string>& names) {
    std::vector<std::string> once;
    std::unordered_set<std::string_view> seen;
    for (const auto& name : names)
        if (seen.insert(name).second) once.push_back(name);
    const std::size_t more = once.size() > names_shown ? once.size() - names_shown : 0;
    once.resize(once.size() - more);
    const diag::Text list = diag::joined(once, ", ");
    return more > 0 ? diag::say("{} and {} more", list, more) : list;
}

std::string described(const templates::Stock& stock) {
    return fmt::format("{} ({:.1f} x {:.1f} mm)", stock.name, in_mm(stock.label_width),
                       in_mm(stock.label_height));
}

void LabelWarnings::note(const std::string& name, const layout::LabelReport& report) {
    if (report.container) {
        on_small_[{report.container->width, report.container->height}].push_back(name);
    }
    if (const auto& larger = report.rules_ask) {
        small_.push_back(name);
        asked_ = {std::max(asked_.width, larger->width), std::max(asked_.height, larger->height)};
    }
    if (report.type_points < layout::readable_points - 0.05) {
        small_type_.push_back(name);
        smallest_points_ = std::min(smallest_points_, report.type_points);
    }
    if (const diag::Text missing = left_out(report); !missing.empty()) {
        auto& [what, names] = left_out_[missing.english()];
        what = missing;
        names.push_back(name);
    }
    for (const auto& check : report.checks) {
        if (check.verdict == qr::Verdict::good) continue;
        codes_[check.name].push_back(name);
        auto [at, is_new] = worst_.try_emplace(check.name, check);
        if (!is_new && check.verdict > at->second.verdict) at->second = check;
    }
}

void LabelWarnings::tell_of_room(const templates::Stock& stock) {
    if (!pairs_.empty())
        warn("label-in-each-language",
             diag::say("{} has no room for two languages in full and in easy type, so there "
                       "are two labels each, in '{}' and in '{}': {}",
                       described(stock), languages_.at(0), languages_.at(1), listed(pairs_)),
             "stick both on, side by side; or use larger labels (--stock) to have both on one");
    for (const auto& [room, labels] : on_small_)
        warn("label-larger-than-container",
             diag::say("labels {} are larger than the lid or the side of the wall that they go "
                       "on ({:.0f} x {:.0f} mm): {}",
                       described(stock), room.first, room.second, listed(labels)),
             "use smaller labels, round ones for lids or strips (--stock), or larger "
             "containers");
    if (!small_.empty())
        warn("label-smaller-than-rules-ask",
             diag::say("for containers this large EU rules (CLP Annex I, Table 1.3) ask for "
                       "labels of up to {:.0f} x {:.0f} mm; these are smaller, {}: {}",
                       asked_.width, asked_.height, described(stock), listed(small_)),
             "use larger labels (--stock)");
}

void LabelWarnings::tell_of_what_is_left_out(const templates::Stock& stock) {
    for (const auto& [english, missing] : left_out_)
        warn("label-leaves-out",
             diag::say("labels {} have no room to say: {} (on {})", described(stock), missing.first,
                       listed(missing.second)),
             "use larger labels (--stock); the household sheet has all statements in full");
    if (!small_type_.empty())
        warn("label-type-small",
             diag::say("labels {} have room only for type of {:.1f} pt, where {:.0f} pt is easy "
                       "to read: {}",
                       described(stock), smallest_points_, layout::readable_points,
                       listed(small_type_)),
             "use larger labels (--stock), or fewer languages");
    for (const auto& [name, labels] : codes_)
        warn("code-" + name,
             diag::say("codes on {}: {}", listed(labels), diag::term(worst_.at(name).sentence)),
             remedy(name));
}

void LabelWarnings::tell(const templates::Stock& stock) {
    tell_of_room(stock);
    tell_of_what_is_left_out(stock);
}

void LabelWarnings::warn(std::string code, diag::Text message, diag::Text hint) {
    session_.found.warning(std::move(code), place_, std::move(message), std::move(hint));
}

}  // namespace gallipot::app
