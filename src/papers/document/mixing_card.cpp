#include "papers/document/mixing_card.hpp"

#include <algorithm>
#include <optional>

#include "domain/safety/classify.hpp"
#include "papers/document/container_drawings.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/measure_words.hpp"
#include "papers/document/mixing_steps.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/rules_sheet.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/strength_words.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

StyledText aside(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    const std::string pests = pest_name(recipe.job, recipe.asked.against.value, words);
    const bool fills = !recipe.fills.empty();
    const bool covers = !recipe.surfaces.empty();
    if (fills && covers) {
        return words.rich(
            "card.aside.both",
            {{"pests", pests}, {"fills", recipe.fills_text()}, {"area", recipe.area_text()}});
    }
    if (fills) {
        return words.rich("card.aside.containers",
                          {{"pests", pests}, {"fills", recipe.fills_text()}});
    }
    if (covers) {
        int coats = 1;
        for (const auto* station : recipe.surfaces) coats = std::max(coats, station->coats);
        return words.rich(
            "card.aside.surface",
            {{"pests", pests}, {"area", recipe.area_text()}, {"coats", std::int64_t{coats}}});
    }
    return words.rich("card.aside.none", {{"pests", pests}});
}

Cell ingredient_cell(const Recipe& recipe, const plan::Ingredient& ingredient) {
    const Catalog& words = recipe.words;
    const plan::Mix& mix = recipe.mix;
    std::string note = ingredient_note(recipe.job, ingredient, words);
    if (ingredient.substance == "water" && mix.warm_water && mix.dissolves_above &&
        recipe.asked.form.value != job::Form::dry && recipe.asked.form.value != job::Form::paste) {
        note = words("card.measure.water_at",
                     {{"temperature", words.temperature(water_temperature(*mix.dissolves_above))}});
    }
    return {bold(words.capital(ingredient_name(recipe.job, ingredient, words))),
            regular(std::move(note))};
}

Cell take_cell(const plan::Ingredient& ingredient, const Recipe& recipe) {
    const Catalog& words = recipe.words;
    Cell cell{take(ingredient, words), {}};
    cell.tools = tools(ingredient, recipe.job, words);
    if (!ingredient.within_tolerance) {
        cell.note = words.rich(ingredient.error > 0 ? "measure.over" : "measure.under",
                               {{"percent", words.percent(std::abs(ingredient.error))}});
    }
    return cell;
}

/// How much the job asks for, and whether that is before or after mixing; with neither, the spare.
StyledText size_asked(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    const job::Mix& asked = recipe.asked;
    const auto say = [&](const char* key, const std::string& volume) {
        return words.rich(key, {{"volume", volume}});
    };
    if (asked.makes)
        return say("card.measure.after_mixing", words.volume(**asked.makes, asked.makes_unit));
    if (asked.batch)
        return say("card.measure.before_mixing", words.volume(**asked.batch, asked.batch_unit));
    if (asked.batch_times) {
        const int parts = recipe.mix.batches / recipe.mix.repeats;
        return say("card.measure.before_mixing", words.usual(recipe.mix.measured * parts));
    }
    if (asked.spare.value.fraction <= 0) return {};
    return words.rich("card.measure.spare",
                      {{"percent", words.percent(asked.spare.value.fraction)}});
}

Table amounts(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    const plan::Mix& mix = recipe.mix;
    Table table;
    table.columns = {{words.rich("card.measure.ingredient"), Align::left, 0},
                     {words.rich("card.measure.take"), Align::left, 1},
                     {words.rich("card.measure.weight"), Align::right, 0},
                     {words.rich("card.measure.volume"), Align::right, 0},
                     {words.rich("card.measure.share"), Align::right, 0}};
    for (const plan::Ingredient& ingredient : mix.ingredients) {
        table.rows.push_back({ingredient_cell(recipe, ingredient),
                              take_cell(ingredient, recipe),
                              {regular(words.usual(ingredient.measured_mass)), {}},
                              {regular(words.usual(ingredient.measured_volume)), {}},
                              {regular(words.percent(ingredient.measured_mass / mix.mass)), {}}});
    }
    table.rows.push_back({{words.rich("card.measure.makes"), {}},
                          {{}, size_asked(recipe)},
                          {bold(words.usual(mix.mass)), {}},
                          {bold(words.usual(mix.finished)), {}},
                          {}});
    table.last_row_is_total = true;
    return table;
}

