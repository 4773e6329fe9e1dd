#include "papers/document/visit_sheets.hpp"

#include <algorithm>
#include <cstdint>
#include <span>

#include "domain/plan/rounds.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "tracking/visit/visit.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// All words of a field, to circle one.
StyledText to_circle(const std::vector<std::string>& keys, const Catalog& words) {
    std::string all;
    for (const std::string& key : keys) all += (all.empty() ? "" : ", ") + words(key);
    return regular(all);
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
        states_ = to_circle(state_keys(false), words);
        powder_states_ = to_circle(state_keys(true), words);
        dids_ = to_circle(dids, words);
    }

    std::vector<Sheet> make() const {
        std::vector<Sheet> sheets{instructions()};
        const std::vector<plan::Round> rounds = plan::rounds(plan_);
        const std::span all(rounds);
        for (std::size_t first = 0; first < all.size();) {
            const std::size_t count = on_a_sheet(all.subspan(first));
            sheets.push_back(sheet_of(all.subspan(first, count), first + 1, all.size()));
            first += count;
        }
        return sheets;
    }

  private:
    /// How to fill the others in, and the first count.
    [[nodiscard]] Sheet instructions() const {
        Sheet sheet;
        sheet.bookmark = words_("visits.bookmark");
        sheet.kicker = words_.rich("visits.kicker", {{"job", job_.title->in(words_.tag())}});
        sheet.title = words_.rich("visits.title");
        auto& blocks = sheet.blocks;
        add_warnings(wood_pests(job_), job_, words_, blocks);
        Checklist how;
        how.boxes = false;
        for (const char* key :
             {"visits.how.level", "visits.how.circle", "takeover.visit.control", "visits.how.log"})
            how.items.push_back(words_.rich(key));
        blocks.emplace_back(Heading{words_.rich("visits.how.heading")});
        blocks.emplace_back(std::move(how));
        blocks.emplace_back(Heading{words_.rich("visits.how.count")});
        blocks.emplace_back(bullets(how_to_count()));
        blocks.emplace_back(std::make_shared<const Group>(baseline()));
        add_footer(sheet);
        return sheet;
    }

    /// How many of these rounds, from the first on, share a sheet: small ones do as long as they
    /// are about a page together, a large one has its own.
    static std::size_t on_a_sheet(std::span<const plan::Round> rounds) {
        constexpr std::size_t rows_on_a_page = 16;
        constexpr std::size_t heading_and_signature = 2;  // in rows
        std::size_t count = 0;
        for (std::size_t rows = 0; count < rounds.size(); ++count) {
            rows += rounds[count].stops.size() + heading_and_signature;
            if (count > 0 && rows > rows_on_a_page) break;
        }
        return count;
    }

    /// What is taken along on these rounds, of which the first is number `first`.
    [[nodiscard]] Sheet sheet_of(std::span<const plan::Round> rounds, std::size_t first,
                                 std::size_t total) const {
        const text::Arguments numbers{{"from", static_cast<std::int64_t>(first)},
                                      {"to", static_cast<std::int64_t>(first + rounds.size() - 1)},
                                      {"total", static_cast<std::int64_t>(total)}};
        const char* title = rounds.size() == 1 ? "visits.round.one" : "visits.round.several";
        Sheet sheet;
        sheet.bookmark = words_(title, numbers);
        sheet.kicker = words_.rich("visits.kicker", {{"job", job_.title->in(words_.tag())}});
        sheet.title = words_.rich(title, numbers);
        const bool any_level = std::ranges::any_of(rounds, [&](const plan::Round& round) {
            return std::ranges::any_of(round.stops, [&](const plan::Due& due) {
                return holds_bait(job_.stations.at(due.station));
            });
        });
        if (any_level)
            sheet.blocks.emplace_back(Paragraph{words_.rich("visits.how.level"), Voice::small});
        for (const plan::Round& round : rounds) {
            Group group;
            group.blocks.emplace_back(Heading{heading(round)});
            group.blocks.emplace_back(table(round));
            group.blocks.emplace_back(by_and_time());
            sheet.blocks.emplace_back(std::make_shared<const Group>(std::move(group)));
        }
        add_footer(sheet);
        return sheet;
    }

    [[nodiscard]] StyledText heading(const plan::Round& round) const {
        const plan::Date day{std::chrono::floor<std::chrono::days>(round.time)};
        return words_.rich("visits.round.heading",
                           {{"day", words_.capital(words_.weekday(day))},
                            {"time", words_.time_of_day(round.time)},
                            {"n", static_cast<std::int64_t>(round.stops.size())}});
    }

    static bool holds_bait(const job::Station& station) {
        return !station.control && !station.sprayed();
    }

    [[nodiscard]] FillIn by_and_time() const {
        return {{{words_.rich("visits.by"), Align::left, 3},
                 {words_.rich("visits.time"), Align::left, 2}},
                1};
    }

    void add_footer(Sheet& sheet) const {
        sheet.footer_left = words_.rich("report.footer");
        sheet.footer_right = words_.rich("card.made", {{"made", *job_.prepared}});
    }

    [[nodiscard]] bool is_powder(const job::Station& station) const {
        const job::Mix* mix = station.mix ? job_.mix(**station.mix) : nullptr;
        return mix != nullptr && *mix->form == job::Form::dry;
    }

    /// How pests are counted, from the table of pests: what holds for all of them, then a line for
    /// each.
    [[nodiscard]] std::vector<StyledText> how_to_count() const {
        const auto pests = treated_pests(job_);
        const auto counting = [&](const reference::Pest* pest) {
            return advice_on(*pest, reference::Topic::count, job_, words_);
        };
        const auto holds_for_all = [&](const StyledText& sentence) {
            return pests.size() > 1 && std::ranges::all_of(pests, [&](const reference::Pest* pest) {
                       const auto all = counting(pest);
                       return std::ranges::find(all, sentence) != all.end();
                   });
        };
        std::vector<StyledText> shared, lines;
        for (const reference::Pest* pest : pests) {
            StyledText line;
            for (StyledText& sentence : counting(pest)) {
                if (holds_for_all(sentence)) {
                    if (std::ranges::find(shared, sentence) == shared.end())
                        shared.push_back(std::move(sentence));
                    continue;
                }
                if (line.empty()) line = bold(words_.capital(pest_name(*pest, words_)) + ":");
                add_sentence(line, std::move(sentence));
            }
            if (!line.empty()) lines.push_back(std::move(line));
        }
        if (lines.empty() && shared.empty()) return {words_.rich("takeover.visit.count")};
        lines.insert(lines.begin(), shared.begin(), shared.end());
        return lines;
    }

    /// The count that the report starts from, before anything is set down.
    [[nodiscard]] Group baseline() const {
        Table table;
        table.to_write = true;
        table.columns = {{words_.rich("visits.column.station"), Align::left, 36},
                         {words_.rich("visits.column.seen"), Align::left, 12},
                         {words_.rich("visits.column.minutes"), Align::left, 14},
                         {words_.rich("visits.column.note"), Align::left, 40}};
        for (const std::size_t i : plan_.walk) {
            const job::Station& station = job_.stations.at(i);
            table.rows.push_back(
                {{bold(*station.id), regular(words_.capital(station.where(words_.tag())))},
                 {},
                 {},
                 {}});
        }
        Group group;
        group.blocks.emplace_back(Heading{words_.rich("visits.baseline.heading")});
        group.blocks.emplace_back(Paragraph{words_.rich("visits.baseline.why")});
        group.blocks.emplace_back(std::move(table));
        group.blocks.emplace_back(by_and_time());
        return group;
    }

    /// What lives in wood is followed by holes, powder, a probe and moisture.
    [[nodiscard]] bool in_wood(const job::Station& station) const {
        const job::Mix* mix = station.mix ? job_.mix(**station.mix) : nullptr;
        const reference::Pest* pest =
            mix == nullptr ? nullptr : reference::find_pest(*mix->against);
        return station.sprayed() && pest != nullptr && pest->lives_in_wood;
    }

    [[nodiscard]] Table table(const plan::Round& round) const {
        Table table;
        table.to_write = true;
        table.columns = {{words_.rich("visits.column.station"), Align::left, 36},
                         {words_.rich("visits.column.seen"), Align::left, 12},
                         {words_.rich("visits.column.dead"), Align::left, 12},
                         {words_.rich("visits.column.level"), Align::left, 14},
                         {words_.rich("visits.column.state"), Align::left, 33},
                         {words_.rich("visits.column.did"), Align::left, 30},
                         {words_.rich("visits.column.note"), Align::left, 21}};
        for (const plan::Due& due : round.stops) {
            const job::Station& station = job_.stations.at(due.station);
            Cell where{bold(*station.id), regular(words_.capital(station.where(words_.tag())))};
            const bool holds = holds_bait(station);
            const Cell none{regular("–"), {}};
            if (in_wood(station)) {
                table.rows.push_back({std::move(where),
                                      {{}, words_.rich("visits.wood.holes")},
                                      none,
                                      none,
                                      {{}, words_.rich("visits.wood.powder")},
                                      {{}, words_.rich("visits.wood.moisture")},
                                      {}});
                continue;
            }
            table.rows.push_back(
                {std::move(where),
                 {},
                 {},
                 holds ? Cell{} : none,
                 holds ? Cell{{}, is_powder(station) ? powder_states_ : states_} : none,
                 holds ? Cell{{}, dids_} : none,
                 {}});
        }
        return table;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const Catalog& words_;
    StyledText states_, powder_states_, dids_;
};

}  // namespace

std::vector<Sheet> visit_sheets(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    return VisitSheets(job, plan, words).make();
}

}  // namespace gallipot::document
