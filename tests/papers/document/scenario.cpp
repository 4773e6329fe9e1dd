#include "scenario.hpp"

#include "catch_all.hpp"

namespace gallipot::tests {

namespace {

using namespace std::chrono_literals;
using job::Station;
using units::g;
using units::mL;

template <class T>
diag::At<T> at(T value) {
    return {std::move(value), {}};
}
diag::At<std::string> at(const char* text) {
    return {text, {}};
}

job::Ingredient asked(const std::string& name, double amount) {
    job::Ingredient ingredient;
    ingredient.name = name;
    ingredient.amount = at(amount);
    return ingredient;
}
job::Ingredient rest(const std::string& name) {
    job::Ingredient ingredient;
    ingredient.name = name;
    ingredient.rest = true;
    return ingredient;
}

job::Mix mix(const std::string& id, const char* title, const char* against, job::Form form,
             job::Basis basis) {
    job::Mix mix;
    mix.id = id;
    mix.title = at(job::LocalText(title));
    mix.against = at(against);
    mix.form = at(form);
    mix.basis = at(basis);
    mix.spare = at(units::Share::percent(10));
    return mix;
}

job::Openings openings(const char* text, bool side, units::Area area) {
    job::Openings openings;
    openings.text = text;
    openings.side = side;
    openings.area = area;
    return openings;
}

Station station(const char* id, const char* place, const char* mix) {
    Station station;
    station.id = at(id);
    station.place = at(job::LocalText(place));
    station.mix = at(mix);
    station.placed =
        at(job::LocalTime(std::chrono::local_days(std::chrono::year{2027} / 3 / 2) + 19h + 30min));
    return station;
}

job::Job hall_job() {
    job::Job job;
    job.title = at(job::LocalText("Millrace Community Hall"));
    job.prepared = at(job::Date(std::chrono::year{2027} / 3 / 2));
    job.languages = {at("en"), at("es")};
    job.help.region = at("AU");
    job.help.contact = job::Contact{at(job::LocalText("Hall caretaker")), at("(02) 5550 0142")};

    auto syrup =
        mix("syrup", "Sweet liquid bait", "ants", job::Form::liquid, job::Basis::percent_w_w);
    syrup.ingredients = {asked("borax", 1), asked("sugar", 20), rest("water")};
    syrup.limits = {{"borax", job::Limit{at(1.5), {}}}};
    syrup.lasts = at(units::days(30));
    auto dry = mix("dry", "Dry bait", "cockroaches", job::Form::dry, job::Basis::parts_by_volume);
    dry.ingredients = {asked("borax", 1), asked("icing sugar", 1)};
    dry.lasts = at(units::days(90));
    auto timber =
        mix("timber", "Timber spray", "wood borers", job::Form::spray, job::Basis::percent_w_v);
    timber.ingredients = {asked("borax", 5), rest("water")};
    timber.ingredients[0].as = at("boric acid");
    timber.batch = at(mL(750));
    job.mixes = {syrup, dry, timber};

    job::Container cup;
    cup.id = "cup";
    cup.holds = at(mL(60));
    cup.fill = at(mL(45));
    cup.openings = openings("4 side holes of 6 mm", true, units::cm2(1.13));
    job::Container saucer;
    saucer.id = "saucer";
    saucer.holds = at(mL(30));
    saucer.fill = at(mL(20));
    saucer.openings = openings("open top", false, units::cm2(28));
    job.containers = {cup, saucer};

    auto k1 = station("K1", "Kitchen, behind the bins", "syrup");
    k1.container = at("cup");
    k1.count = 2;
    auto b1 = station("B1", "Stores, behind the boiler", "dry");
    b1.container = at("saucer");
    b1.count = 2;
    auto k2 = station("K2", "Kitchen, under the sink", "dry");
    k2.container = at("saucer");
    auto y1 = station("Y1", "Yard, by the step", "syrup");
    y1.container = at("cup");
    y1.count = 4;
    y1.coldest = at(units::Celsius{2});
    auto s1 = station("S1", "Stage, underside of the boards", "timber");
    s1.area = at(units::m2(6));
    s1.coats = 2;
    Station c1;
    c1.id = at("C1");
    c1.place = at(job::LocalText("Yard, far wall"));
    c1.control = true;
    job.stations = {k1, b1, k2, y1, s1, c1};
    return job;
}

plan::Ingredient ingredient(const std::string& name, bool powder, units::Mass mass,
                            units::Volume volume) {
    plan::Ingredient it;
    it.name = name;
    it.substance = name;
    it.powder = powder;
    it.borate = name == "borax";
    it.mass = it.measured_mass = mass;
    it.measured_mass_range = units::Range<units::Mass>::exactly(mass);
    it.volume = it.measured_volume = volume;
    return it;
}

plan::MeasureStep spoon(const std::string& name, int times, units::Volume each) {
    return {name, job::Measure::Kind::scoop, times, each, {}};
}

plan::Mix syrup_plan() {
    plan::Mix mix;
    mix.id = "syrup";
    mix.needed = mL(297);
    mix.finished = mL(297);
    mix.mass = g(321.2);
    mix.containers = 6;
    auto borax = ingredient("borax", true, g(3.2), mL(3.7));
    borax.limited = true;
    borax.measured_mass_range = {g(2.9), g(3.2), g(3.6)};
    borax.measures = {spoon("1/2 tsp", 1, mL(2.5)), spoon("1/4 tsp", 1, mL(1.25))};
    auto sugar = ingredient("sugar", true, g(64), mL(75));
    sugar.measures = {spoon("1 tbsp", 5, mL(15))};
    auto water = ingredient("water", false, g(254), mL(254));
    water.measures = {{"jug", job::Measure::Kind::jug, 1, mL(250), {}}};
    water.error = -0.016;
    mix.ingredients = {borax, sugar, water};
    plan::Strength strength;
    strength.asked_w_w = 0.01;
    strength.w_w = 0.00996;
    strength.w_w_range = {0.0091, 0.00996, 0.0112};
    mix.strength["borax"] = strength;
    mix.asked = {{"borax", "", job::Basis::percent_w_w, 0.01, 99}};
    mix.boric_acid_equivalent_w_w = {0.0059, 0.00646, 0.0072};
    mix.usual = plan::UsualRange{0.005, 0.01, "Klotz and others 2000", true, false};
    mix.dissolves_above = units::Celsius{25};
    mix.crystals_below = units::Celsius{5};
    mix.warm_water = true;
    mix.hazard.signal_word = safety::SignalWord::danger;
    mix.hazard.basis = "basis.clp_like";
    mix.hazard.notes = {"basis.note_11"};
    return mix;
}

plan::Mix dry_plan() {
    plan::Mix mix;
    mix.id = "dry";
    mix.batches = 2;
    mix.needed = mix.finished = mL(66);
    mix.mass = g(45.9);
    mix.containers = 3;
    auto borax = ingredient("borax", true, g(28.4), mL(33));
    borax.measures = {{"scale", job::Measure::Kind::scale, 1, {}, g(28)}};
    auto sugar = ingredient("icing sugar", true, g(17.5), mL(33));
    sugar.within_tolerance = false;
    sugar.error = 0.08;
    sugar.measures = {spoon("1 tbsp", 2, mL(15)), spoon("1 tsp", 1, mL(5))};
    sugar.better_batches = {{mL(60), 0.91}, {mL(80), 1.21}};
    mix.ingredients = {borax, sugar};
    plan::Strength strength;
    strength.w_w = 0.62;
    strength.w_w_range = units::Range<double>::exactly(0.62);
    mix.strength["borax"] = strength;
    mix.asked = {{"borax", "", job::Basis::parts_by_volume, 0.5, 1}};
    mix.boric_acid_equivalent_w_w = units::Range<double>::exactly(0.402);
    mix.hazard.signal_word = safety::SignalWord::danger;
    mix.hazard.basis = "basis.clp_like";
    return mix;
}

plan::Mix timber_plan() {
    plan::Mix mix;
    mix.id = "timber";
    mix.needed = mix.finished = mL(750);
    mix.mass = g(780);
    auto borax = ingredient("borax", true, g(57.8), mL(67));
    borax.measures = {{"scale", job::Measure::Kind::scale, 1, {}, g(58)}};
    auto water = ingredient("water", false, g(722), mL(722));
    water.measures = {{"jug", job::Measure::Kind::jug, 2, mL(361), {}}};
    mix.ingredients = {borax, water};
    plan::Strength strength;
    strength.w_w = 0.0741;
    strength.w_w_range = units::Range<double>::exactly(0.0741);
    mix.strength["borax"] = strength;
    mix.asked = {{"borax", "boric acid", job::Basis::percent_w_v, 0.05, 20}};
    mix.boric_acid_equivalent_w_w = units::Range<double>::exactly(0.048);
    mix.dissolves_above = units::Celsius{46};
    mix.crystals_below = units::Celsius{40};
    mix.warm_water = true;
    mix.hazard.signal_word = safety::SignalWord::danger;
    mix.hazard.basis = "basis.clp_like";
    return mix;
}

plan::Contents contents(units::Volume fill, units::Mass mass,
                        std::vector<std::pair<std::string, units::Mass>> ingredients,
                        units::Mass borax) {
    // Boric acid equivalent and boron of borax decahydrate, as in reference/.
    return {fill, mass, std::move(ingredients), borax * 0.6485, borax * 0.11338};
}

plan::Station planned(const job::Station& station, std::vector<std::string> ids,
                      std::optional<plan::Contents> contents, std::optional<job::Date> replace_by) {
    plan::Station it;
    it.id = station.id.value;
    it.mix = station.mix ? station.mix->value : "";
    it.containers = static_cast<int>(ids.size());
    it.container_ids = std::move(ids);
    if (contents) it.per_container = std::make_shared<const plan::Contents>(std::move(*contents));
    it.replace_by = replace_by;
    if (station.mix) it.no_sprays_until = job::Date(std::chrono::year{2027} / 3 / 23);
    return it;
}

}  // namespace

Scenario hall() {
    Scenario it;
    it.job = hall_job();
    it.plan.mixes = {syrup_plan(), dry_plan(), timber_plan()};
    const auto april = job::Date(std::chrono::year{2027} / 4 / 1);
    const auto may = job::Date(std::chrono::year{2027} / 5 / 31);
    const auto syrup = contents(
        mL(45), g(48.7), {{"borax", g(0.485)}, {"sugar", g(9.7)}, {"water", g(38.5)}}, g(0.485));
    const auto dry =
        contents(mL(20), g(13.9), {{"borax", g(8.6)}, {"icing sugar", g(5.3)}}, g(8.6));
    const auto spray = contents(mL(682), g(709), {{"borax", g(52.6)}, {"water", g(656)}}, g(52.6));
    const auto& stations = it.job.stations;
    it.plan.stations = {planned(stations[0], {"K1-1", "K1-2"}, syrup, april),
                        planned(stations[1], {"B1-1", "B1-2"}, dry, may),
                        planned(stations[2], {"K2"}, dry, may),
                        planned(stations[3], {"Y1-1", "Y1-2", "Y1-3", "Y1-4"}, syrup, april),
                        planned(stations[4], {}, spray, {}),
                        planned(stations[5], {}, {}, {})};
    it.who.name = "Poisons Information Centre";
    it.who.phone = "13 11 26";
    it.who.hours = "24/7";
    it.who.source = "poisonsinfo.health.qld.gov.au";
    it.who.emergency = "000";
    return it;
}

text::Catalog words_in(const std::string& language, const std::string& region) {
    diag::Diagnostics out;
    text::Catalog catalog(std::string(GALLIPOT_SOURCE_DIR) + "/templates", language, region, out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

}  // namespace gallipot::tests
