#include "papers/document/household_where.hpp"

#include <algorithm>
#include <map>
#include <memory>
#include <tuple>
#include <utility>

#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/floor_drawing.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;
using Stations = std::vector<const job::Station*>;

/// One line a room: "Kitchen: behind the bins (K1-1, K1-2); under the sink (K2)".
Checklist rooms(const Stations& stations, const job::Job& job, const plan::Plan& plan,
                const Catalog& words) {
    std::vector<StyledText> lines;
    std::string room_before;
    for (const job::Station* station : stations) {
        const plan::Station& planned = *plan.station(*station->id);
        const auto [room, place] = plan::whereabouts(job, *station, words.tag());
        const std::string ids = numbers_of(planned, words);
        const char* key = station->sprayed() ? "sheet.where.sprayed"
                          : place.empty()    ? "sheet.where.number_alone"
                                             : "sheet.where.place";
        StyledText where = words.rich(key, {{"place", place}, {"numbers", ids}});
        if (lines.empty() || room != room_before) {
            lines.push_back(bold(headed(words, room)));
            add_sentence(lines.back(), std::move(where));
        } else {
            add_joined(lines.back(), words, Join::semicolon, std::move(where));
        }
        room_before = room;
    }
    return bullets(std::move(lines));
}

/// The stations of `of` on one floor, a small plan of it beside them.
Block on_floor(const Stations& of, const std::string& floor, const job::Job& job,
               const plan::Plan& plan, const Catalog& words) {
    Checklist list = rooms(of, job, plan, words);
    auto drawing = small_plan(job, floor, of, words);
    if (!drawing) return list;
    // Of many the names need the page's whole width.
    constexpr std::size_t most_beside = 14;
    auto left = std::make_shared<Group>(), right = std::make_shared<Group>();
    left->blocks.emplace_back(std::move(list));
    if (drawing->spots.size() > most_beside) {
        left->blocks.emplace_back(std::move(*drawing));
        return left;
    }
    right->blocks.emplace_back(std::move(*drawing));
    return Beside{std::move(left), std::move(right), 0.38};
}

bool is_of(const job::Job& job, const job::Station& station, const Home& home) {
    if (!home.unit.empty()) return station.unit && (*station.unit)->main() == home.unit;
    return !station.unit && plan::floor_of(job, station) == home.floor;
}

/// Floor by floor.
void add_by_floor(const Stations& stations, const job::Job& job, const plan::Plan& plan,
                  const Catalog& words, std::vector<Block>& blocks) {
    std::vector<std::string> floors = plan::floors(job);
    for (const job::Station* station : stations)
        if (const std::string on = plan::floor_of(job, *station);
            std::ranges::find(floors, on) == floors.end())
            floors.push_back(on);
    const bool several = floors.size() > 1;
    for (const std::string& floor : floors) {
        Stations here;
        std::ranges::copy_if(stations, std::back_inserter(here), [&](const job::Station* station) {
            return plan::floor_of(job, *station) == floor;
        });
        if (here.empty()) continue;
        if (!several || floor.empty()) {
            blocks.emplace_back(on_floor(here, floor, job, plan, words));
            continue;
        }
        auto named = std::make_shared<Group>();
        named->blocks.emplace_back(Paragraph{bold(plan::floor_in(job, floor, words.tag()))});
        named->blocks.emplace_back(on_floor(here, floor, job, plan, words));
        blocks.emplace_back(std::move(named));
    }
}

}  // namespace

std::string numbers_of(const plan::Station& planned, const Catalog& words) {
    const auto& ids = planned.container_ids;
    if (ids.empty()) return planned.id;
    if (ids.size() == 1) return ids.front();
    if (ids.size() == 2) return text::unbroken(joined(words, Join::comma, ids));
    return words("sheet.where.numbers", {{"first", ids.front()}, {"last", ids.back()}});
}

std::optional<FloorDrawing> small_plan(const job::Job& job, const std::string& floor,
                                       const std::vector<const job::Station*>& of,
                                       const Catalog& words) {
    FloorDrawing drawing = floor_drawing(job, floor, words);
    drawing.walk.clear();
    std::erase_if(drawing.spots, [&](const FloorDrawing::Spot& spot) {
        return std::ranges::none_of(
            of, [&](const job::Station* station) { return *station->id == spot.name; });
    });
    if (drawing.spots.empty() || drawing.rooms.empty()) return {};
    drawing.alternative = in_words(drawing, words);
    // The list beside it names the only one.
    if (drawing.rooms.size() == 1) drawing.rooms.front().name.clear();
    drawing.highest = 46;
    drawing.states_scale = false;
    return drawing;
}