bool any_powder(const plan::Mix& mix) {
    return std::any_of(mix.ingredients.begin(), mix.ingredients.end(),
                       [](const auto& ingredient) { return ingredient.powder; });
}

/// What is done to the wood before it is sprayed, from the table of pests.
void add_wood(const Recipe& recipe, Checklist& list) {
    const auto* pest = reference::find_pest(*recipe.asked.against);
    if (pest == nullptr || !pest->lives_in_wood || recipe.surfaces.empty()) return;
    for (StyledText& sentence :
         advice_on(*pest, reference::Topic::before, recipe.job, recipe.words))
        list.items.push_back(std::move(sentence));
}

Checklist before(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    const job::Form form = recipe.asked.form.value;
    Checklist list;
    list.may_halve = true;
    const auto add = [&](const std::string& key, const text::Arguments& arguments = {}) {
        list.items.push_back(words.rich("card.before." + key, arguments));
    };
    add("read");
    if (holds_peanut(recipe.job, recipe.mix)) list.items.push_back(words.rich("allergy.card"));
    if (form == job::Form::spray) add_wood(recipe, list);
    if (mixed_in(recipe) == MixedIn::another) {
        const units::Volume made = recipe.mix.finished;
        add("vessel",
            {{"volume", recipe.asked.vessel ? words.volume(std::max(made, **recipe.asked.vessel),
                                                           recipe.asked.vessel_unit)
                                            : words.usual(made)}});
    }
    const text::Arguments count = {{"n", std::int64_t{recipe.count()}}};
    if (recipe.count() == 0) {
        add(form == job::Form::spray ? "labels_sprayer" : "labels_vessel");
    } else {
        add(form == job::Form::dry || form == job::Form::paste ? "labels_jar" : "labels_bottle",
            count);
    }
    if (std::any_of(recipe.containers.begin(), recipe.containers.end(),
                    [](const auto* c) { return c->openings && c->openings->side; })) {
        add("holes");
    }
    if (!recipe.hazardous())
        add("cover");
    else if (form == job::Form::spray)
        add("protect_spray");
    else
        add(any_powder(recipe.mix) ? "protect_powder" : "protect");
    if (recipe.hazardous()) add("cuts");
    // From there on it is classed as toxic to reproduction, whatever rules the label follows.
    if (recipe.mix.hazard.boron_compounds >= safety::limits::reproductive_1b) add("pregnant");
    if (form == job::Form::liquid || form == job::Form::spray) add("no_drink_bottle");
    add("no_food");
    add("tools");
    if (!recipe.mix.hazard.unknown.empty()) {
        add("unknown", {{"names", words.list(recipe.mix.hazard.unknown)}});
    }
    return list;
}

/// The steps, and beside them what they fill.
void add_steps(const Recipe& recipe, Checklist steps, std::vector<Block>& blocks) {
    Group list;
    list.blocks.emplace_back(Heading{recipe.words.rich("card.mix.heading")});
    list.blocks.emplace_back(std::move(steps));
    if (recipe.containers.empty()) {
        for (Block& block : list.blocks) blocks.push_back(std::move(block));
        return;
    }
    Group picture;
    picture.blocks.emplace_back(Heading{recipe.words.rich("card.container.heading")});
    picture.blocks.emplace_back(container_drawings(recipe));
    blocks.emplace_back(Beside{std::make_shared<const Group>(std::move(list)),
                               std::make_shared<const Group>(std::move(picture)), 0.38});
}

