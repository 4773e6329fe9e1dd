#include "cli/schema_json.hpp"

#include <cmath>
#include <cstdint>
#include <fmt/format.h>
#include <memory>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "base/diag/diagnostic.hpp"
#include "base/units/pattern.hpp"
#include "domain/job/bounds.hpp"
#include "domain/job/keys.hpp"
#include "domain/reference/premises.hpp"
#include "domain/reference/regions.hpp"
#include "domain/reference/substances.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::cli {

using Json = nlohmann::ordered_json;
using job::Key;
using job::Type;
using units::Dimension;

namespace {

Json value_of(const Key& key);

constexpr Dimension dimensions[] = {Dimension::volume,      Dimension::mass,     Dimension::length,
                                    Dimension::area,        Dimension::duration, Dimension::density,
                                    Dimension::temperature, Dimension::share};

/// A text without blanks at its edges, on one line.
constexpr const char* text_pattern = "^[^ \\u00A0\\n\\t](?:[^\\n\\t]*[^ \\u00A0\\n\\t])?$";
/// A short name that fits a link.
constexpr const char* id_pattern = "^[A-Za-z0-9]+(?:-[A-Za-z0-9]+)*$";
/// Which days and times there are is left to the reader.
constexpr const char* date_pattern = "[0-9]{4}-[0-9]{2}-[0-9]{2}";

std::string whole(const std::string& pattern) {
    return "^(?:" + pattern + ")$";
}

/// "1", not "1.0".
Json figure(double value) {
    if (value == std::floor(value)) return static_cast<std::int64_t>(value);
    return value;
}

/// A quantity's form stands once in the schema.
std::string place_of(Dimension dimension) {
    std::string name(units::name_of(dimension));
    name.erase(0, name.find(' ') + 1);
    for (char& c : name)
        if (c == ' ') c = '-';
    return name;
}

Json quantity(Dimension dimension) {
    return {{"$ref", "#/definitions/" + place_of(dimension)}};
}

Json definitions() {
    Json all = Json::object();
    for (const Dimension dimension : dimensions) {
        const std::string wanted =
            fmt::format("Write {} with its unit, like 1 {}", units::name_of(dimension),
                        units::usual_unit(dimension));
        all[place_of(dimension)] = {{"type", "string"},
                                    {"pattern", whole(units::quantity_pattern(dimension))},
                                    {"errorMessage", wanted},
                                    {"patternErrorMessage", wanted}};
    }
    return all;
}

Json lengths(const Key& key) {
    return {{"minLength", figure(key.minimum)}, {"maxLength", figure(key.maximum)}};
}

Json text(const Key& key) {
    Json schema = lengths(key);
    if (key.path == "help.region") {
        schema["type"] = "string";
        // Capitals are what an editor offers; small letters are understood too.
        const auto small = [](char c) { return static_cast<char>(c - 'A' + 'a'); };
        Json offered = Json::array();
        std::string codes;
        for (const reference::Region& region : reference::regions()) {
            offered.push_back(region.code);
            codes += fmt::format("{}[{}{}][{}{}]", codes.empty() ? "" : "|", region.code[0],
                                 small(region.code[0]), region.code[1], small(region.code[1]));
        }
        schema["anyOf"] = {{{"enum", std::move(offered)}}, {{"pattern", whole(codes)}}};
        return schema;
    }
    // A text of digits is a number to YAML: `title: 1984`.
    schema["type"] = {"string", "number", "boolean"};
    schema["pattern"] = text_pattern;
    return schema;
}

/// One text, or one for each language.
Json local_text(const Key& key) {
    Json schema = text(key);
    schema["minProperties"] = 1;
    schema["additionalProperties"] = text(key);
    schema["type"].push_back("object");
    return schema;
}

/// A number; with a fraction in it, it is a text to YAML.
Json number(const Key& key) {
    return {{"type", {"number", "string"}},
            {"minimum", figure(key.minimum)},
            {"maximum", figure(key.maximum)},
            {"pattern", whole(units::fraction_pattern())}};
}

/// [x, y]; what has a fraction or a typesetter's minus is a text to YAML.
Json point(double furthest) {
    const std::string minus = "\u2212" + units::number_pattern();
    return {{"type", "array"},
            {"items",
             {{"type", {"number", "string"}},
              {"minimum", figure(-furthest)},
              {"maximum", figure(furthest)},
              {"pattern", whole(units::fraction_pattern(units::Sign::any) + "|" + minus)}}},
            {"minItems", 2},
            {"maxItems", 2}};
}

/// The keys that may stand right below a mapping.
Json mapping(std::string_view path) {
    Json schema = {{"type", "object"}, {"properties", Json::object()}};
    for (const Key* key : job::section_of(path).keys) {
        schema["properties"][std::string(key->name())] = value_of(*key);
        if (key->required) schema["required"].push_back(key->name());
    }
    schema["additionalProperties"] = false;
    return schema;
}

/// A mapping, or what may stand in its place on one line.
Json mapping_or(const Key& key, Json scalar) {
    const Json types = scalar.at("type");
    Json schema = mapping(key.path);
    schema.update(scalar);
    schema["type"] = types.is_array() ? types : Json::array({types});
    schema["type"].push_back("object");
    return schema;
}

const Key& entry_of(const Key& key) {
    const Key* entry = job::find_key(fmt::format("{}.*", key.path));
    if (entry == nullptr) throw std::logic_error("nothing stands in " + std::string(key.path));
    return *entry;
}

/// What names a table in the place of a section; null where none may.
const Key* table_of(const Key& key) {
    return job::find_key(fmt::format("{}.from", key.path));
}

/// Names of the user's own with something behind each.
Json named(const Key& key) {
    const Key& entry = entry_of(key);
    Json schema = {{"type", "object"},
                   {"minProperties", figure(key.minimum)},
                   {"maxProperties", figure(key.maximum)}};
    const bool own_names = entry.type == Type::mapping;
    if (own_names) {
        schema["propertyNames"] = lengths(entry);
        schema["patternProperties"] = {
            {key.path == "supplies" ? text_pattern : id_pattern, value_of(entry)}};
        schema["additionalProperties"] = false;
        if (const Key* table = table_of(key)) {
            // One of the names may be "from" too, with a mapping behind it.
            schema["patternProperties"] = {
                {std::string("^(?!from$)") + (text_pattern + 1), value_of(entry)}};
            schema["properties"] = {{"from",
                                     {{"if", {{"type", "object"}}},
                                      {"then", value_of(entry)},
                                      {"else", value_of(*table)}}}};
            schema["if"] = {{"properties", {{"from", {{"type", "string"}}}}},
                            {"required", {"from"}}};
            schema["then"] = {{"maxProperties", 1}};
        }
        return schema;
    }
    // The names are those of supplies and known substances; the latter can be offered.
    const std::string place(entry.path);
    if (entry.type == Type::amount)
        for (const reference::Substance& substance : reference::substances())
            schema["properties"][std::string(substance.name)] = {
                {"$ref", "#/definitions/ingredient"}};
    schema["additionalProperties"] =
        entry.type == Type::amount ? Json{{"$ref", "#/definitions/ingredient"}} : value_of(entry);
    return schema;
}

Json list(const Key& key) {
    const Key& entry = entry_of(key);
    Json schema = {{"type", "array"},
                   {"items", value_of(entry)},
                   {"minItems", figure(key.minimum)},
                   {"maxItems", figure(key.maximum)}};
    if (entry.type != Type::mapping) schema["uniqueItems"] = true;
    if (const Key* table = table_of(key)) {
        schema["type"] = {"array", "object"};
        schema["properties"] = {{"from", value_of(*table)}};
        schema["required"] = {"from"};
        schema["additionalProperties"] = false;
    }
    return schema;
}

/// What may be chosen without an error.
std::vector<std::string> choices(const Key& key) {
    std::vector<std::string> words = key.words();
    if (key.path == "premises")
        std::erase_if(words, [](const std::string& premises) {
            const auto* rule = reference::find_premises_rule(premises);
            return rule != nullptr && rule->licensed_only;
        });
    return words;
}

Json matching(const std::string& pattern) {
    return {{"type", "string"}, {"pattern", whole(pattern)}};
}

Json form_of(const Key& key) {
    switch (key.type) {
        case Type::text:
            return text(key);
        case Type::local_text:
            return local_text(key);
        case Type::number_to_call:
            return mapping_or(key, text(key));
        case Type::number:
            return number(key);
        case Type::whole:
            return {{"type", {"integer", "string"}},
                    {"pattern", whole(units::whole_word_pattern())},
                    {"minimum", figure(key.minimum)},
                    {"maximum", figure(key.maximum)}};
        case Type::flag:
            return {{"enum", {true, false, "True", "False", "yes", "Yes", "no", "No"}}};
        case Type::date:
            return matching(date_pattern);
        case Type::time:
            return matching(std::string(date_pattern) + "(?:[, T].+)?");
        case Type::volume:
            return quantity(Dimension::volume);
        case Type::mass:
            return quantity(Dimension::mass);
        case Type::length:
            return quantity(Dimension::length);
        case Type::area:
            return quantity(Dimension::area);
        case Type::duration:
            return quantity(Dimension::duration);
        case Type::density:
            return quantity(Dimension::density);
        case Type::temperature:
            return quantity(Dimension::temperature);
        case Type::share:
            return quantity(Dimension::share);
        case Type::mass_or_volume:
            return {{"anyOf", {quantity(Dimension::mass), quantity(Dimension::volume)}}};
        case Type::choice:
            return {{"type", "string"}, {"enum", choices(key)}};
        case Type::id: {
            Json schema = lengths(key);
            schema["type"] = {"string", "number", "boolean"};  // `id: 12`
            schema["pattern"] = id_pattern;
            schema["minimum"] = 0;
            return schema;
        }
        case Type::point:
            return point(key.maximum);
        case Type::outline:
            return {{"type", "array"},
                    {"items", point(job::find_key("floor_plan.start")->maximum)},
                    {"minItems", figure(key.minimum)},
                    {"maxItems", figure(key.maximum)}};
        case Type::list:
            return list(key);
        case Type::visits: {
            Json schema = mapping(key.path);
            schema.update(list(*job::find_key(fmt::format("{}.every", key.path))));
            schema["type"] = {"array", "object"};
            return schema;
        }
        case Type::mapping:
            return mapping(key.path);
        case Type::named:
            return named(key);
        case Type::measure:
            return mapping_or(key, matching(units::quantity_pattern(Dimension::volume)));
        case Type::density_or_range:
            return mapping_or(key, matching(units::quantity_pattern(Dimension::density)));
        case Type::amount: {
            Json scalar = number(key);
            scalar["pattern"] = whole("rest|" + units::fraction_pattern() + "|" +
                                      units::quantity_pattern(Dimension::volume) + "|" +
                                      units::quantity_pattern(Dimension::mass));
            return mapping_or(key, std::move(scalar));
        }
        case Type::limit: {
            Json scalar = number(key);
            scalar["pattern"] = whole(units::fraction_pattern() + "| *" + units::number_pattern() +
                                      " *% (?:w/w|w/v|v/v)");
            return scalar;
        }
        case Type::batch:
            return matching(units::quantity_pattern(Dimension::volume) + "|as written|" +
                            units::number_pattern() + " times");
        case Type::csv_file:
        case Type::openings:
            return text(key);
    }
    throw std::logic_error("a type without a schema");
}

Json json(const yaml::Node& node) {
    if (node.kind == yaml::Kind::sequence) {
        Json items = Json::array();
        for (const yaml::Node& item : node.items) items.push_back(json(item));
        return items;
    }
    if (node.kind == yaml::Kind::mapping) {
        Json entries = Json::object();
        for (const auto& [key, value] : node.entries) entries[key.text] = json(value);
        return entries;
    }
    if (node.quoted) return node.text;
    const Json plain = Json::parse(node.text, nullptr, false);
    return plain.is_number() || plain.is_boolean() ? plain : Json(node.text);
}

/// What the table writes as a default or an example; nothing where it only hints at one.
Json example(const Key& key, std::string_view written) {
    if (written.empty() || written.find("...") != std::string_view::npos) return nullptr;
    if (key.type == Type::text || key.type == Type::local_text || key.type == Type::id)
        return written;
    diag::Diagnostics found;
    const yaml::Node node = yaml::read(
        std::make_shared<const diag::Source>(diag::Source{"", std::string(written)}), found);
    if (found.has_errors()) throw std::logic_error("no YAML: " + std::string(written));
    return json(node);
}

Json value_of(const Key& key) {
    Json form = form_of(key);
    // Draft-07 looks at nothing that stands beside a $ref.
    if (form.contains("$ref")) form = {{"allOf", Json::array({std::move(form)})}};
    if (form.contains("pattern"))
        form["patternErrorMessage"] =
            fmt::format("Write {}, like {}", job::type_in_words(key).english(), key.example);
    std::string about =
        fmt::format("{}. Write {}", key.description, job::type_in_words(key).english());
    if (const std::string bounds = job::bounds_in_words(key); !bounds.empty())
        about += fmt::format("; {}", bounds);
    about += fmt::format(". Example: {}", key.example);
    if (!key.default_value.empty()) about += fmt::format(". Left out: {}", key.default_value);
    Json schema = {{"description", about}};
    if (const Json default_value = example(key, key.default_value); !default_value.is_null())
        schema["default"] = default_value;
    if (const Json shown = example(key, key.example); !shown.is_null())
        schema["examples"] = Json::array({shown});
    schema.update(form);
    return schema;
}

}  // namespace

Json job_schema() {
    Json schema = {
        {"$schema", "http://json-schema.org/draft-07/schema#"},
        {"title", "A job for gallipot"},
        {"description", "Checked while you type; `gallipot check` knows all the rules."}};
    schema.update(mapping(""));
    schema["definitions"] = definitions();
    schema["definitions"]["ingredient"] = value_of(*job::find_key("mixes.*.ingredients.*"));
    return schema;
}

}  // namespace gallipot::cli