std::vector<Home> homes(const job::Job& job) {
    std::vector<Home> all;
    const auto add = [&](const Home& home) {
        if (std::ranges::none_of(all, [&](const Home& other) {
                return std::tie(other.unit, other.floor) == std::tie(home.unit, home.floor);
            }))
            all.push_back(home);
    };
    for (const job::Station& station : job.stations) {
        if (!station.mix) continue;
        if (station.unit) {
            add({(*station.unit)->main(), {}});
        } else if (std::string floor = plan::floor_of(job, station); !floor.empty()) {
            add({{}, std::move(floor)});
        }
    }
    if (all.size() < 2) all.clear();
    return all;
}

std::string home_name(const job::Job& job, const Home& home, const Catalog& words) {
    if (home.unit.empty()) return plan::floor_in(job, home.floor, words.tag());
    for (const job::Station& station : job.stations)
        if (station.unit && (*station.unit)->main() == home.unit)
            return (*station.unit)->in(words.tag());
    return home.unit;
}

std::vector<Block> where_it_is(const job::Job& job, const plan::Plan& plan, const Home* home,
                               const Catalog& words) {
    Stations own, others;
    for (const job::Station* station : plan::by_room(job))
        if (station->mix)
            (home != nullptr && is_of(job, *station, *home) ? own : others).push_back(station);
    std::vector<Block> blocks;
    if (!own.empty()) {
        blocks.emplace_back(
            Heading{words.rich("sheet.where.own", {{"home", home_name(job, *home, words)}})});
        add_by_floor(own, job, plan, words, blocks);
        if (others.empty()) return blocks;
        blocks.emplace_back(Heading{words.rich("sheet.where.elsewhere")});
    } else {
        blocks.emplace_back(Heading{words.rich("sheet.where.heading")});
    }
    add_by_floor(others, job, plan, words, blocks);
    return blocks;
}

Table contents_by_number(const job::Job& job, const plan::Plan& plan, const Catalog& words) {
    Table table;
    table.columns = {{words.rich("sheet.where.number"), Align::left, 1},
                     {words.rich("sheet.where.contents"), Align::left, 8},
                     {words.rich("sheet.where.until"), Align::right, 1}};
    struct Row {
        std::vector<std::string> numbers;
        Cell contents, until;
    };
    std::vector<Row> rows;
    // What stands in a row; a long list of numbers goes on in another.
    constexpr std::size_t most_numbers = 24;
    std::map<std::pair<std::string, std::string>, std::size_t> row_of;
    for (const job::Station* station : plan::by_room(job)) {
        if (!station->mix) continue;
        const plan::Station& planned = *plan.station(*station->id);
        StyledText until =
            regular(planned.replace_by ? near_day(*planned.replace_by, *job.prepared, words) : "–");
        if (station->sprayed()) until = words.rich("sheet.where.stays");
        Cell cell{bold(headed(words, job.mix(**station->mix)->title->in(words.tag()))), {}};
        if (planned.per_container) {
            const plan::Contents& in_one = *planned.per_container;
            const std::string list = contents(job, *plan.mix(**station->mix), in_one, words);
            add_sentence(
                cell.text,
                station->sprayed()
                    ? words.rich("sheet.where.surface",
                                 {{"area", words.area(**station->area, station->area_unit)},
                                  {"contents", list}})
                    : regular(list));
            if (in_one.boron > units::Mass())
                cell.note = words.rich("contents.equivalent",
                                       {{"acid", words.mass(in_one.boric_acid_equivalent)},
                                        {"boron", words.mass(in_one.boron)},
                                        {"mass", words.mass(in_one.mass)}});
        }
        const std::pair key{text::plain(cell.text) + text::plain(cell.note), text::plain(until)};
        const auto found = row_of.find(key);
        if (found != row_of.end() && rows[found->second].numbers.size() < most_numbers) {
            rows[found->second].numbers.push_back(numbers_of(planned, words));
            continue;
        }
        row_of[key] = rows.size();
        rows.push_back({{numbers_of(planned, words)}, std::move(cell), {std::move(until), {}}});
    }
    for (Row& row : rows) {
        std::string numbers = joined(words, Join::comma, row.numbers);
        table.rows.push_back(
            {{bold(std::move(numbers)), {}}, std::move(row.contents), std::move(row.until)});
    }
    return table;
}

}  // namespace gallipot::document