/// The coldest of the mix's stations, if that is cold enough for crystals.
const job::Station* station_with_crystals(const Recipe& recipe) {
    const job::Station* coldest = nullptr;
    for (const job::Station& station : recipe.job.stations) {
        if (!station.mix || station.mix->value != recipe.mix.id || !station.coldest) continue;
        if (station.coldest->value >= *recipe.mix.crystals_below) continue;
        if (coldest == nullptr || station.coldest->value < coldest->coldest->value) {
            coldest = &station;
        }
    }
    return coldest;
}

Paragraph then(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    Paragraph paragraph;
    add_sentence(paragraph.text,
                 words.rich(recipe.count() == 0 && !recipe.surfaces.empty() ? "card.then.spray_only"
                                                                            : "card.then.set_out"));
    if (!recipe.mix.crystals_below) return paragraph;
    const std::string below = words.temperature(*recipe.mix.crystals_below);
    if (const auto* station = station_with_crystals(recipe)) {
        add_sentence(paragraph.text,
                     words.rich("card.then.crystals_at",
                                {{"temperature", below},
                                 {"station", station->id.value},
                                 {"place", station->where(words.tag())},
                                 {"coldest", words.temperature(station->coldest->value)}}));
    } else {
        add_sentence(paragraph.text, words.rich("card.then.crystals", {{"temperature", below}}));
    }
    return paragraph;
}

/// A row for each batch, with a box for each step, or for two and three together where they are
/// many.
Table batch_rows(const Recipe& recipe, std::size_t steps) {
    const Catalog& words = recipe.words;
    // Whoever makes more of them begins a new card.
    constexpr int maximum_rows = 24;
    constexpr std::size_t most_boxes = 12;
    const std::size_t together = (steps + most_boxes - 1) / most_boxes;
    std::size_t boxes = 0;
    Table table;
    table.to_write = true;
    table.columns.push_back({words.rich("card.fill_in.batch"), Align::left, 2.2});
    for (std::size_t first = 1; first <= steps; first += together, ++boxes) {
        const std::size_t last = std::min(first + together - 1, steps);
        std::string name = std::to_string(first);
        if (last > first) name += "–" + std::to_string(last);
        table.columns.push_back({regular(std::move(name)), Align::left, 1});
    }
    table.columns.push_back({words.rich("card.fill_in.by"), Align::left, 5});
    table.columns.push_back({words.rich("card.fill_in.time"), Align::left, 5});
    table.columns.push_back({words.rich("card.fill_in.lot"), Align::left, 4});
    for (int batch = 1; batch <= std::min(recipe.mix.batches, maximum_rows); ++batch) {
        std::vector<Cell> row{{bold(std::to_string(batch)), {}}};
        for (std::size_t i = 0; i < boxes; ++i) row.push_back({{}, {}, true});
        row.resize(table.columns.size());
        table.rows.push_back(std::move(row));
    }
    return table;
}

FillIn fill_in(const Recipe& recipe) {
    const Catalog& words = recipe.words;
    const bool sprayed = recipe.count() == 0 && !recipe.surfaces.empty();
    return {
        {{words.rich("card.fill_in.by"), Align::left, 3},
         {words.rich("card.fill_in.time"), Align::left, 3},
         {words.rich("card.fill_in.lot"), Align::left, 3},
         {words.rich(sprayed ? "card.fill_in.sprayed" : "card.fill_in.filled"), Align::left, 2}},
        1};
}

StyledText made(const Recipe& recipe) {
    const auto prepared = recipe.asked.made.value_or(*recipe.job.prepared);
    if (!recipe.asked.lasts) return recipe.words.rich("card.made", {{"made", prepared}});
    return recipe.words.rich(
        "card.made_replace",
        {{"made", prepared}, {"replace", later(prepared, recipe.asked.lasts->value)}});
}

/// Where nobody licensed has looked for termites yet, as far as the job says.
std::vector<std::string> not_inspected(const Recipe& recipe) {
    std::vector<std::string> ids;
    const auto* pest = reference::find_pest(*recipe.asked.against);
    if (pest == nullptr || pest->name != "termites") return ids;
    for (const job::Station* station : recipe.surfaces)
        if (!station->inspected) ids.push_back(*station->id);
    return ids;
}

