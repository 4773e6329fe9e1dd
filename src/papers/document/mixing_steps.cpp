#include "papers/document/mixing_steps.hpp"

#include <algorithm>
#include <cmath>

#include "domain/reference/substances.hpp"
#include "papers/document/pest_advice.hpp"

namespace gallipot::document {

namespace {

using plan::Ingredient;
using text::Arguments;
using text::StyledText;

// Where water begins to hurt a hand, and to scald. Common practice, no source.
constexpr units::Celsius hand_warm{45};
constexpr units::Celsius hot{60};

bool water(const Ingredient& ingredient) {
    return ingredient.substance == "water";
}

/// A powder that dissolves in water.
bool soluble(const Ingredient& ingredient) {
    const auto* substance = reference::find_substance(ingredient.substance);
    return ingredient.powder && substance != nullptr &&
           (substance->solubility.has_value() || substance->sugar);
}

class Steps {
  public:
    explicit Steps(const Recipe& recipe) : recipe_(recipe) {}

    std::vector<StyledText> all() {
        switch (recipe_.asked.form.value) {
            case job::Form::liquid:
                dissolve();
                fill("fill");
                break;
            case job::Form::dry:
                mix_dry();
                fill("fill_level");
                break;
            case job::Form::paste:
                mix_paste();
                fill("fill");
                break;
            case job::Form::spray:
                dissolve();
                spray();
                fill("fill");
                break;
        }
        clear_up();
        return std::move(steps_);
    }

  private:
    void add(const std::string& step, const Arguments& arguments = {}) {
        steps_.push_back(recipe_.words.rich("card.mix." + step, arguments));
    }

    [[nodiscard]] std::string name(const Ingredient& ingredient) const {
        return ingredient_name(recipe_.job, ingredient, recipe_.words);
    }

    template <class Test>
    [[nodiscard]] std::vector<const Ingredient*> those(Test test) const {
        std::vector<const Ingredient*> found;
        for (const Ingredient& ingredient : recipe_.mix.ingredients) {
            if (test(ingredient)) found.push_back(&ingredient);
        }
        return found;
    }

    [[nodiscard]] std::string names(const std::vector<const Ingredient*>& ingredients) const {
        std::vector<std::string> texts;
        texts.reserve(ingredients.size());
        for (const auto* ingredient : ingredients) texts.push_back(name(*ingredient));
        return recipe_.words.list(texts);
    }

    /// As an argument of the texts that pour into it.
    [[nodiscard]] std::pair<std::string, text::Value> vessel() const {
        return {"vessel", std::string(mixed_in(recipe_) == MixedIn::jug ? "jug" : "another")};
    }

    void pour_water() {
        const plan::Mix& mix = recipe_.mix;
        if (!mix.warm_water || !mix.dissolves_above) {
            add("water", {vessel()});
            return;
        }
        const units::Celsius warm = water_temperature(*mix.dissolves_above);
        const Arguments at = {{"temperature", recipe_.words.temperature(warm)}, vessel()};
        add(warm <= hand_warm ? "water_warm" : warm <= hot ? "water_hot" : "water_scalding", at);
    }

    /// Water, then what is slowest to dissolve, then the rest.
    void dissolve() {
        const plan::Mix& mix = recipe_.mix;
        const auto waters = those(water);
        const Ingredient* base = nullptr;
        if (!waters.empty()) {
            base = waters.front();
            pour_water();
        } else {
            const auto liquids = those([](const auto& i) { return !i.powder; });
            if (!liquids.empty()) {
                base = liquids.front();
                add("liquid", {{"name", name(*base)}, vessel()});
            }
        }
        const bool into_water = !waters.empty();
        const auto borates =
            those([&](const auto& i) { return &i != base && i.borate && i.powder; });
        bool clear = false;
        if (!borates.empty()) {
            Arguments what = {{"name", names(borates)}};
            if (mix.never_dissolves) {
                add("dissolve_part", what);
            } else if (!into_water) {
                add("stir_in", what);
            } else if (mix.dissolves_above) {
                what.emplace_back("temperature", recipe_.words.temperature(*mix.dissolves_above));
                add("dissolve_above", what);
                clear = true;
            } else {
                add("dissolve", what);
                clear = true;
            }
        }
        for (const auto* ingredient : those([&](const auto& i) {
                 return &i != base && !water(i) && !i.borate && soluble(i);
             })) {
            const Arguments what = {{"name", name(*ingredient)}};
            const bool can_clear = into_water && !mix.never_dissolves;
            add(!can_clear ? "stir_in" : clear ? "dissolve_again" : "dissolve", what);
            clear = can_clear;
        }
        for (const auto* ingredient : those([&](const auto& i) {
                 return &i != base && !water(i) && !(i.borate && i.powder) && !soluble(i);
             })) {
            add("stir_in", {{"name", name(*ingredient)}});
        }
        if (mix.warm_water) add("cool");
    }

