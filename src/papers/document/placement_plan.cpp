#include "papers/document/placement_plan.hpp"

#include <algorithm>

#include "domain/job/keys.hpp"
#include "domain/plan/placements.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/bait_amounts.hpp"
#include "papers/document/floor_drawing.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

class PlacementPlan {
  public:
    PlacementPlan(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                  const Catalog& words)
        : job_(job), plan_(plan), who_(who), words_(words) {}

    Sheet make() {
        Sheet sheet;
        sheet.bookmark = words_("placement.bookmark");
        sheet.kicker = words_.rich("placement.kicker", {{"job", job_.title->in(words_.tag())}});
        sheet.title = words_.rich("placement.title");
        auto& blocks = sheet.blocks;
        blocks.emplace_back(Banner{words_.rich("placement.banner"), call(who_, words_)});
        const auto floors = plan::floors(job_);
        for (const std::string& floor : floors) {
            FloorDrawing drawing = floor_drawing(job_, floor, words_);
            if (drawing.rooms.empty() && drawing.spots.empty()) continue;
            PlotKey key = floor_key(drawing, words_);
            add_walk(drawing);
            Group group;
            group.blocks.emplace_back(
                Heading{floor.empty() ? words_.rich("placement.floor")
                                      : regular(plan::floor_in(job_, floor, words_.tag()))});
            group.blocks.emplace_back(std::move(drawing));
            group.blocks.emplace_back(std::move(key));
            blocks.emplace_back(std::make_shared<const Group>(std::move(group)));
        }
        blocks.emplace_back(Heading{words_.rich("placement.before.heading")});
        Checklist before;
        for (const char* key : {"take", "count"})
            before.items.push_back(words_.rich(std::string("placement.before.") + key));
        for (StyledText& sentence : counting_for_all(job_, words_))
            add_sentence(before.items.back(), std::move(sentence));
        for (const char* key : {"labels", "stand", "hide"})
            before.items.push_back(words_.rich(std::string("placement.before.") + key));
        blocks.emplace_back(std::move(before));
        for (const reference::Pest* pest : treated_pests(job_)) add_pest(blocks, *pest);
        for (const std::string& floor : floors) add_list(blocks, floor, floors.size() > 1);
        add_list(blocks, unknown_floor, true);
        sheet.footer_left = words_.rich("card.footer");
        sheet.footer_right = words_.rich("card.made", {{"made", *job_.prepared}});
        return sheet;
    }

  private:
    /// Stands for stations of which nobody knows the floor.
    inline static const std::string unknown_floor = "\n";

    /// The way from station to station, each with its number in the list.
    void add_walk(FloorDrawing& drawing) const {
        for (const auto& spot : drawing.spots)
            if (spot.mark == Mark::cross) drawing.walk.push_back(spot.at);
        for (std::size_t i = 0; i < plan_.walk.size(); ++i) {
            const std::string& id = *job_.stations[plan_.walk[i]].id;
            const auto spot = std::ranges::find(drawing.spots, id, &FloorDrawing::Spot::name);
            if (spot == drawing.spots.end()) continue;
            drawing.walk.push_back(spot->at);
            spot->name = words_("placement.spot",
                                {{"n", static_cast<std::int64_t>(i + 1)}, {"station", id}});
        }
    }

    /// What to do before, and where it goes, from the table of pests.
    void add_pest(std::vector<Block>& blocks, const reference::Pest& pest) {
        using reference::Topic;
        std::vector<StyledText> lines;
        const auto said = counting_for_all(job_, words_);
        const auto add = [&](Topic topic, bool bold) {
            for (StyledText& sentence : advice_on(pest, topic, job_, words_)) {
                if (std::ranges::find(said, sentence) != said.end()) continue;
                if (bold)
                    for (text::Run& run : sentence) run.bold = true;
                lines.push_back(std::move(sentence));
            }
        };
        add(Topic::warning, true);
        add(Topic::count, false);
        add(Topic::before, false);
        add(Topic::place, false);
        if (pest.every_room) {
            std::vector<std::string> rooms;
            for (const job::Room* room : plan::rooms_without(job_, pest))
                rooms.push_back(room->name->in(words_.tag()));
            if (!rooms.empty())
                lines.push_back(
                    words_.rich("placement.pest.rooms", {{"rooms", words_.list(rooms)}}));
        }
        add(Topic::professional, false);
        std::vector<Block> amounts = bait_amounts(job_, plan_, pest, words_);
        if (lines.empty() && amounts.empty()) return;
        Group group;
        group.blocks.emplace_back(
            Heading{words_.rich("placement.pest.heading", {{"pests", pest_name(pest, words_)}})});
        group.blocks.emplace_back(bullets(std::move(lines)));
        blocks.emplace_back(std::make_shared<const Group>(std::move(group)));
        for (Block& block : amounts) blocks.push_back(std::move(block));
    }

