#include "papers/document/household_pictures.hpp"

#include <algorithm>
#include <functional>
#include <memory>
#include <string>

#include "domain/plan/rooms.hpp"
#include "domain/plan/walk.hpp"
#include "papers/document/household_facts.hpp"
#include "papers/document/household_where.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/label_languages.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

class HouseholdPictures {
  public:
    HouseholdPictures(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const std::vector<const Catalog*>& languages)
        : job_(job),
          plan_(plan),
          who_(who),
          languages_(languages),
          words_(*languages.front()),
          house_(household_facts(job, plan)) {}

    Sheet make() const {
        Sheet sheet;
        sheet.bookmark = words_("paper.pictures");
        sheet.title = regular(job_.title->in(words_.tag()));
        auto& blocks = sheet.blocks;
        blocks.emplace_back(Banner{in_all(house_.poison ? "label.poison" : "label.not_food"), {}});
        blocks.emplace_back(signs());
        sheet.front = blocks.size();
        for (Block& block : where()) blocks.emplace_back(std::move(block));
        if (const auto& contact = job_.help.contact)
            blocks.emplace_back(Paragraph{bold(
                headed(words_, contact->name->in(words_.tag()), text::unbroken(*contact->phone)))});
        sheet.footer_left = words_.rich("sheet.footer");
        sheet.footer_right = words_.rich("sheet.made", {{"made", *job_.prepared}});
        sheet.sizes = {14, 13, 12, 11, 10, 9.5};
        sheet.most_pages = 1;
        return sheet;
    }

  private:
    /// What each language says, each wording once and marked as being in that language.
    [[nodiscard]] std::vector<StyledText> each(
        const std::function<std::string(const Catalog&)>& say) const {
        std::vector<std::string> said;
        std::vector<StyledText> all;
        for (const Catalog* words : languages_) {
            const std::string text = say(*words);
            if (text.empty() || std::ranges::find(said, text) != said.end()) continue;
            all.push_back(in_language(regular(text), words == &words_ ? "" : words->tag()));
            said.push_back(text);
        }
        return all;
    }
    /// The same one after another.
    [[nodiscard]] StyledText joined(const std::function<std::string(const Catalog&)>& say) const {
        StyledText all;
        for (const StyledText& one : each(say)) {
            if (!all.empty()) all.push_back({" · ", false});
            all.insert(all.end(), one.begin(), one.end());
        }
        return all;
    }
    [[nodiscard]] StyledText in_all(const std::string& key) const {
        return joined([&](const Catalog& words) { return text::unbroken(words(key)); });
    }
    /// A line for each language.
    [[nodiscard]] std::vector<StyledText> lines(const std::string& key) const {
        return each([&](const Catalog& words) { return words(key); });
    }

    [[nodiscard]] Signs signs() const {
        Signs signs;
        signs.large = true;
        const auto add = [&](Sign sign, const std::string& name) {
            signs.entries.push_back(
                {sign, {}, words_("alt.sign." + name), {}, lines("sheet.sign." + name)});
        };
        add(Sign::not_food, "not_food");
        add(Sign::no_touching, "no_touching");
        if (house_.bait()) add(Sign::no_spray, "no_spray");
        const auto call = [&](const std::string& number, const char* key) {
            if (!number.empty())
                signs.entries.push_back({Sign::call,
                                         {},
                                         words_("alt.sign.call"),
                                         regular(text::unbroken(number)),
                                         lines(key)});
        };
        call(who_.phone.empty() ? who_.emergency : who_.phone, "sheet.pictures.swallowed");
        if (!who_.phone.empty()) call(who_.emergency, "sheet.pictures.emergency");
        return signs;
    }

    /// "Kitchen · Küche: K1-1, K1-2, K2", a line a room.
    [[nodiscard]] Checklist rooms(const std::vector<const job::Station*>& stations) const {
        struct Line {
            StyledText room;
            std::string ids;
        };
        std::vector<Line> all;
        const bool several = plan::floors(job_).size() > 1;
        for (const job::Station* station : stations) {
            const StyledText room = joined([&](const Catalog& words) {
                std::string name = plan::whereabouts(job_, *station, words.tag()).room;
                const std::string floor = plan::floor_of(job_, *station);
                if (several && !floor.empty())
                    name = document::joined(words, Join::comma,
                                            {plan::floor_in(job_, floor, words.tag()), name});
                return name;
            });
            const std::string ids = numbers_of(*plan_.station(*station->id), words_);
            if (!all.empty() && all.back().room == room)
                all.back().ids += mark(words_, Join::comma) + ids;
            else
                all.push_back({room, ids});
        }
        std::vector<StyledText> lines;
        for (const Line& line : all) {
            lines.push_back(line.room);
            lines.back().push_back({headed(words_, ""), false});
            add_sentence(lines.back(), bold(line.ids));
        }
        return bullets(std::move(lines));
    }

    /// The rooms, and a small plan of each floor beside them or, of two, below; the household sheet
    /// has those of more.
    [[nodiscard]] std::vector<Block> where() const {
        std::vector<const job::Station*> stations;
        for (const job::Station* station : plan::by_room(job_))
            if (station->mix) stations.push_back(station);
        std::vector<FloorDrawing> drawings;
        for (const std::string& floor : plan::floors(job_))
            if (auto drawing = small_plan(job_, floor, stations, words_))
                drawings.push_back(std::move(*drawing));
        for (FloorDrawing& drawing : drawings) drawing.highest = 38;
        std::vector<Block> blocks{Heading{in_all("sheet.where.heading")}};
        const auto group = [](Block block) {
            auto made = std::make_shared<Group>();
            made->blocks.push_back(std::move(block));
            return made;
        };
        if (drawings.size() == 1) {
            blocks.emplace_back(
                Beside{group(rooms(stations)), group(std::move(drawings.front())), 0.38});
            return blocks;
        }
        blocks.emplace_back(rooms(stations));
        if (drawings.size() == 2)
            blocks.emplace_back(
                Beside{group(std::move(drawings[0])), group(std::move(drawings[1])), 0.5});
        return blocks;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const std::vector<const Catalog*>& languages_;
    const Catalog& words_;
    HouseholdFacts house_;
};

}  // namespace

Sheet household_pictures(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                         const std::vector<const Catalog*>& languages) {
    return HouseholdPictures(job, plan, who, languages).make();
}

}  // namespace gallipot::document
