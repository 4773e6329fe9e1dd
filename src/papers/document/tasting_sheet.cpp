#include "papers/document/tasting_sheet.hpp"

#include <algorithm>
#include <array>

#include "domain/reference/substances.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// The three foods that tell species apart: sugar, fat or protein, as the season and the species
/// have it (University of Hawaii CTAHR / West Hawaii Master Gardeners, Sugar Boric Acid Bait for
/// Ants, 2012: "sugar baits may fail for species whose diet shifts to fat or protein"). How to set
/// the spots out and when to count them is common practice, no source.
constexpr std::array<const char*, 3> foods = {"sugar", "fat", "protein"};

/// Which of our substances draw by what; that peanut butter is about half fat and a quarter
/// protein is from memory.
bool draws_by(const std::string& food, const std::string& substance) {
    const auto* known = reference::find_substance(substance);
    const auto one_of = [&](std::initializer_list<std::string_view> names) {
        return known != nullptr &&
               std::find(names.begin(), names.end(), known->name) != names.end();
    };
    if (food == "sugar") return one_of({"sugar", "icing sugar", "honey", "corn syrup"});
    if (food == "fat") return one_of({"peanut butter", "cooking oil"});
    return one_of({"peanut butter"});
}

bool is_set_out(const job::Job& job, const std::string& mix) {
    return std::any_of(job.stations.begin(), job.stations.end(), [&](const auto& station) {
        return station.mix && **station.mix == mix && station.container && !station.sprayed();
    });
}

std::vector<std::string> mixes_for(const std::string& food, const job::Job& job,
                                   const plan::Plan& plan, const Catalog& words) {
    std::vector<std::string> titles;
    for (const plan::Mix& mix : plan.mixes) {
        if (!is_set_out(job, mix.id)) continue;
        if (std::any_of(mix.ingredients.begin(), mix.ingredients.end(),
                        [&](const auto& i) { return draws_by(food, i.substance); }))
            titles.push_back(job.mix(mix.id)->title->in(words.tag()));
    }
    return titles;
}

Checklist steps(const Catalog& words) {
    Checklist list;
    list.numbered = true;
    for (const char* key : {"when", "cards", "spots", "apart", "count", "clear"})
        list.items.push_back(words.rich(std::string("tasting.steps.") + key));
    return list;
}

Table counts(const Catalog& words, int places) {
    Table table;
    table.to_write = true;
    table.columns = {{words.rich("tasting.column.spot"), Align::left, 3}};
    for (int place = 1; place <= places; ++place) {
        for (const char* when : {"first", "second", "third"}) {
            StyledText heading = regular(headed(words, std::to_string(place)));
            add_sentence(heading, words.rich(std::string("tasting.column.") + when));
            table.columns.push_back({std::move(heading), Align::left, 1});
        }
    }
    for (const char* food : foods) {
        const std::string key = std::string("tasting.food.") + food;
        StyledText card = bold(words(key));
        add_sentence(card, words.rich(key + "_how"));
        std::vector<Cell> row(table.columns.size());
        row.front().text = std::move(card);
        table.rows.push_back(std::move(row));
    }
    return table;
}

Table follows(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    Table table;
    table.columns = {{words.rich("tasting.follows.most"), Align::left, 1},
                     {words.rich("tasting.follows.bait"), Align::left, 2},
                     {words.rich("tasting.follows.mix"), Align::left, 1}};
    for (const char* food : foods) {
        const auto titles = mixes_for(food, job, plan, words);
        table.rows.push_back({{words.rich(std::string("tasting.food.") + food), {}},
                              {words.rich(std::string("tasting.follows.") + food), {}},
                              {titles.empty() ? words.rich("tasting.follows.none_here")
                                              : regular(words.list(titles)),
                               {}}});
    }
    for (const char* key : {"equal", "nothing"})
        table.rows.push_back({{words.rich(std::string("tasting.follows.") + key + "_case"), {}},
                              {words.rich(std::string("tasting.follows.") + key), {}},
                              {regular("–"), {}}});
    return table;
}

/// Which food to try first on the day of the job, and what the table of pests says of seasons.
std::vector<StyledText> by_season(const job::Job& job, const Catalog& words) {
    const auto season =
        reference::season_of(static_cast<unsigned>(job.prepared->month()), *job.help.region);
    std::vector<StyledText> lines;
    for (const reference::Pest* pest : treated_pests(job)) {
        for (const reference::SeasonalFood& seasonal : pest->food) {
            if (season != seasonal.season) continue;
            lines.push_back(words.rich(seasonal.food == reference::Food::sugar
                                           ? "tasting.season.sugar_first"
                                           : "tasting.season.protein_first",
                                       {{"pests", pest_name(*pest, words)}}));
            lines.back().front().text = words.capital(lines.back().front().text);
        }
        for (StyledText& sentence : advice_on(*pest, reference::Topic::food, job, words))
            if (std::ranges::find(lines, sentence) == lines.end())
                lines.push_back(std::move(sentence));
    }
    return lines;
}

}  // namespace

bool sets_out_bait(const job::Job& job) {
    return std::any_of(job.stations.begin(), job.stations.end(),
                       [](const auto& s) { return s.mix && s.container && !s.sprayed(); });
}

Sheet tasting_sheet(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    constexpr int places = 2;
    std::vector<std::string> against;
    for (const job::Mix& mix : job.mixes) {
        if (!is_set_out(job, mix.id)) continue;
        std::string name = pest_name(job, *mix.against, words);
        if (std::find(against.begin(), against.end(), name) == against.end())
            against.push_back(std::move(name));
    }
    Sheet sheet;
    sheet.bookmark = words("tasting.bookmark");
    sheet.kicker = words.rich("tasting.kicker", {{"job", job.title->in(words.tag())}});
    sheet.title = words.rich("tasting.title", {{"pests", words.list(against)}});
    auto& blocks = sheet.blocks;
    blocks.emplace_back(Paragraph{words.rich("tasting.why"), Voice::large});
    if (auto season = by_season(job, words); !season.empty())
        blocks.emplace_back(bullets(std::move(season)));
    blocks.emplace_back(Heading{words.rich("tasting.steps.heading")});
    blocks.emplace_back(steps(words));
    blocks.emplace_back(Heading{words.rich("tasting.counts")});
    blocks.emplace_back(counts(words, places));
    blocks.emplace_back(FillIn{{{words.rich("tasting.where"), Align::left, 3},
                                {words.rich("tasting.date"), Align::left, 2},
                                {words.rich("tasting.by"), Align::left, 2}},
                               places});
    blocks.emplace_back(Heading{words.rich("tasting.follows.heading")});
    blocks.emplace_back(follows(job, plan, words));
    blocks.emplace_back(Paragraph{words.rich("tasting.again"), Voice::small});
    sheet.footer_left = words.rich("tasting.footer");
    sheet.footer_right = words.rich("card.made", {{"made", *job.prepared}});
    return sheet;
}

}  // namespace gallipot::document
