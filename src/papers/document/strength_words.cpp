#include "papers/document/strength_words.hpp"

#include <algorithm>
#include <cstddef>
#include <stdexcept>

#include "domain/reference/timber.hpp"
#include "papers/document/measure_words.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::StyledText;

std::string basis_key(job::Basis basis) {
    switch (basis) {
        case job::Basis::parts_by_volume:
            return "parts_by_volume";
        case job::Basis::parts_by_mass:
        case job::Basis::as_measured:
            return "parts_by_mass";
        case job::Basis::percent_w_w:
            return "percent_w_w";
        case job::Basis::percent_w_v:
            return "percent_w_v";
        case job::Basis::percent_v_v:
            return "percent_v_v";
    }
    throw std::logic_error("unknown basis");
}

bool in_parts(job::Basis basis) {
    return basis == job::Basis::parts_by_volume || basis == job::Basis::parts_by_mass;
}

class Sentences {
  public:
    explicit Sentences(const Recipe& recipe) : recipe_(recipe), words_(recipe.words) {}

    StyledText all() {
        for (const plan::Asked& asked : recipe_.mix.asked) {
            ask(asked);
            measured(asked.ingredient);
        }
        if (borates() > 1) add("together", {{"percent", equivalent()}});
        usual();
        better();
        loading();
        return std::move(runs_);
    }

  private:
    void add(const std::string& key, const text::Arguments& arguments) {
        add_sentence(runs_, words_.rich("card.strength." + key, arguments));
    }

    [[nodiscard]] std::string name(const std::string& ingredient) const {
        return ingredient_name(recipe_.job, recipe_.mix, ingredient, words_);
    }

    [[nodiscard]] std::string equivalent() const {
        return words_.percent(recipe_.mix.boric_acid_equivalent_w_w.usual);
    }

    [[nodiscard]] std::ptrdiff_t borates() const {
        return std::count_if(recipe_.mix.ingredients.begin(), recipe_.mix.ingredients.end(),
                             [](const auto& ingredient) { return ingredient.borate; });
    }

    /// "borax 1 : icing sugar 4"; empty where an ingredient is what remains.
    [[nodiscard]] std::string ratio() const {
        std::string text;
        for (const job::Ingredient& ingredient : recipe_.asked.ingredients) {
            if (ingredient.rest) return {};
            if (!text.empty()) text += " : ";
            text += text::unbroken(name(ingredient.name) + " " +
                                   words_.amount(ingredient.amount.value));
        }
        return text;
    }

    /// "borax 1½ tbsp, sugar ½ cup and water 1½ cups".
    [[nodiscard]] std::string as_written() const {
        std::vector<std::string> all;
        for (const job::Ingredient& ingredient : recipe_.asked.ingredients) {
            const std::string amount = ingredient.mass
                                           ? words_.mass(*ingredient.mass, ingredient.unit)
                                           : words_.volume(*ingredient.volume, ingredient.unit);
            all.push_back(text::unbroken(name(ingredient.name) + " " + amount));
        }
        return words_.list(all);
    }

    [[nodiscard]] std::string basis(job::Basis basis) const {
        return words_("card.basis." + basis_key(basis));
    }

    /// The same strength put the other way.
    [[nodiscard]] std::string other_form(const plan::Asked& asked) const {
        if (asked.basis == job::Basis::percent_w_v) {
            return words_("card.strength.in_volume",
                          {{"mass", words_.mass(units::g(1))},
                           {"volume", words_.volume(units::mL(asked.parts))}});
        }
        return words_("card.strength.to_the_rest", {{"parts", words_.amount(asked.parts)}});
    }

    void ask(const plan::Asked& asked) {
        const std::string share = words_.percent(asked.share);
        if (asked.basis == job::Basis::as_measured) {
            add("asked_measured", {{"ratio", as_written()},
                                   {"percent", share},
                                   {"name", name(asked.ingredient)},
                                   {"other_form", other_form(asked)}});
            return;
        }
        const std::string all = in_parts(asked.basis) ? ratio() : std::string();
        text::Arguments arguments = {{"name", name(asked.ingredient)},
                                     {"basis", basis(asked.basis)},
                                     {"other_form", other_form(asked)}};
        if (!all.empty()) {
            arguments.emplace_back("ratio", all);
            arguments.emplace_back("percent", share);
            add("asked_parts", arguments);
            return;
        }
        arguments.emplace_back("asked", share);
        if (!asked.as.empty()) arguments.emplace_back("as", substance_name(asked.as, words_));
        add(asked.as.empty() ? "asked" : "asked_as", arguments);
    }

