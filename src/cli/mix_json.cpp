#include "cli/mix_json.hpp"

#include "domain/job/keys.hpp"

namespace gallipot::cli {
namespace {

Json percent_range(const units::Range<double>& range) {
    return Json::array({percent(range.low), percent(range.high)});
}

Json json(const plan::MeasureStep& step) {
    Json out{{"measure", step.measure}, {"times", step.times}};
    if (step.kind == job::Measure::Kind::scale)
        out["weight_g"] = figure(units::in_g(step.weight));
    else
        out["volume_mL"] = figure(units::in_mL(step.volume));
    return out;
}

Json json(const plan::Ingredient& ingredient) {
    Json measures = Json::array();
    for (const auto& step : ingredient.measures) measures.push_back(json(step));
    Json out{{"name", ingredient.name},
             {"substance", ingredient.substance},
             {"mass_g", figure(units::in_g(ingredient.mass))},
             {"volume_mL", figure(units::in_mL(ingredient.volume))},
             {"measures", std::move(measures)},
             {"measured_mass_g", figure(units::in_g(ingredient.measured_mass))},
             {"measured_mass_low_g", figure(units::in_g(ingredient.measured_mass_range.low))},
             {"measured_mass_high_g", figure(units::in_g(ingredient.measured_mass_range.high))},
             {"measured_volume_mL", figure(units::in_mL(ingredient.measured_volume))},
             {"error_percent", percent(ingredient.error)},
             {"within_tolerance", ingredient.within_tolerance}};
    if (!ingredient.better_batches.empty()) {
        Json better = Json::array();
        for (const auto& batch : ingredient.better_batches)
            better.push_back(figure(units::in_mL(batch.measured)));
        out["better_batches_mL"] = std::move(better);
    }
    return out;
}

Json json(const std::optional<units::Celsius>& temperature) {
    return temperature ? figure(temperature->degrees) : Json(nullptr);
}

std::string_view word(safety::SignalWord signal) {
    switch (signal) {
        case safety::SignalWord::danger:
            return "danger";
        case safety::SignalWord::warning:
            return "warning";
        case safety::SignalWord::caution:
            return "caution";
        case safety::SignalWord::none:
            break;
    }
    return "none";
}

std::string_view word(safety::Pictogram pictogram) {
    return pictogram == safety::Pictogram::health_hazard ? "GHS08" : "GHS07";
}

}  // namespace

Json percent(double fraction) {
    return figure(fraction * 100);
}

Json hazard_json(const safety::Hazard& hazard) {
    Json pictograms = Json::array();
    for (const auto pictogram : hazard.pictograms) pictograms.push_back(word(pictogram));
    return {{"rules", hazard.rules == safety::RuleSet::clp_like ? "clp-like" : "us-household"},
            {"signal_word", word(hazard.signal_word)},
            {"classes", hazard.classes},
            {"hazard_statements", hazard.hazard_codes},
            {"precautionary_statements", hazard.precaution_codes},
            {"pictograms", std::move(pictograms)},
            {"unknown", hazard.unknown},
            // What decided, and whether as measured or once so much of the water has dried up.
            {"boron_compounds_percent_w_w", percent(hazard.boron_compounds)},
            {"eye_irritants_percent_w_w", percent(hazard.eye_irritants)},
            {"decided_by", hazard.water_gone > 0 ? "as dried" : "as measured"},
            {"water_gone_percent", percent(hazard.water_gone)}};
}

Json mix_json(const plan::Mix& mix, job::Basis basis) {
    Json ingredients = Json::array();
    for (const auto& ingredient : mix.ingredients) ingredients.push_back(json(ingredient));
    Json strength = Json::object();
    for (const auto& [name, s] : mix.strength)
        strength[name] = {{"asked_percent_w_w", percent(s.asked_w_w)},
                          {"percent_w_w", percent(s.w_w)},
                          {"percent_w_w_range", percent_range(s.w_w_range)},
                          // grams in 100 mL of the finished mix
                          {"percent_w_v", figure(units::in_g_per_mL(s.w_v) * 100)}};
    return {
        {"basis", job::word_of("mixes.*.basis", basis)},
        {"batches", mix.batches},
        {"fills_per_batch", mix.fills_per_batch},
        {"measured_mL", figure(units::in_mL(mix.measured))},
        {"finished_mL", figure(units::in_mL(mix.finished))},
        {"mass_g", figure(units::in_g(mix.mass))},
        {"needed_mL", figure(units::in_mL(mix.needed))},
        {"ingredients", std::move(ingredients)},
        {"strength", std::move(strength)},
        {"boric_acid_equivalent_percent_w_w", percent(mix.boric_acid_equivalent_w_w.usual)},
        {"boric_acid_equivalent_percent_w_w_range", percent_range(mix.boric_acid_equivalent_w_w)},
        {"boron_percent_w_w", percent(mix.boron_w_w.usual)},
        {"dissolves_above_C", json(mix.dissolves_above)},
        {"crystals_below_C", json(mix.crystals_below)},
        {"hazard", hazard_json(mix.hazard)}};
}

}  // namespace gallipot::cli
