#include "cli/plan_text.hpp"

#include <cmath>

#include "cli/table.hpp"
#include "domain/safety/dose.hpp"
#include "papers/document/measure_words.hpp"
#include "papers/document/strength_words.hpp"
#include "papers/document/words.hpp"
#include "tracking/analysis/power.hpp"

namespace gallipot::cli {
namespace {

using text::Arguments;
using text::Figures;

class PlanText {
  public:
    PlanText(const job::Job& job, const plan::Plan& plan, const text::Catalog& words,
             const Terminal& terminal)
        : job_(job), plan_(plan), words_(words), terminal_(terminal) {}

    std::string all() {
        out_ = heading(job_.title->in(words_.tag())) + "\n\n";
        for (const auto& mix : plan_.mixes) add_mix(mix);
        add_stations();
        add_drying();
        add_shopping();
        add_evidence();
        return std::move(out_);
    }

  private:
    static constexpr double half = 0.5, fifth = 0.2;

    [[nodiscard]] std::string say(const char* key, const Arguments& arguments = {}) const {
        return words_(std::string("terminal.plan.") + key, arguments);
    }
    [[nodiscard]] std::string measure_heading(const char* key) const {
        return words_(std::string("card.measure.") + key);
    }
    [[nodiscard]] std::string heading(const std::string& text) const {
        return painted(terminal_, Paint::heading, text);
    }
    void add(const Table& table) { out_ += table.text(terminal_, words_.language()) + '\n'; }
    /// A line of sentences under a table.
    void add(const std::string& sentences) {
        if (sentences.empty()) return;
        out_ += paragraphs("  " + sentences + '\n', terminal_, words_.language());
    }
    [[nodiscard]] std::string between(double usual, double low, double high) const {
        const auto figure = [&](double value) { return words_.amount(value); };
        return say("between",
                   {{"usual", figure(usual)}, {"low", figure(low)}, {"high", figure(high)}});
    }
    [[nodiscard]] std::string days(double number) const {
        return words_.number(number, Figures::whole);
    }

    [[nodiscard]] std::string share(const plan::Mix& mix,
                                    const plan::Ingredient& ingredient) const {
        const auto found = mix.strength.find(ingredient.name);
        if (found == mix.strength.end()) return words_.percent(ingredient.measured_mass / mix.mass);
        const plan::Strength& strength = found->second;
        std::string out = words_.percent(strength.w_w);
        const auto [low, high] = std::pair(strength.w_w_range.low, strength.w_w_range.high);
        const std::string spread = words_.percent_range(low, high);
        if (spread != words_.percent_range(low, low)) out += " (" + spread + ")";
        return out;
    }

    /// "+1.2 %": how far the measures are off.
    [[nodiscard]] std::string off(double error) const {
        const std::string figure = words_.number(error * 100, Figures::one_decimal);
        return words_("unit.percent", {{"n", (error > 0 ? "+" : "") + figure}});
    }

    void add_temperatures(const plan::Mix& mix) {
        if (mix.never_dissolves) return add(say("never_dissolves"));
        if (!mix.dissolves_above) return;
        std::string out =
            say("dissolves", {{"temperature", words_.temperature(*mix.dissolves_above)}});
        if (mix.crystals_below)
            out +=
                ' ' + say("crystals", {{"temperature", words_.temperature(*mix.crystals_below)}});
        add(out);
    }

    void add_mix(const plan::Mix& mix) {
        const document::Recipe recipe = document::recipe(job_, plan_, mix, words_);
        out_ += heading(say(
                    "mix", {{"title", recipe.asked.title->in(words_.tag())},
                            {"id", mix.id},
                            {"pests", document::pest_name(job_, *recipe.asked.against, words_)}})) +
                '\n';
        std::string makes = say("makes", {{"n", std::int64_t{mix.batches}},
                                          {"mass", words_.usual(mix.mass)},
                                          {"volume", words_.usual(mix.finished)}});
        if (mix.containers > 0) makes += ' ' + say("fills", {{"n", std::int64_t{mix.containers}}});
        add(makes);
        out_ += '\n';
        Table table({{measure_heading("ingredient")},
                     {measure_heading("take")},
                     {measure_heading("weight"), true},
                     {measure_heading("volume"), true},
                     {say("off"), true},
                     {measure_heading("share"), true}});
        for (const auto& ingredient : mix.ingredients)
            table.row({document::ingredient_name(job_, ingredient, words_),
                       text::plain(document::take(ingredient, words_)),
                       words_.usual(ingredient.measured_mass),
                       words_.usual(ingredient.measured_volume), off(ingredient.error),
                       share(mix, ingredient)});
        add(table);
        add(text::plain(document::strength_words(recipe)));
        const auto& acid = mix.boric_acid_equivalent_w_w;
        if (acid.high > 0)
            add(say("equivalent", {{"range", words_.percent_range(acid.low, acid.high)},
                                   {"boron", words_.percent(mix.boron_w_w.usual)}}));
        add_temperatures(mix);
        out_ += '\n';
    }