std::int64_t number_of(const plan::Plan& plan, const plan::Mix& mix) {
    const auto at = std::find_if(plan.mixes.begin(), plan.mixes.end(),
                                 [&](const auto& other) { return other.id == mix.id; });
    return at - plan.mixes.begin() + 1;
}

}  // namespace

Sheet mixing_card(const job::Job& job, const plan::Plan& plan, const plan::Mix& mix,
                  const safety::WhoToCall& who, const Catalog& words) {
    const Recipe recipe = document::recipe(job, plan, mix, words);
    const std::string title = recipe.asked.title->in(words.tag());
    Sheet sheet;
    sheet.bookmark = words("card.bookmark", {{"title", title}});
    sheet.kicker =
        words.rich("card.kicker", {{"job", job.title->in(words.tag())},
                                   {"n", number_of(plan, mix)},
                                   {"total", static_cast<std::int64_t>(plan.mixes.size())}});
    sheet.title = regular(title);
    sheet.aside = aside(recipe);

    auto& blocks = sheet.blocks;
    if (auto banner = not_asked(job, words)) blocks.emplace_back(std::move(*banner));
    Banner banner;
    if (const auto word = signal_word(mix.hazard.signal_word, words); !word.empty())
        banner.left = bold(sentence(words, word));
    add_sentence(banner.left, words.rich("card.banner"));
    banner.right = call(who, words);
    blocks.emplace_back(std::move(banner));

    if (const auto* pest = reference::find_pest(*recipe.asked.against))
        add_warnings({pest}, job, words, blocks);
    if (auto places = not_inspected(recipe); !places.empty())
        blocks.emplace_back(Paragraph{
            bold(words("card.not_inspected", {{"places", words.list(places)}})), Voice::large});
    blocks.emplace_back(Heading{words.rich("card.measure.heading")});
    if (mix.batches > 1) {
        StyledText batches = words.rich("card.batches", {{"n", std::int64_t{mix.batches}}});
        if (mix.fills_per_batch > 0) {
            add_sentence(batches, words.rich("card.batches_fill",
                                             {{"n", std::int64_t{mix.fills_per_batch}}}));
        }
        blocks.emplace_back(Paragraph{std::move(batches), Voice::large});
    }
    blocks.emplace_back(amounts(recipe));
    if (StyledText strength = strength_words(recipe); !strength.empty()) {
        blocks.emplace_back(Paragraph{std::move(strength), Voice::small});
    }
    blocks.emplace_back(Heading{words.rich("card.before.heading")});
    blocks.emplace_back(before(recipe));
    auto steps = mixing_steps(recipe);
    const std::size_t count = steps.size();
    const bool several = mix.batches > 1;
    // Of several batches each has boxes of its own.
    add_steps(recipe, Checklist{std::move(steps), true, !several, recipe.containers.empty()},
              blocks);
    blocks.emplace_back(Heading{words.rich("card.then.heading")});
    blocks.emplace_back(then(recipe));
    if (several)
        blocks.emplace_back(batch_rows(recipe, count));
    else
        blocks.emplace_back(fill_in(recipe));
    sheet.footer_left = words.rich("card.footer");
    sheet.footer_right = made(recipe);
    return sheet;
}

std::vector<Sheet> mixing_cards(const job::Job& job, const plan::Plan& plan,
                                const std::vector<const plan::Mix*>& mixes,
                                const safety::WhoToCall& who, const Catalog& words) {
    std::vector<Sheet> sheets;
    sheets.reserve(mixes.size() + 1);
    for (const plan::Mix* mix : mixes) sheets.push_back(mixing_card(job, plan, *mix, who, words));
    sheets.push_back(rules_sheet(job, plan, who, words));
    return sheets;
}

std::vector<Sheet> mixing_cards(const job::Job& job, const plan::Plan& plan,
                                const safety::WhoToCall& who, const Catalog& words) {
    std::vector<const plan::Mix*> all;
    for (const plan::Mix& mix : plan.mixes) all.push_back(&mix);
    return mixing_cards(job, plan, all, who, words);
}

}  // namespace gallipot::document