    void measured(const std::string& ingredient) {
        const auto at = recipe_.mix.strength.find(ingredient);
        if (at == recipe_.mix.strength.end()) return;
        const plan::Strength& strength = at->second;
        const auto planned =
            std::find_if(recipe_.mix.ingredients.begin(), recipe_.mix.ingredients.end(),
                         [&](const auto& i) { return i.name == ingredient; });
        const std::string percent = words_.percent(strength.w_w);
        text::Arguments arguments = {{"percent", percent}, {"name", name(ingredient)}};
        const bool says_equivalent = planned != recipe_.mix.ingredients.end() && planned->borate &&
                                     planned->substance != "boric acid" && borates() == 1;
        if (says_equivalent) {
            arguments.emplace_back("equivalent", equivalent());
            add("measured_as", arguments);
        } else {
            add("measured", arguments);
        }
        const auto& range = strength.w_w_range;
        const std::string spread = words_.percent_range(range.low, range.high);
        const bool scooped =
            planned != recipe_.mix.ingredients.end() && planned->powder &&
            std::any_of(planned->measures.begin(), planned->measures.end(),
                        [](const auto& step) { return step.kind == job::Measure::Kind::scoop; });
        if (!range.exact() && spread != percent) {
            add(scooped ? "spread" : "spread_weighed", {{"range", spread}});
        }
        limit(ingredient);
    }

    /// A limit is in the terms the amount was asked in.
    void limit(const std::string& ingredient) {
        const auto at = recipe_.asked.limits.find(ingredient);
        if (at == recipe_.asked.limits.end()) return;
        const double maximum = at->second.percent.value;
        const job::Basis on = at->second.basis.value_or(recipe_.asked.basis.value);
        const auto asked =
            std::find_if(recipe_.asked.ingredients.begin(), recipe_.asked.ingredients.end(),
                         [&](const auto& i) { return i.name == ingredient; });
        const bool as = asked != recipe_.asked.ingredients.end() && asked->as.has_value();
        const bool bait = recipe_.asked.form.value != job::Form::spray;
        add(bait ? "limit_bait" : "limit",
            {{"limit", in_parts(on) ? words_("card.strength.limit_parts", {{"n", maximum}})
                                    : words_.percent(maximum / 100)},
             {"name", as ? substance_name(asked->as->value, words_) : name(ingredient)},
             {"basis", basis(on)}});
    }

    void usual() {
        if (!recipe_.mix.usual) return;
        const plan::UsualRange& usual = *recipe_.mix.usual;
        add(usual.published ? "usual" : "usual_practice",
            {{"pests", pest_name(recipe_.job, recipe_.asked.against.value, words_)},
             {"range", words_.percent_range(usual.low, usual.high)},
             {"source", usual.source}});
        const bool other_borate =
            std::ranges::any_of(recipe_.mix.ingredients, [](const plan::Ingredient& ingredient) {
                return ingredient.borate && ingredient.substance != "boric acid";
            });
        if (other_borate && usual.found_for.starts_with("boric acid;"))
            add_sentence(runs_, words_.rich("advice.strength.boric_acid"));
    }

    void better() {
        for (const plan::Ingredient& ingredient : recipe_.mix.ingredients) {
            if (ingredient.within_tolerance || ingredient.better_batches.empty()) continue;
            std::vector<std::string> volumes;
            for (const auto& batch : ingredient.better_batches) {
                volumes.push_back(recipe_.asked.batch
                                      ? words_.computed(batch.measured, recipe_.asked.batch_unit)
                                      : words_.usual(batch.measured));
            }
            add("better", {{"name", name(ingredient.name)}, {"volumes", words_.either(volumes)}});
        }
    }

    [[nodiscard]] std::string in_wood(units::Density density) const {
        return words_("unit.density", {{"n", words_.amount(density.si())}});
    }

    /// What each sprayed surface gets, once for those that get as much, beside what was published.
    void loading() {
        namespace timber = reference::timber;
        std::vector<std::string> said;
        for (const job::Station* station : recipe_.surfaces) {
            const plan::Station* planned = recipe_.plan.station(station->id.value);
            if (planned == nullptr || !planned->loading) continue;
            const plan::Loading& it = *planned->loading;
            const std::string mass = words_.mass(it.per_area * units::m2(1));
            if (std::find(said.begin(), said.end(), mass) != said.end()) continue;
            said.push_back(mass);
            add("loading", {{"mass", mass},
                            {"coats", std::int64_t{station->coats}},
                            {"loading", in_wood(it.in_wood)},
                            {"depth", words_("unit.millimetre",
                                             {{"n", words_.amount(units::in_mm(it.depth))}})}});
        }
        if (said.empty()) return;
        const auto& all = timber::thresholds;
        add("thresholds", {{"borers", in_wood(all.front().minimum.value)},
                           {"low", in_wood(all[1].minimum.value)},
                           {"high", in_wood(all.back().minimum.value)}});
    }

    const Recipe& recipe_;
    const text::Catalog& words_;
    StyledText runs_;
};

}  // namespace

StyledText strength_words(const Recipe& recipe) {
    return Sentences(recipe).all();
}

}  // namespace gallipot::document