    /// Equal parts first, then doubling: a little powder spreads evenly through much only so.
    void mix_dry() {
        auto powders = those([](const auto& i) { return i.powder; });
        if (!powders.empty()) add("lumps");
        if (powders.size() > 1) {
            std::stable_sort(powders.begin(), powders.end(), [](const auto* a, const auto* b) {
                return a->measured_volume < b->measured_volume;
            });
            // The active part may be split over several powders; each begins small.
            const Ingredient& small = *powders.front();
            const Ingredient& large = *powders.back();
            const double rest = large.measured_volume / small.measured_volume;
            const Arguments two = {{"name", name(small)}, {"other", name(large)}};
            const int times = doublings(rest);
            if (times == 0) {
                add("jar_equal", two);
            } else {
                add("jar_first", two);
                add("jar_double", {{"other", name(large)}, {"n", std::int64_t{times}}});
            }
            for (std::size_t i = 1; i + 1 < powders.size(); ++i) {
                add("jar_other", {{"name", name(*powders[i])}});
            }
            add("settle");
        }
        for (const auto* ingredient : those([](const auto& i) { return !i.powder; })) {
            add("dry_liquid", {{"name", name(*ingredient)}});
        }
    }

    void mix_paste() {
        const auto powders = those([](const auto& i) { return i.powder; });
        if (!powders.empty()) add("lumps");
        if (powders.size() > 1) add("powders", {{"names", names(powders)}});
        for (const auto* ingredient : those([](const auto& i) { return !i.powder; })) {
            add("knead", {{"name", name(*ingredient)}});
        }
    }

    [[nodiscard]] const reference::Pest* pest() const {
        return reference::find_pest(*recipe_.asked.against);
    }
    [[nodiscard]] bool in_wood() const { return pest() != nullptr && pest()->lives_in_wood; }

    /// How wood is treated, from the table of pests.
    void treat(reference::Topic topic) {
        if (pest() == nullptr) return;
        for (StyledText& step : advice_on(*pest(), topic, recipe_.job, recipe_.words))
            steps_.push_back(std::move(step));
    }

    void spray() {
        if (recipe_.surfaces.empty()) return;
        add("sprayer");
        treat(reference::Topic::apply);
        add("spray");
        int maximum_coats = 1;
        for (const job::Station* station : recipe_.surfaces) {
            const plan::Station* planned = recipe_.plan.station(station->id.value);
            if (planned == nullptr || !planned->per_container) continue;
            const units::Volume coat = planned->per_container->fill / station->coats;
            add("surface", {{"volume", recipe_.words.usual(coat)},
                            {"station", station->id.value},
                            {"place", station->where(recipe_.words.tag())},
                            {"area", recipe_.words.area(station->area->value, station->area_unit)},
                            {"coats", std::int64_t{station->coats}}});
            maximum_coats = std::max(maximum_coats, station->coats);
        }
        if (maximum_coats > 1 && !in_wood()) add("coats");
        add("keep_out");
        treat(reference::Topic::finish);
    }

    void fill(const std::string& how) {
        if (recipe_.fills.empty()) return;
        if (recipe_.fills.size() == 1) {
            add(how, {{"fill", recipe_.words.volume(recipe_.fills.front().fill,
                                                    recipe_.fills.front().unit)}});
        } else {
            add("fill_various", {{"fills", recipe_.fills_text()}});
        }
        const bool lids =
            std::any_of(recipe_.containers.begin(), recipe_.containers.end(),
                        [](const job::Container* c) { return c->openings && c->openings->side; });
        add(lids ? "lids" : "wipe");
    }

    void clear_up() {
        const bool jar = recipe_.asked.form.value == job::Form::dry ||
                         recipe_.asked.form.value == job::Form::paste;
        StyledText left = recipe_.words.rich(jar ? "card.mix.left_jar" : "card.mix.left_bottle");
        if (recipe_.asked.lasts) {
            left.push_back({" ", false});
            const auto until = later(recipe_.asked.made.value_or(*recipe_.job.prepared),
                                     recipe_.asked.lasts->value);
            for (auto& run : recipe_.words.rich("card.mix.left_until", {{"date", until}})) {
                left.push_back(std::move(run));
            }
        }
        steps_.push_back(std::move(left));
        if (!recipe_.surfaces.empty()) add("rinse");
        add("wash");
    }

    const Recipe& recipe_;
    std::vector<StyledText> steps_;
};

}  // namespace

units::Celsius water_temperature(units::Celsius dissolves_above) {
    return {std::min(100.0, std::ceil((dissolves_above.degrees + 10) / 5 - 1e-9) * 5)};
}

int doublings(double rest) {
    // A part in ten more than equal is still shaken in one go. Common practice, no source.
    if (rest <= 1.1) return 0;
    return std::max(1, static_cast<int>(std::ceil(std::log2((1 + rest) / 2) - 1e-9)));
}

MixedIn mixed_in(const Recipe& recipe) {
    const job::Form form = recipe.asked.form.value;
    // These are mixed in a jar or bowl of their own steps.
    if (form == job::Form::dry || form == job::Form::paste) return MixedIn::jug;
    const bool held = std::ranges::any_of(recipe.job.measures, [&](const job::Measure& measure) {
        return measure.kind == job::Measure::Kind::jug && measure.volume >= recipe.mix.finished;
    });
    return held ? MixedIn::jug : MixedIn::another;
}

std::vector<text::StyledText> mixing_steps(const Recipe& recipe) {
    return Steps(recipe).all();
}

}  // namespace gallipot::document
