#include "cli/schema_rules.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "base/units/pattern.hpp"
#include "domain/job/time_of_day.hpp"

namespace gallipot::cli {

using Json = nlohmann::ordered_json;

namespace {

/// Only one of the keys, which must be there.
Json one_of_keys(std::initializer_list<const char*> keys) {
    Json alternatives = Json::array();
    for (const char* key : keys) alternatives.push_back({{"required", {key}}});
    return alternatives;
}

/// None of the keys.
Json none_of_keys(std::initializer_list<const char*> keys) {
    Json alternatives = Json::array();
    for (const char* key : keys) alternatives.push_back({{"required", {key}}});
    return {{"not", {{"anyOf", std::move(alternatives)}}}};
}

Json with(const char* key, Json value) {
    return {{"properties", {{key, std::move(value)}}}};
}

Json marks_of(units::Dimension dimension) {
    return with("marks", {{"pattern", "^" + units::quantity_pattern(dimension) + "$"}});
}

Json is_control() {
    Json control = with("control", {{"enum", {true, "True", "yes", "Yes"}}});
    control["required"] = {"control"};
    return control;
}

/// Nothing is set out at a control; any other station has a mix, in a container or on a surface.
Json kinds_of_station() {
    Json bait = {{"required", {"mix"}},
                 {"oneOf", one_of_keys({"container", "area"})},
                 {"dependencies",
                  {{"count", {"container"}}, {"locked", {"container"}}, {"coats", {"area"}}}}};
    bait.update(none_of_keys({"against"}));
    return {{"if", is_control()},
            {"then",
             none_of_keys({"mix", "container", "area", "count", "coats", "locked", "inspected"})},
            {"else", std::move(bait)}};
}

Json ingredients_each(Json rule) {
    return with("ingredients", {{"additionalProperties", std::move(rule)}});
}
Json text_like(const std::string& pattern) {
    return {{"if", {{"type", "string"}}}, {"then", {{"pattern", "^(?:" + pattern + ")$"}}}};
}

/// Numbers on a basis: "percent" or "parts" where they are stated as another borate; parts have no
/// rest, and limits only with a basis of their own.
Json amounts_on_basis() {
    const auto stated = [](const char* wanted, const char* other) {
        Json rule = {{"required", {wanted}}};
        rule.update(none_of_keys({other}));
        return ingredients_each({{"if", {{"type", "object"}}},
                                 {"then", std::move(rule)},
                                 {"else", text_like("rest|" + units::fraction_pattern())}});
    };
    Json in_parts = stated("parts", "percent");
    in_parts["properties"]["ingredients"]["additionalProperties"]["not"] = {{"const", "rest"}};
    in_parts["properties"]["limits"] = {
        {"additionalProperties", {{"type", "string"}, {"pattern", "%"}}}};
    const Json parts = with("basis", {{"enum", {"parts by volume", "parts by mass"}}});
    Json rule = {
        {"if", parts}, {"then", std::move(in_parts)}, {"else", stated("percent", "parts")}};
    rule["properties"]["batch"] = {
        {"pattern", "^(?:" + units::quantity_pattern(units::Dimension::volume) + ")$"}};
    return rule;
}

/// Without a basis every amount has its unit, and every limit a basis of its own.
Json amounts_of_mix() {
    Json measured = ingredients_each(
        {{"type", "string"},
         {"pattern", "^(?:" + units::quantity_pattern(units::Dimension::volume) + "|" +
                         units::quantity_pattern(units::Dimension::mass) + ")$"}});
    measured["properties"]["limits"] = {
        {"additionalProperties", {{"type", "string"}, {"pattern", "%"}}}};
    Json on_basis = with("basis", {{"not", {{"const", "as measured"}}}});
    on_basis["required"] = {"basis"};
    return {
        {"if", std::move(on_basis)}, {"then", amounts_on_basis()}, {"else", std::move(measured)}};
}

}  // namespace

std::string date_pattern() {
    // 2100 has no 29 February.
    constexpr const char* leap =
        "(?:20(?:[02468][048]|[13579][26])|21(?:0[48]|[2468][048]|[13579][26]))";
    return fmt::format(
        "(?:2[01][0-9]{{2}}-(?:(?:0[13578]|1[02])-(?:0[1-9]|[12][0-9]|3[01])|"
        "(?:0[469]|11)-(?:0[1-9]|[12][0-9]|30)|02-(?:0[1-9]|1[0-9]|2[0-8]))|{}-02-29)",
        leap);
}

std::string time_pattern() {
    return fmt::format("{}(?:(?:,? +|T){})?", date_pattern(), job::time_of_day_pattern);
}

std::string share_pattern() {
    return " *" + units::number_pattern() + " *% (?:w/w|w/v|v/v)";
}

std::string csv_file_pattern() {
    const std::string step = "[^/\\\\\\n\\t]+";
    return fmt::format("(?! )(?:(?!\\.\\.?/){0}/)*{0}\\.[Cc][Ss][Vv]", step);
}

std::string openings_pattern() {
    return fmt::format(
        "^(?:closed|open|open top|open at the top|open lid|lid off|no lid|without (?:a )?lid|"
        "(?:[1-9][0-9]?|1[0-9]{{2}}|200|{}) (?:side holes?|holes? in the lid) of {})$",
        units::whole_word_pattern(), units::quantity_pattern(units::Dimension::length));
}

std::string pattern_of(std::string_view path) {
    if (path == "languages.*") return "^[a-z]{2,3}(?:-[A-Za-z0-9]{1,8})*$";
    if (path == "currency") return "^[A-Z]{3}$";
    if (path == "time_zone") return "^[A-Za-z][A-Za-z0-9/_+-]*$";
    if (path == "log.address") {
        return "^https?://(?:[0-9A-Za-z][0-9A-Za-z.-]*|\\[[0-9A-Fa-f:.]{2,}\\])"
               "(?::[1-9][0-9]{0,4})?(?:[/?#][!-~]*)?$";
    }
    return {};
}

void add_rules_between_keys(std::string_view path, Json& schema) {
    if (path.empty()) {
        // What is set out anywhere is a mix.
        schema["if"] = with("stations", {{"type", "array"}, {"contains", {{"not", is_control()}}}});
        schema["then"] = with("mixes", {{"minProperties", 1}});
        schema["then"]["required"] = {"mixes"};
    } else if (path == "measures.*") {
        // A spoon is a text, of which none of this holds.
        schema["if"] = {{"type", "object"}};
        schema["then"] = {{"oneOf", one_of_keys({"jug", "syringe", "scale"})},
                          {"if", {{"required", {"scale"}}}},
                          {"then", marks_of(units::Dimension::mass)},
                          {"else", marks_of(units::Dimension::volume)}};
    } else if (path == "supplies.*") {
        schema["dependencies"] = {{"price", {"pack"}}};
        schema["not"] = {{"required", {"strength", "substance"}}};
    } else if (path == "containers.*.body") {
        schema["dependencies"] = {{"diameter", {"height"}}, {"height", {"diameter"}}};
    } else if (path == "mixes.*") {
        schema.update(amounts_of_mix());
        schema["not"] = {{"required", {"batch", "makes"}}};
    } else if (path == "stations.*") {
        schema.update(kinds_of_station());
    }
}

}  // namespace gallipot::cli
