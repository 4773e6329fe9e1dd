#include "papers/document/caretaker_sheet.hpp"

#include <algorithm>
#include <map>

#include "domain/safety/dose.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

/// Levels that a visit notes, and the keys of their names.
constexpr std::pair<const char*, double> levels[] = {
    {"full", 1}, {"three_quarters", 0.75}, {"half", 0.5}, {"quarter", 0.25}};

/// "0.31 g", or "0.31 to 0.41 g" where nobody can tell what was eaten and what dried up.
std::string grams(const units::Range<units::Mass>& left, const text::Catalog& words) {
    const std::string low = words.mass(left.low), high = words.mass(left.high);
    if (low == high) return high;
    return words("caretaker.dose.between", {{"low", low}, {"high", high}});
}

bool holds_borate(const plan::Station& station) {
    return station.containers > 0 && station.per_container &&
           station.per_container->boric_acid_equivalent > units::Mass{};
}

/// Of every station with containers that hold a borate; rows of stations alike are one.
Table doses(const job::Job& job, const plan::Plan& plan, const text::Catalog& words) {
    Table table;
    table.columns = {{words.rich("caretaker.dose.where"), Align::left, 2}};
    for (const auto& [key, level] : levels)
        table.columns.push_back(
            {words.rich(std::string("caretaker.dose.") + key), Align::right, 1});
    table.columns.push_back({words.rich("caretaker.dose.child"), Align::right, 1});
    std::map<std::pair<const plan::Contents*, bool>, std::size_t> rows;
    std::vector<std::vector<std::string>> stations;
    for (const auto& station : plan.stations) {
        if (!holds_borate(station)) continue;
        const units::Mass acid = station.per_container->boric_acid_equivalent;
        const bool dries = job.mix(station.mix)->form.value != job::Form::dry;
        const auto [row, is_new] =
            rows.try_emplace({station.per_container.get(), dries}, table.rows.size());
        if (is_new) {
            stations.emplace_back();
            auto& cells = table.rows.emplace_back(1);
            for (const auto& [key, level] : levels)
                cells.push_back(
                    {regular(grams(safety::left_at_level(acid, level, dries), words)), {}});
            const std::string dose = words.amount(safety::child_10kg_mg_per_kg(acid));
            cells.push_back({words.rich("caretaker.dose.mg_per_kg", {{"n", dose}}), {}});
        }
        stations[row->second].push_back(station.id);
    }
    for (std::size_t i = 0; i < stations.size(); ++i)
        table.rows[i].front().text = regular(words.list(stations[i]));
    return table;
}

/// What each container holds, and what the figures are.
void add_doses(const job::Job& job, const plan::Plan& plan, const text::Catalog& words,
               std::vector<Block>& blocks) {
    blocks.emplace_back(Paragraph{words.rich("caretaker.dose.intro")});
    blocks.emplace_back(doses(job, plan, words));
    blocks.emplace_back(Paragraph{words.rich("caretaker.dose.note"), Voice::small});
}

}  // namespace

bool states_doses(const plan::Plan& plan) {
    return std::ranges::any_of(plan.stations, holds_borate);
}

Sheet caretaker_sheet(const job::Job& job, const plan::Plan& plan, const std::string& link,
                      const text::Catalog& words) {
    Sheet sheet;
    sheet.bookmark = words("paper.caretaker");
    sheet.kicker = words.rich("caretaker.kicker", {{"job", job.title->in(words.tag())}});
    sheet.footer_left = words.rich("card.footer");
    sheet.footer_right = words.rich("card.made", {{"made", job.prepared.value}});
    if (link.empty()) {
        sheet.title = words.rich("caretaker.dose.heading");
        add_doses(job, plan, words, sheet.blocks);
        return sheet;
    }
    sheet.title = words.rich("caretaker.title");
    sheet.blocks.emplace_back(Code{link,
                                   {words.rich("caretaker.scan"), words.rich("caretaker.private"),
                                    words.rich("caretaker.link", {{"link", link}})},
                                   words("alt.code", {{"link", link}})});
    if (states_doses(plan)) {
        sheet.blocks.emplace_back(Heading{words.rich("caretaker.dose.heading")});
        add_doses(job, plan, words, sheet.blocks);
    }
    sheet.blocks.emplace_back(Heading{words.rich("caretaker.keep.heading")});
    std::vector<StyledText> keep;
    for (const char* item : {"serve", "secret", "backup"})
        keep.push_back(words.rich(std::string("caretaker.keep.") + item));
    sheet.blocks.emplace_back(bullets(std::move(keep)));
    return sheet;
}

}  // namespace gallipot::document