    /// Of ten cases, in how many.
    [[nodiscard]] std::string of_ten(double chance) const {
        return words_.number(std::floor(chance * 10), Figures::whole);
    }

    void add_evidence() {
        const auto designs = analysis::designs_of(analysis::sites(job_, plan_));
        if (designs.empty()) return;
        out_ += '\n' + heading(say("evidence")) + "\n\n";
        bool any = false;
        for (const analysis::Design& design : designs) {
            Arguments all{
                {"pest", text::capitalised(document::pest_name(job_, design.pest, words_))},
                {"n", static_cast<std::int64_t>(design.treated)},
                {"total", static_cast<std::int64_t>(design.controls)},
                {"count", static_cast<std::int64_t>(design.days.size())},
                {"half", of_ten(analysis::power(design, half))},
                {"fifth", of_ten(analysis::power(design, fifth))}};
            const bool two = design.treated == 1 && design.controls == 1;
            std::string text = say(design.controls == 0 ? "evidence_none"
                                   : two                ? "evidence_two"
                                                        : "evidence_pest",
                                   all);
            any = any || (design.controls > 0 && !two);
            const auto wanted = analysis::controls_wanted(design, half);
            if (wanted && *wanted > design.controls) {
                text += ' ' + say("evidence_more", {{"n", static_cast<std::int64_t>(*wanted)}});
                any = true;
            }
            add(text);
        }
        if (any) add(say("evidence_assumed"));
    }

    [[nodiscard]] std::string contents(const plan::Station& station) const {
        if (!station.per_container) return say("control");
        std::vector<std::string> parts;
        for (const auto& [name, mass] : station.per_container->ingredients)
            parts.push_back(words_(
                "contents.with_mass",
                {{"name", document::ingredient_name(job_, *plan_.mix(station.mix), name, words_)},
                 {"mass", words_.mass(mass)}}));
        const std::string all = words_.list(parts);
        return station.containers == 0 ? say("sprayed", {{"contents", all}}) : all;
    }

    [[nodiscard]] std::string day(job::LocalTime time) const {
        return words_.short_date(job::Date{std::chrono::floor<std::chrono::days>(time)});
    }

    [[nodiscard]] std::string visits(const plan::Station& station) const {
        constexpr std::size_t shown = 3;
        std::string out;
        for (std::size_t i = 0; i < station.visits.size() && i < shown; ++i)
            out += (i == 0 ? "" : ", ") + day(station.visits[i]);
        if (station.visits.size() <= shown) return out;
        const auto more = static_cast<std::int64_t>(station.visits.size() - shown);
        return say("and_more", {{"days", out}, {"n", more}});
    }

    [[nodiscard]] std::string labels(const std::vector<std::string>& ids) const {
        if (ids.size() < 2) return ids.empty() ? std::string() : ids.front();
        return say("labels_to", {{"first", ids.front()}, {"last", ids.back()}});
    }

    /// "0.41 g (41 mg/kg)": in one container, and what that is for a child; of a surface the grams.
    [[nodiscard]] std::string boric_acid(const plan::Station& station) const {
        const units::Mass acid = station.per_container->boric_acid_equivalent;
        if (station.containers == 0 || acid <= units::Mass{}) return words_.mass(acid);
        return say("dose", {{"mass", words_.mass(acid)},
                            {"dose", words_.amount(safety::child_10kg_mg_per_kg(acid))}});
    }

    void add_stations() {
        Table table({{say("station"), false, true},
                     {say("labels")},
                     {say("contents")},
                     {say("acid"), true},
                     {say("placed")},
                     {say("replace_by")},
                     {say("visits")}});
        for (const auto& station : plan_.stations) {
            std::string acid;
            if (station.per_container) acid = boric_acid(station);
            table.row({station.id, labels(station.container_ids), contents(station), acid,
                       station.placed ? day(*station.placed) : "",
                       station.replace_by ? words_.short_date(*station.replace_by) : "",
                       visits(station)});
        }
        out_ += heading(say("stations")) + "\n\n";
        add(table);
        add(say("dose_note"));
        out_ += '\n';
    }

