#include <algorithm>
#include <array>

#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/building_words.hpp"
#include "papers/document/floor_drawing.hpp"
#include "papers/document/report_tables.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

Mark mark_of(const analysis::StationReport& station) {
    if (station.control) return Mark::cross;
    switch (going(station.verdict)) {
        case Going::badly:
            return Mark::triangle;
        case Going::well:
            return Mark::ring;
        case Going::partly:
        case Going::nobody_knows:
        case Going::not_begun:
            break;
    }
    return Mark::disc;
}

}  // namespace

void add_report_floors(const PlotSource& source, std::vector<Block>& blocks) {
    const auto& [job, sites, histories, report, words] = source;
    std::vector<std::shared_ptr<Group>> drawn;
    std::vector<Mark> marks;
    const auto floors = plan::floors(job);
    for (const std::string& floor : floors) {
        FloorDrawing drawing = floor_drawing(job, floor, words);
        drawing.walk.clear();
        std::erase_if(drawing.spots, [&](FloorDrawing::Spot& spot) {
            const auto station =
                std::ranges::find(report.stations, spot.name, &analysis::StationReport::id);
            if (station == report.stations.end() || station->retired) return true;
            spot.mark = mark_of(*station);
            marks.push_back(spot.mark);
            return false;
        });
        if (drawing.spots.empty() || drawing.rooms.empty()) continue;
        constexpr double highest = 58;  // mm, so that it leaves room for words on its page
        drawing.highest = highest;
        drawing.states_scale = false;
        auto group = std::make_shared<Group>();
        if (floors.size() > 1)
            group->blocks.emplace_back(
                Paragraph{bold(plan::floor_in(job, floor, words.tag())), Voice::small});
        group->blocks.emplace_back(std::move(drawing));
        drawn.push_back(std::move(group));
    }
    if (drawn.empty()) return;
    PlotKey key;
    for (const auto& [mark, text] :
         std::array<std::pair<Mark, const char*>, 4>{{{Mark::triangle, "report.floor.bad"},
                                                      {Mark::disc, "report.floor.open"},
                                                      {Mark::ring, "report.floor.good"},
                                                      {Mark::cross, "report.floor.control"}}})
        if (std::ranges::find(marks, mark) != marks.end())
            key.entries.push_back({mark, words.rich(text)});
    auto first = std::make_shared<Group>();
    first->blocks.emplace_back(std::move(key));
    for (std::size_t i = 0; i < drawn.size(); i += 2) {
        const bool alone = drawn.size() == 1;
        const auto next = i + 1 < drawn.size() ? drawn[i + 1] : std::make_shared<Group>();
        Block row = alone ? Block(std::shared_ptr<const Group>(drawn[i]))
                          : Block(Beside{drawn[i], next, 0.5});
        if (i > 0) {
            blocks.push_back(std::move(row));
            continue;
        }
        first->blocks.push_back(std::move(row));
        blocks.emplace_back(std::shared_ptr<const Group>(first));
    }
}

}  // namespace gallipot::document
