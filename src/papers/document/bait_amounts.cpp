#include "papers/document/bait_amounts.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <string>

#include "domain/plan/placements.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using reference::BaitCount;
using reference::Cited;
using reference::Pest;
using text::Arguments;
using text::Catalog;

/// Rows of what is here and what is published.
class Amounts {
  public:
    Amounts(const job::Job& job, const plan::Plan& plan, const Pest& pest, const Catalog& words)
        : job_(job), plan_(plan), pest_(pest), words_(words) {}

    std::vector<Block> make() {
        table_.columns = {{rich("where"), Align::left, 3},
                          {rich("here"), Align::left, 3},
                          {rich("published"), Align::left, 4}};
        const auto homes = plan::homes_with_bait(job_, plan_, pest_);
        for (const plan::HomeBaits& home : homes) add_home(home);
        for (const plan::RoomBaits& room : plan::rooms_with_number(job_, pest_)) add_room(room);
        for (const plan::Gap& gap : plan::unusual_gaps(job_, pest_)) add_gap(gap);
        if (table_.rows.empty()) return {};
        std::vector<Block> blocks;
        blocks.emplace_back(std::move(table_));
        blocks.emplace_back(
            Paragraph{rich("source", {{"sources", joined(words_, Join::semicolon, sources_)}}),
                      Voice::small});
        return blocks;
    }

  private:
    [[nodiscard]] StyledText rich(const std::string& key, const Arguments& arguments = {}) const {
        return words_.rich("placement.amounts." + key, arguments);
    }
    [[nodiscard]] StyledText containers(int count) const {
        return rich("containers", {{"n", std::int64_t{count}}});
    }
    /// "12", or "7 to 10".
    [[nodiscard]] std::string range(const BaitCount& count) const {
        if (count.low == count.high) return std::to_string(count.low);
        return words_("placement.amounts.range",
                      {{"low", std::to_string(count.low)}, {"high", std::to_string(count.high)}});
    }

    void add(Cell where, StyledText here, StyledText published, std::string_view source) {
        table_.rows.push_back(
            {std::move(where), {std::move(here), {}}, {std::move(published), {}}});
        if (std::ranges::find(sources_, source) == sources_.end()) sources_.emplace_back(source);
    }

    [[nodiscard]] Cell name_of(const plan::HomeBaits& home) const {
        if (home.unit != nullptr) return {regular(words_.capital(home.unit->in(words_.tag()))), {}};
        if (home.outside_units) return {rich("outside_units"), {}};
        Cell cell{rich("building"), {}};
        if (plan::flats_without_unit(job_)) cell.note = rich("one_house");
        return cell;
    }

    void add_home(const plan::HomeBaits& home) {
        // Outside the units there is no home to hold it against.
        const auto published = [&](StyledText text) {
            return home.outside_units ? rich("no_home") : std::move(text);
        };
        if (pest_.liquid && home.liquid_baits > 0) {
            const auto& house = pest_.liquid->value;
            add(name_of(home),
                rich("liquid", {{"volume", words_.usual(home.liquid)},
                                {"n", std::int64_t{home.liquid_baits}}}),
                published(rich("liquid_published",
                               {{"low", words_.usual(house.low)},
                                {"high", words_.usual(house.high)},
                                {"range", range({house.stations_low, house.stations_high})}})),
                pest_.liquid->source);
        }
        if (pest_.paste && home.paste_baits > 0) {
            const auto& house = pest_.paste->value;
            add(name_of(home),
                rich("paste",
                     {{"mass", words_.usual(home.paste)}, {"n", std::int64_t{home.paste_baits}}}),
                published(rich("paste_published", {{"low", words_.usual(house.low)},
                                                   {"high", words_.usual(house.high)}})),
                pest_.paste->source);
        }
        if (pest_.per_home && plan::counts_as_home(job_)) {
            add(name_of(home), containers(home.baits),
                published(rich("per_home", {{"range", range(pest_.per_home->value)}})),
                pest_.per_home->source);
        }
    }

    void add_room(const plan::RoomBaits& room) {
        const Cited<BaitCount> published = *pest_.baits_in(room.kind);
        const char* key =
            room.kind == reference::RoomKind::kitchen ? "per_kitchen" : "per_bathroom";
        add({regular(words_.capital(room.name(job_, words_.tag()))), {}}, containers(room.baits),
            rich(key, {{"range", range(published.value)}}), published.source);
    }

    void add_gap(const plan::Gap& gap) {
        const auto& published = pest_.spacing->value;
        // Metres stand once behind both; feet have metres beside each.
        const bool us = words_.shows_in().sizes == units::UnitSystem::us;
        add({rich("apart", {{"from", *gap.from->id}, {"to", *gap.to->id}}), {}},
            rich("apart_here", {{"distance", words_.usual(gap.apart)}}),
            rich("apart_published", {{"low", us ? words_.usual(published.low)
                                                : words_.amount(units::in_m(published.low))},
                                     {"high", words_.usual(published.high)}}),
            pest_.spacing->source);
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const Pest& pest_;
    const Catalog& words_;
    Table table_;
    std::vector<std::string> sources_;
};

}  // namespace

std::vector<Block> bait_amounts(const job::Job& job, const plan::Plan& plan, const Pest& pest,
                                const Catalog& words) {
    return Amounts(job, plan, pest, words).make();
}

}  // namespace gallipot::document
