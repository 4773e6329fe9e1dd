#include "tracking/recipe/recipe.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <tuple>

#include "domain/mixing/component.hpp"

namespace gallipot::recipe {

namespace {

using Json = nlohmann::ordered_json;

// More is no recipe of ours.
constexpr std::size_t maximum_parts = 200;
constexpr std::size_t longest_text = 64'000;
constexpr std::size_t longest_name = 400;
constexpr int longest_lasts = 365'000;

/// To nine digits, so that the last bits of a sum do not make another recipe of it.
double rounded(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.9g", value);
    return std::strtod(text, nullptr);
}

Recipe rounded(Recipe recipe) {
    for (Part& part : recipe.parts) part.share = rounded(part.share);
    recipe.density = units::Density::si(rounded(recipe.density.si()));
    recipe.boron = rounded(recipe.boron);
    recipe.boric_acid_equivalent = rounded(recipe.boric_acid_equivalent);
    return recipe;
}

std::string name_of(const Json& json, const char* key) {
    auto name = json.at(key).get<std::string>();
    if (name.size() > longest_name) throw std::runtime_error("a name is too long");
    return name;
}

double share_of(const Json& json, const char* key) {
    const auto share = json.at(key).get<double>();
    if (!(share >= 0 && share <= 1)) throw std::runtime_error("no share");
    return share;
}

Recipe read(const Json& json) {
    Recipe recipe;
    const Json& parts = json.at("parts");
    if (!parts.is_array() || parts.size() > maximum_parts) throw std::runtime_error("no parts");
    for (const Json& part : parts)
        recipe.parts.push_back(
            {name_of(part, "name"), name_of(part, "substance"), share_of(part, "share")});
    const auto density = json.at("density").get<double>();
    if (!(density > 0 && density < 30'000)) throw std::runtime_error("no density");
    recipe.density = units::Density::si(density);
    recipe.boron = share_of(json, "boron");
    recipe.boric_acid_equivalent = json.at("boric_acid_equivalent").get<double>();
    if (!(recipe.boric_acid_equivalent >= 0 && recipe.boric_acid_equivalent < 10))
        throw std::runtime_error("no equivalent");
    const int signal = json.at("signal_word").get<int>();
    if (signal < 0 || signal > static_cast<int>(safety::SignalWord::danger))
        throw std::runtime_error("no signal word");
    recipe.signal_word = static_cast<safety::SignalWord>(signal);
    for (const Json& code : json.at("hazard_codes"))
        recipe.hazard_codes.push_back(code.get<std::string>());
    recipe.hazard_known = json.at("hazard_known").get<bool>();
    if (const Json& lasts = json.at("lasts_days"); !lasts.is_null()) {
        const int days = lasts.get<int>();
        if (days < 0 || days > longest_lasts) throw std::runtime_error("no time");
        recipe.lasts = std::chrono::days(days);
    }
    return recipe;
}

}  // namespace

Recipe recipe_of(const job::Mix& asked, const plan::Mix& mix) {
    Recipe recipe;
    units::Mass boron;
    for (const plan::Ingredient& ingredient : mix.ingredients) {
        recipe.parts.push_back(
            {ingredient.name, ingredient.substance, ingredient.mass / mix.mass_asked});
        boron += ingredient.mass * ingredient.boron;
    }
    recipe.density = mix.mass_asked / mix.finished_asked;
    recipe.boron = boron / mix.mass_asked;
    recipe.boric_acid_equivalent = recipe.boron * mixing::boric_acid_per_boron();
    recipe.signal_word = mix.hazard.signal_word;
    recipe.hazard_codes = mix.hazard.hazard_codes;
    recipe.hazard_known = mix.hazard.unknown.empty();
    if (asked.lasts)
        recipe.lasts = std::chrono::days(static_cast<int>(units::in_days(asked.lasts->value)));
    return rounded(std::move(recipe));
}

std::string print(const Recipe& recipe) {
    Json parts = Json::array();
    for (const Part& part : recipe.parts)
        parts.push_back(
            {{"name", part.name}, {"substance", part.substance}, {"share", part.share}});
    const Json json{{"parts", std::move(parts)},
                    {"density", recipe.density.si()},
                    {"boron", recipe.boron},
                    {"boric_acid_equivalent", recipe.boric_acid_equivalent},
                    {"signal_word", static_cast<int>(recipe.signal_word)},
                    {"hazard_codes", recipe.hazard_codes},
                    {"hazard_known", recipe.hazard_known},
                    {"lasts_days", recipe.lasts ? Json(recipe.lasts->count()) : Json(nullptr)}};
    return json.dump();
}

std::optional<Recipe> parse(std::string_view text) {
    if (text.size() > longest_text) return std::nullopt;
    try {
        return read(Json::parse(text));
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

plan::Contents contents(const Recipe& recipe, units::Volume fill) {
    plan::Contents contents;
    contents.fill = fill;
    contents.mass = fill * recipe.density;
    for (const Part& part : recipe.parts)
        contents.ingredients.emplace_back(part.name, contents.mass * part.share);
    contents.boron = contents.mass * recipe.boron;
    contents.boric_acid_equivalent = contents.mass * recipe.boric_acid_equivalent;
    return contents;
}

const Recipe& stronger(const Recipe& a, const Recipe& b) {
    const auto rank = [](const Recipe& r) {
        return std::tuple(r.boron, !r.hazard_known, r.signal_word, r.hazard_codes.size());
    };
    return rank(b) > rank(a) ? b : a;
}

}  // namespace gallipot::recipe