    void add_list(std::vector<Block>& blocks, const std::string& floor, bool several) {
        if (floor_of_.empty()) {
            const auto names = plan::floors(job_);
            for (const job::Station& station : job_.stations) {
                std::string on = plan::floor_of(job_, station);
                if (std::find(names.begin(), names.end(), on) == names.end()) on = unknown_floor;
                floor_of_.push_back(std::move(on));
            }
        }
        Table table;
        table.columns = {{{}, Align::right, 0},
                         {words_.rich("placement.list.station"), Align::left, 0},
                         {what_to_do(), Align::left, 8},
                         {words_.rich("placement.list.first"), Align::left, 0.5, 13},
                         {words_.rich("placement.list.minutes"), Align::left, 0.5, 13}};
        for (std::size_t n = 0; n < plan_.walk.size(); ++n)
            if (const std::size_t i = plan_.walk[n]; floor_of_[i] == floor)
                table.rows.push_back(row(n + 1, job_.stations[i], plan_.stations[i]));
        if (table.rows.empty()) return;
        const bool named = several && floor != unknown_floor && !floor.empty();
        blocks.emplace_back(
            Heading{named ? words_.rich("placement.list.heading_on",
                                        {{"floor", plan::floor_in(job_, floor, words_.tag())}})
                          : words_.rich("placement.list.heading"),
                    {words_.rich("placement.done.by"), words_.rich("placement.done.time")}});
        blocks.emplace_back(std::move(table));
    }

    [[nodiscard]] std::vector<Cell> row(std::size_t number, const job::Station& station,
                                        const plan::Station& planned) const {
        Cell box{bold(std::to_string(number)), {}, true};
        StyledText place = bold(headed(words_, words_.capital(station.where(words_.tag()))));
        add_sentence(place, what(station, planned));
        end_sentence(place, words_);
        add_sentence(place, checks(station));
        return {std::move(box), {bold(*station.id), {}}, {std::move(place), {}}, {}, {}};
    }

    /// Heads one wide column: in three, the sentences would make high rows.
    [[nodiscard]] StyledText what_to_do() const {
        StyledText all = words_.rich("placement.list.place");
        for (const char* key : {"placement.list.set", "placement.list.check"}) {
            all.push_back({" · ", false});
            for (text::Run& run : words_.rich(key)) all.push_back(std::move(run));
        }
        return all;
    }

    /// "Sweet liquid bait, 2 containers of 60 mL"; "nothing".
    [[nodiscard]] StyledText what(const job::Station& station, const plan::Station& planned) const {
        if (station.control) return words_.rich("placement.set.control");
        const job::Mix* mix = job_.mix(**station.mix);
        StyledText amount;
        if (station.sprayed()) {
            amount = words_.rich("placement.set.spray",
                                 {{"area", words_.area(**station.area, station.area_unit)},
                                  {"coats", std::int64_t{station.coats}}});
        } else {
            const job::Container* container = job_.container(**station.container);
            amount = words_.rich("card.fills",
                                 {{"n", std::int64_t{planned.containers}},
                                  {"fill", words_.volume(*container->fill, container->fill_unit)}});
        }
        StyledText text = regular(mix->title->in(words_.tag()));
        add_joined(text, words_, Join::comma, std::move(amount));
        return text;
    }

    /// What `near`, the container's openings and the cold ask to be looked at, one sentence each.
    [[nodiscard]] StyledText checks(const job::Station& station) const {
        StyledText all;
        const auto say = [&](const std::string& key) {
            add_sentence(all, words_.rich("placement.check." + key));
        };
        if (station.control) {
            say("control");
            return all;
        }
        if (station.sprayed()) {
            say("bare");
            for (const auto& near : station.near) {
                if (*near == job::Near::children || *near == job::Near::pets) say("keep_out");
                if (*near == job::Near::food) say("spray_food");
                if (*near == job::Near::rain) say("spray_rain");
                if (*near == job::Near::heat) say("spray_heat");
                if (*near == job::Near::plants) say("spray_plants");
                if (*near == job::Near::water) say("spray_water");
                if (*near == job::Near::sockets) say("spray_sockets");
            }
            return all;
        }
        const job::Container* container = job_.container(**station.container);
        const auto& openings = container->openings;
        for (const auto& near : station.near) say(job::word_of("stations.*.near.*", *near));
        const bool rain = std::any_of(station.near.begin(), station.near.end(),
                                      [](const auto& near) { return *near == job::Near::rain; });
        if (openings && openings->closed) say("closed");
        if (rain) say(openings && openings->side ? "holes" : "roof");
        if (!rain && openings && !openings->side && !openings->closed) say("open_top");
        const plan::Mix* mix = plan_.mix(**station.mix);
        if (mix != nullptr && mix->crystals_below && station.coldest &&
            **station.coldest < *mix->crystals_below)
            add_sentence(all,
                         words_.rich("placement.check.crystals",
                                     {{"temperature", words_.temperature(*mix->crystals_below)}}));
        if (all.empty()) say("any");
        return all;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const Catalog& words_;
    std::vector<std::string> floor_of_;  // by station
};

}  // namespace

Sheet placement_plan(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                     const Catalog& words) {
    return PlacementPlan(job, plan, who, words).make();
}

}  // namespace gallipot::document
