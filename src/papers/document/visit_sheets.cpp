#include "papers/document/visit_sheets.hpp"

#include <algorithm>
#include <cstdint>

#include "domain/plan/rounds.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "tracking/visit/visit.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// All words of a field, each with a box.
std::vector<StyledText> to_tick(const std::vector<std::string>& keys, const Catalog& words) {
    std::vector<StyledText> all;
    all.reserve(keys.size());
    for (const std::string& key : keys) all.push_back(words.rich(key));
    return all;
}

class VisitSheets {
  public:
    VisitSheets(const job::Job& job, const plan::Plan& plan, const Catalog& words)
        : job_(job), plan_(plan), words_(words) {
        const auto state_keys = [](bool powder) {
            std::vector<std::string> keys;
            for (const auto state : visit::states_of(powder))
                keys.push_back("flag." + std::string(visit::word(state)));
            return keys;
        };
        std::vector<std::string> dids;
        for (const auto did : visit::all_dids())
            dids.push_back("visits.did." + std::string(visit::word(did)));
        levels_ = to_tick({"visits.level.full", "visits.level.three_quarters", "visits.level.half",
                           "visits.level.quarter", "visits.level.empty"},
                          words);
        states_ = to_tick(state_keys(false), words);
        powder_states_ = to_tick(state_keys(true), words);
        dids_ = to_tick(dids, words);
    }

    /// How to fill them in, then a table for each round.
    Sheet make() const {
        Sheet sheet;
        sheet.bookmark = words_("visits.bookmark");
        sheet.title = words_.rich("visits.title", {{"job", job_.title->in(words_.tag())}});
        auto& blocks = sheet.blocks;
        add_warnings(wood_pests(job_), job_, words_, blocks);
        std::vector<StyledText> how;
        for (const char* key :
             {"visits.how.level", "visits.how.tick", "takeover.visit.control", "visits.how.log"})
            how.push_back(words_.rich(key));
        for (StyledText& line : how_to_count()) how.push_back(std::move(line));
        Checklist list = bullets(std::move(how));
        list.may_halve = true;
        blocks.emplace_back(std::move(list));
        const std::vector<plan::Round> rounds = plan::rounds(plan_);
        for (std::size_t i = 0; i < rounds.size();) {
            const std::size_t alone = rows_alone(rounds, i);
            blocks.emplace_back(std::make_shared<const Group>(alone > 1 ? several(rounds, i, alone)
                                                                        : one(rounds[i], i + 1)));
            i += std::max<std::size_t>(alone, 1);
        }
        sheet.footer_left = words_.rich("report.footer");
        sheet.footer_right = words_.rich("card.made", {{"made", *job_.prepared}});
        return sheet;
    }

  private:
    [[nodiscard]] Group one(const plan::Round& round, std::size_t number) const {
        Group group;
        group.blocks.emplace_back(Heading{heading(round, number),
                                          {words_.rich("visits.by"), words_.rich("visits.time")}});
        Table table = empty_table();
        for (const plan::Due& due : round.stops) add_rows(table, due.station);
        group.blocks.emplace_back(std::move(table));
        return group;
    }

    /// How many rounds from `first` on have one row each: these share a table.
    [[nodiscard]] std::size_t rows_alone(const std::vector<plan::Round>& rounds,
                                         std::size_t first) const {
        std::size_t count = 0;
        for (; first + count < rounds.size(); ++count) {
            const plan::Round& round = rounds[first + count];
            if (round.stops.size() != 1 ||
                plan_.stations.at(round.stops.front().station).container_ids.size() > 1)
                break;
        }
        return count;
    }

    [[nodiscard]] Group several(const std::vector<plan::Round>& rounds, std::size_t first,
                                std::size_t count) const {
        Group group;
        group.blocks.emplace_back(Heading{words_.rich(
            "visits.round.several", {{"from", static_cast<std::int64_t>(first + 1)},
                                     {"to", static_cast<std::int64_t>(first + count)}})});
        const auto station = [&](std::size_t i) { return rounds[i].stops.front().station; };
        bool all_wood = true;
        for (std::size_t i = first; i < first + count; ++i)
            all_wood &= in_wood(job_.stations.at(station(i)));
        Table table = all_wood ? wood_table() : empty_table();
        for (std::size_t i = first; i < first + count; ++i) {
            if (all_wood) {
                table.rows.push_back(wood_row(heading(rounds[i], i + 1), station(i)));
                continue;
            }
            add_rows(table, station(i));
            auto& row = table.rows.back();
            // When, then where, and by whom.
            StyledText when = heading(rounds[i], i + 1);
            add_sentence(when, bold("·"));
            add_sentence(when, std::move(row.front().note));
            row.front().note = std::move(when);
            row.back().note = words_.rich("visits.by");
        }
        group.blocks.emplace_back(std::move(table));
        return group;
    }

    /// For rounds to sprayed wood alone, a row each.
    [[nodiscard]] Table wood_table() const {
        const auto capital = [&](const char* key) { return regular(words_.capital(words_(key))); };
        Table table;
        table.to_write = true;
        table.columns = {{words_.rich("visits.column.station"), Align::left, 62, 68},
                         {capital("visits.wood.holes"), Align::left, 16},
                         {words_.rich("visits.column.state"), Align::left, 26},
                         {capital("visits.wood.moisture"), Align::left, 16},
                         {words_.rich("visits.by"), Align::left, 20},
                         {words_.rich("visits.column.note"), Align::left, 18}};
        return table;
    }

