#include "papers/document/visit_sheets.hpp"

#include <algorithm>

#include "domain/plan/due.hpp"
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

    Sheet make() const {
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
        for (const plan::DueDay& day : plan::due_days(plan_)) {
            Group group;
            group.blocks.emplace_back(Heading{
                words_.rich("visits.day", {{"day", words_.capital(words_.weekday(day.day))},
                                           {"n", static_cast<std::int64_t>(day.visits.size())}})});
            group.blocks.emplace_back(table(day));
            group.blocks.emplace_back(FillIn{{{words_.rich("visits.by"), Align::left, 3},
                                              {words_.rich("visits.time"), Align::left, 2}},
                                             1});
            blocks.emplace_back(std::make_shared<const Group>(std::move(group)));
        }
        sheet.footer_left = words_.rich("report.footer");
        sheet.footer_right = words_.rich("card.made", {{"made", *job_.prepared}});
        return sheet;
    }

  private:
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
        group.blocks.emplace_back(FillIn{{{words_.rich("visits.by"), Align::left, 3},
                                          {words_.rich("visits.time"), Align::left, 2}},
                                         1});
        return group;
    }

    /// What lives in wood is followed by holes, powder, a probe and moisture.
    [[nodiscard]] bool in_wood(const job::Station& station) const {
        const job::Mix* mix = station.mix ? job_.mix(**station.mix) : nullptr;
        const reference::Pest* pest =
            mix == nullptr ? nullptr : reference::find_pest(*mix->against);
        return station.sprayed() && pest != nullptr && pest->lives_in_wood;
    }

    [[nodiscard]] Table table(const plan::DueDay& day) const {
        Table table;
        table.to_write = true;
        table.columns = {{words_.rich("visits.column.station"), Align::left, 36},
                         {words_.rich("visits.column.seen"), Align::left, 12},
                         {words_.rich("visits.column.dead"), Align::left, 12},
                         {words_.rich("visits.column.level"), Align::left, 14},
                         {words_.rich("visits.column.state"), Align::left, 33},
                         {words_.rich("visits.column.did"), Align::left, 30},
                         {words_.rich("visits.column.note"), Align::left, 21}};
        for (const plan::Due& due : day.visits) {
            const job::Station& station = job_.stations.at(due.station);
            StyledText id = bold(*station.id);
            add_sentence(id, regular(words_.time_of_day(due.time)));
            Cell where{std::move(id), regular(words_.capital(station.where(words_.tag())))};
            const bool holds = !station.control && !station.sprayed();
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

Sheet visit_sheets(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    return VisitSheets(job, plan, words).make();
}

}  // namespace gallipot::document