    /// What an open liquid bait does until it is renewed; nothing where none stands open.
    void add_drying() {
        Table table({{say("station"), false, true},
                     {say("drying.lost"), true},
                     {say("drying.after"), true},
                     {say("drying.then"), true},
                     {say("drying.too_strong"), true},
                     {say("drying.water"), true}});
        for (const auto& station : plan_.stations) {
            if (!station.evaporation) continue;
            const plan::Evaporation& evaporation = *station.evaporation;
            const auto& loss = evaporation.water_loss_g_per_day;
            const auto& strength = evaporation.strength_after_lasts_w_w;
            std::string too_strong = "-";
            if (const auto& in = evaporation.days_to_too_strong)
                too_strong = say(
                    "between",
                    {{"usual", days(in->usual)}, {"low", days(in->low)}, {"high", days(in->high)}});
            table.row({station.id,
                       words_("unit.gram", {{"n", between(loss.usual, loss.low, loss.high)}}),
                       words_.amount(units::in_days(evaporation.after)),
                       words_.percent(strength.usual) + " (" +
                           words_.percent_range(strength.low, strength.high) + ")",
                       too_strong, water(evaporation.water_to_restore)});
        }
        if (table.empty()) return;
        out_ += heading(say("drying.heading")) + "\n\n";
        add(table);
    }

    /// "3 mL (2 to 6)"; a dash for a bait that gets no water back.
    [[nodiscard]] std::string water(const units::Range<units::Volume>& range) const {
        if (range.usual <= units::Volume{}) return "-";
        if (words_.shows_in().amounts == units::UnitSystem::us) {
            return words_("placement.amounts.range",
                          {{"low", words_.usual(range.low)}, {"high", words_.usual(range.high)}});
        }
        const auto figure = [&](units::Volume volume) { return units::in_mL(volume); };
        return words_("unit.millilitre",
                      {{"n", between(figure(range.usual), figure(range.low), figure(range.high))}});
    }

    [[nodiscard]] std::string money(double amount) const {
        const std::string figure = words_.number(amount, Figures::two_decimals);
        return job_.currency.empty() ? figure : figure + ' ' + job_.currency;
    }

    /// So much of a purchase, in the unit of its pack.
    [[nodiscard]] std::string bought(const plan::Purchase& purchase, units::Mass mass) const {
        const auto supply = job_.supplies.find(purchase.name);
        if (supply == job_.supplies.end()) return words_.usual(mass);
        const job::Pack& pack = supply->second.pack;
        if (pack.mass) return words_.computed(mass, pack.unit);
        if (!pack.volume || pack.unit.metric()) return words_.usual(mass);
        return words_.computed(purchase.volume * (mass / purchase.mass), pack.unit);
    }

    void add_shopping() {
        Table table({{say("shopping.buy")},
                     {say("shopping.needed"), true},
                     {say("shopping.packs"), true},
                     {say("shopping.left_over"), true},
                     {say("shopping.cost"), true}});
        for (const auto& purchase : plan_.shopping)
            table.row({purchase.name, bought(purchase, purchase.mass),
                       purchase.packs ? std::to_string(*purchase.packs) : "",
                       purchase.left_over ? bought(purchase, *purchase.left_over) : "",
                       purchase.cost ? money(*purchase.cost) : ""});
        if (table.empty()) return;
        out_ += heading(say("shopping.heading")) + "\n\n";
        out_ += table.text(terminal_, words_.language());
        if (!plan_.cost) return;
        std::string total = say("shopping.total", {{"amount", money(plan_.cost->total)}});
        if (plan_.cost->per_container)
            total += ' ' + say("shopping.each", {{"amount", money(*plan_.cost->per_container)}});
        if (!plan_.cost->complete) total += ' ' + say("shopping.incomplete");
        out_ += '\n';
        add(total);
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const text::Catalog& words_;
    const Terminal& terminal_;
    std::string out_;
};

}  // namespace

std::string plan_text(const job::Job& job, const plan::Plan& plan, const text::Catalog& words,
                      const Terminal& terminal) {
    return PlanText(job, plan, words, terminal).all();
}

}  // namespace gallipot::cli
