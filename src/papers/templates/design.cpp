#include "papers/templates/design.hpp"

#include <algorithm>
#include <array>
#include <fmt/format.h>

#include "papers/templates/fields.hpp"

namespace gallipot::templates {

namespace {

using units::mm;
using units::Share;

constexpr std::array<std::string_view, parts> part_names = {
    "signal word", "not food", "id",        "keep away",   "call",  "contents",
    "ingredients", "hazards",  "first aid", "precautions", "dates", "origin",
    "contact",     "place",    "number",    "caption"};

std::vector<std::string> all_names() {
    return {part_names.begin(), part_names.end()};
}

bool in_band(Part part) {
    return part <= Part::id;
}

/// Where what is not among the words stands instead.
std::string_view stands(Part part) {
    if (in_band(part)) return "in the band";
    return part == Part::number ? "in the frame" : "under the code";
}

void read_band(Design& design, Fields& fields, diag::Diagnostics& out) {
    const auto* node = fields.find("band");
    if (node == nullptr) return void(fields.text("band"));
    Fields band(*node, "band", {"largest", "height", "signal"}, out);
    design.band_largest = band.points("largest", 6, 200);
    design.signal = band.number("signal", 1, 5);
    design.band_height = band.share("height", Share::percent(5), Share::percent(60));
}

void read_code(Design& design, Fields& fields, diag::Diagnostics& out) {
    const auto* node = fields.find("code");
    if (node == nullptr) return void(fields.text("code"));
    Fields code(*node, "code", {"place", "widest", "module"}, out);
    if (design.shape == Shape::circle) {
        if (code.has("place"))
            code.error("place", "not-for-this-shape", "a circle has one place for its code",
                       "take 'place' out");
    } else {
        for (const auto& place :
             code.choices("place", {"left", "left of all", "bottom"}, false, false))
            design.code_places.push_back(static_cast<CodePlace>(*place));
        const auto& places = design.code_places;
        if (design.shape == Shape::strip &&
            std::find(places.begin(), places.end(), CodePlace::left_of_all) != places.end())
            code.error("place", "not-for-this-shape",
                       "a strip's band goes all the way round, so no code stands left of it",
                       "write left or bottom instead of 'left of all'");
        if (design.code_places.empty() && code.has("place"))
            code.error("place", "empty-list", "'place' names no place",
                       "write one or more of: left, left of all, bottom");
    }
    design.code_widest = code.share("widest", Share::percent(5), Share::percent(90));
    const auto* module = code.find("module");
    if (module == nullptr) return void(code.text("module"));
    Fields sizes(*module, "module", {"largest", "easy", "least"}, out);
    // 0.33 mm: see qr/checks.hpp, which refuses less whatever a design says.
    design.module_minimum = sizes.length("least", mm(0.33), mm(5));
    design.module_preferred = sizes.length("easy", design.module_minimum, mm(5));
    design.module_largest = sizes.length("largest", design.module_preferred, mm(5));
}

void read_type(Design& design, Fields& fields, diag::Diagnostics& out) {
    const auto* node = fields.find("type");
    if (node == nullptr) return void(fields.text("type"));
    Fields type(*node, "type", {"largest", "easy", "least", "lead", "leading", "number"}, out);
    // 6 pt: the least that 40 CFR 156.10(a)(2)(ii) permits for any required text (found).
    design.type_minimum = type.points("least", 6, 100);
    design.type_preferred = type.points("easy", design.type_minimum, 100);
    design.type_largest = type.points("largest", design.type_preferred, 100);
    design.lead = type.number("lead", 1, 3);
    design.number = type.number("number", 1, 4, 2.0);
    design.leading = type.number("leading", 1, 3);
}

void read_pictograms(Design& design, Fields& fields, diag::Diagnostics& out) {
    const auto* node = fields.find("pictograms");
    if (node == nullptr) return void(fields.text("pictograms"));
    Fields pictograms(*node, "pictograms", {"largest", "least"}, out);
    // 1 cm2: CLP Annex I 1.2.1.3 (found).
    design.pictogram_minimum = pictograms.length("least", mm(10), mm(100));
    design.pictogram_largest = pictograms.length("largest", design.pictogram_minimum, mm(100));
}

void read_panels(Design& design, Fields& fields, diag::Diagnostics& out) {
    if (design.shape != Shape::strip) {
        if (fields.has("panels"))
            fields.error("panels", "not-for-this-shape", "only a strip has panels",
                         "take 'panels' out, or write 'shape: strip'");
        return;
    }
    const auto* node = fields.find("panels");
    if (node == nullptr) return void(fields.text("panels"));
    Fields panels(*node, "panels", {"count", "width"}, out);
    design.panels = panels.whole("count", 1, 6);
    design.panel_width = panels.share("width", Share::percent(10), Share{1.0 / design.panels});
}

std::vector<Part> only_parts(const std::vector<diag::At<std::size_t>>& chosen) {
    std::vector<Part> list;
    list.reserve(chosen.size());
    for (const auto& one : chosen) list.push_back(static_cast<Part>(*one));
    return list;
}

/// A list of groups, each a list of parts.
void read_groups(Design& design, Fields& fields, diag::Diagnostics& out) {
    const auto* node = fields.find("words");
    if (node == nullptr) return void(fields.text("words"));
    if (node->kind != yaml::Kind::sequence) {
        fields.error("words", "wrong-kind", "'words' takes a list of groups",
                     "write it in brackets: [[keep away, call], [contents, ingredients]]");
        return;
    }
    int group = 0;
    for (const auto& list : node->items) {
        for (const auto& chosen : fields.choices_of(list, "words", all_names(), false)) {
            const auto part = static_cast<Part>(*chosen);
            const bool twice = std::any_of(design.words.begin(), design.words.end(),
                                           [&](const auto& word) { return word.part == part; });
            if (!among_words(part))
                out.error(
                    "not-a-word", chosen.place,
                    diag::say("'{}' stands {}, not among the words", name(part), stands(part)),
                    "take it out: it is there without being named");
            else if (twice)
                out.error("given-twice", chosen.place,
                          diag::say("'{}' stands twice in 'words'", name(part)),
                          "take one of them out");
            else
                design.words.push_back({part, group, chosen.place});
        }
        ++group;
    }
}

void read_words(Design& design, Fields& fields, diag::Diagnostics& out) {
    read_groups(design, fields, out);
    const auto named = [&](Part part) {
        return std::any_of(design.words.begin(), design.words.end(),
                           [&](const auto& word) { return word.part == part; });
    };
    for (const auto& chosen : fields.choices("lead", all_names(), false, true)) {
        if (!named(static_cast<Part>(*chosen)))
            out.error("not-a-word", chosen.place,
                      diag::say("'{}' is not among the words", part_names.at(*chosen)),
                      "lead with some of the words");
        design.leading_words.push_back(static_cast<Part>(*chosen));
    }
    design.shorten = only_parts(fields.choices("shorten", all_names(), true, true));
}

}  // namespace

bool among_words(Part part) {
    return !in_band(part) && part != Part::caption && part != Part::number;
}

std::string_view name(Part part) {
    return part_names.at(static_cast<std::size_t>(part));
}

Design read_design(const diag::SourcePtr& file, const std::string& name, diag::Diagnostics& out) {
    Design design;
    design.name = name;
    diag::Diagnostics found;
    const auto root = yaml::read(file, found);
    design.place = root.place;
    if (!found.has_errors()) {
        Fields fields(root, "design",
                      {"about", "shape", "band", "code", "pictograms", "type", "words", "lead",
                       "shorten", "panels", "compact"},
                      found);
        design.about = fields.text("about");
        design.compact = fields.flag("compact", false);
        design.shape =
            static_cast<Shape>(fields.choice("shape", {"rectangle", "circle", "strip"}, 0));
        read_band(design, fields, found);
        read_code(design, fields, found);
        read_pictograms(design, fields, found);
        read_type(design, fields, found);
        read_words(design, fields, found);
        read_panels(design, fields, found);
    }
    out.append(found);
    return design;
}

}  // namespace gallipot::templates