    [[nodiscard]] std::vector<Cell> wood_row(StyledText when, std::size_t index) const {
        const job::Station& station = job_.stations.at(index);
        StyledText where = bold(*station.id);
        add_sentence(where, regular("·"));
        add_sentence(where, regular(words_.capital(station.where(words_.tag()))));
        for (text::Run& run : when) run.bold = true;
        return {{std::move(when), std::move(where)}, {}, signs_of_beetles(), {}, {}, {}};
    }

    [[nodiscard]] Cell signs_of_beetles() const {
        return choices({words_.rich("visits.wood.powder"), words_.rich("visits.wood.point")});
    }

    [[nodiscard]] StyledText heading(const plan::Round& round, std::size_t number) const {
        const plan::Date day{std::chrono::floor<std::chrono::days>(round.time)};
        return words_.rich("visits.round.heading", {{"number", static_cast<std::int64_t>(number)},
                                                    {"day", words_.weekday(day)},
                                                    {"time", words_.time_of_day(round.time)}});
    }

    static bool holds_bait(const job::Station& station) {
        return !station.control && !station.sprayed();
    }

    [[nodiscard]] bool is_powder(const job::Station& station) const {
        const job::Mix* mix = station.mix ? job_.mix(**station.mix) : nullptr;
        return mix != nullptr && *mix->form == job::Form::dry;
    }

    /// How pests are counted, from the table of pests: what holds for all of them, then a line for
    /// each.
    [[nodiscard]] std::vector<StyledText> how_to_count() const {
        std::vector<StyledText> shared = counting_for_all(job_, words_), lines;
        for (const reference::Pest* pest : treated_pests(job_)) {
            StyledText line;
            for (StyledText& sentence : advice_on(*pest, reference::Topic::count, job_, words_)) {
                if (std::ranges::find(shared, sentence) != shared.end()) continue;
                if (line.empty())
                    line = bold(headed(words_, words_.capital(pest_name(*pest, words_))));
                add_sentence(line, std::move(sentence));
            }
            if (!line.empty()) lines.push_back(std::move(line));
        }
        if (lines.empty() && shared.empty()) return {words_.rich("takeover.visit.count")};
        lines.insert(lines.begin(), shared.begin(), shared.end());
        return lines;
    }

    /// What lives in wood is followed by holes, powder, a probe and moisture.
    [[nodiscard]] bool in_wood(const job::Station& station) const {
        const job::Mix* mix = station.mix ? job_.mix(**station.mix) : nullptr;
        const reference::Pest* pest =
            mix == nullptr ? nullptr : reference::find_pest(*mix->against);
        return station.sprayed() && pest != nullptr && pest->lives_in_wood;
    }

    [[nodiscard]] Table empty_table() const {
        Table table;
        table.to_write = true;
        table.columns = {{words_.rich("visits.column.station"), Align::left, 31},
                         {words_.rich("visits.column.seen"), Align::left, 8},
                         {words_.rich("visits.column.dead"), Align::left, 8},
                         {words_.rich("visits.column.level"), Align::left, 22},
                         {words_.rich("visits.column.state"), Align::left, 40},
                         {words_.rich("visits.column.did"), Align::left, 40},
                         {words_.rich("visits.column.note"), Align::left, 9}};
        return table;
    }

    /// A row for each container; what is counted is counted once a station.
    void add_rows(Table& table, std::size_t index) const {
        const job::Station& station = job_.stations.at(index);
        const StyledText place = regular(words_.capital(station.where(words_.tag())));
        const Cell none{regular("–"), {}};
        if (in_wood(station)) {
            table.rows.push_back({with_place(*station.id, place),
                                  {{}, words_.rich("visits.wood.holes")},
                                  none,
                                  none,
                                  signs_of_beetles(),
                                  {{}, words_.rich("visits.wood.moisture")},
                                  {}});
            return;
        }
        if (!holds_bait(station)) {
            table.rows.push_back({with_place(*station.id, place), {}, {}, none, none, none, {}});
            return;
        }
        bool first = true;
        for (const std::string& id : plan_.stations.at(index).container_ids) {
            table.rows.push_back({with_place(id, first ? place : StyledText{}),
                                  first ? Cell{} : none,
                                  first ? Cell{} : none,
                                  choices(levels_),
                                  choices(is_powder(station) ? powder_states_ : states_),
                                  choices(dids_),
                                  {}});
            first = false;
        }
    }

    static Cell with_place(const std::string& id, StyledText place) {
        Cell cell{bold(id), std::move(place)};
        cell.note_beside = true;
        return cell;
    }
    static Cell choices(std::vector<StyledText> words) {
        Cell cell;
        cell.choices = std::move(words);
        return cell;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const Catalog& words_;
    std::vector<StyledText> levels_, states_, powder_states_, dids_;
};

}  // namespace

Sheet visit_sheets(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    return VisitSheets(job, plan, words).make();
}

}  // namespace gallipot::document
