#include "papers/document/household_sheet.hpp"

#include <algorithm>
#include <iterator>
#include <memory>
#include <optional>
#include <stdexcept>

#include "domain/plan/rooms.hpp"
#include "domain/reference/pests.hpp"
#include "domain/safety/first_aid.hpp"
#include "papers/document/full_statements.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// What the house has, taken together.
struct House {
    std::vector<const plan::Mix*> mixes;  ///< those that are set out or sprayed, in the job's order
    bool liquid = false, dry = false, paste = false, sprayed = false;
    std::vector<std::string> bait_against, spray_against;  ///< as the job writes them, each once
    bool poison = false;
    bool peanut = false;
    bool ants = false;
    std::optional<job::Date> bait_until;  ///< the last replace-by; none if one bait has none
    std::optional<job::Date> no_sprays_until;

    [[nodiscard]] bool bait() const { return liquid || dry || paste; }
};

void add_once(std::vector<std::string>& list, const std::string& item) {
    if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

template <class T>
void keep_later(std::optional<T>& kept, const std::optional<T>& other) {
    if (other && (!kept || *other > *kept)) kept = other;
}

bool means_ants(const std::string& against) {
    const auto* pest = reference::find_pest(against);
    return pest != nullptr && pest->name.ends_with("ants");
}

House look_round(const job::Job& job, const plan::Plan& plan) {
    House house;
    bool endless = false;
    for (const job::Station& station : job.stations) {
        if (!station.mix) continue;
        const job::Mix* asked = job.mix(station.mix->value);
        const plan::Mix* mix = plan.mix(station.mix->value);
        const plan::Station* planned = plan.station(station.id.value);
        if (asked == nullptr || mix == nullptr || planned == nullptr) {
            throw std::logic_error("the plan is not this job's");
        }
        if (std::find(house.mixes.begin(), house.mixes.end(), mix) == house.mixes.end()) {
            house.mixes.push_back(mix);
        }
        if (station.sprayed()) {
            house.sprayed = true;
            add_once(house.spray_against, asked->against.value);
        } else {
            const job::Form form = asked->form.value;
            house.liquid |= form == job::Form::liquid || form == job::Form::spray;
            house.dry |= form == job::Form::dry;
            house.paste |= form == job::Form::paste;
            house.ants |= means_ants(asked->against.value);
            add_once(house.bait_against, asked->against.value);
            keep_later(house.bait_until, planned->replace_by);
            endless |= !planned->replace_by;
        }
        house.poison |= mix->hazard.hazardous();
        house.peanut |= holds_peanut(job, *mix);
        keep_later(house.no_sprays_until, planned->no_sprays_until);
    }
    if (endless) house.bait_until.reset();
    return house;
}

class HouseholdSheet {
  public:
    HouseholdSheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                   const Catalog& words)
        : job_(job),
          plan_(plan),
          who_(who),
          words_(words),
          house_(look_round(job, plan)),
          aid_(safety::first_aid(safety::advice_for(job.help.region.value))) {}

    Sheet make() {
        Sheet sheet;
        sheet.bookmark = words_("sheet.bookmark");
        sheet.kicker = words_.rich("sheet.kicker", {{"job", job_.title->in(words_.tag())}});
        sheet.title = title();
        if (auto banner = not_asked(job_, words_)) add(std::move(*banner));
        add(Banner{words_.rich(house_.poison ? "sheet.banner.poison" : "sheet.banner.not_food"),
                   call(who_, words_)});
        add(signs());
        if (house_.peanut) add(Paragraph{words_.rich("allergy.sheet"), Voice::large});
        // What saves a life stands on the front: it is what shows where the sheet hangs.
        heading("look");
        add(Paragraph{look()});
        heading("swallowed");
        add(swallowed());
        keep_together(2);
        heading("other");
        add(other());
        keep_together(2);
        heading("please");
        add(please());
        add_wood_warnings();
        heading("where");
        add(where());
        heading("ask");
        add(ask());
        if (!who_.phone.empty() && !who_.vouched) add(to_be_checked());
        add(read_by());
        if (auto all = full_statements(job_, house_.mixes, words_); !all.empty()) {
            heading("statements");
            for (Paragraph& paragraph : all) add(std::move(paragraph));
        }
        sheet.blocks = std::move(blocks_);
        sheet.footer_left = words_.rich("sheet.footer");
        sheet.footer_right = words_.rich("sheet.made", {{"made", job_.prepared.value}});
        return sheet;
    }

  private:
    template <class Content>
    void add(Content content) {
        blocks_.emplace_back(std::move(content));
    }
    void heading(const std::string& section) {
        add(Heading{words_.rich("sheet." + section + ".heading")});
    }

    /// A treatment does not mean that a colony of termites is gone.
    void add_wood_warnings() {
        auto pests = wood_pests(job_);
        std::erase_if(pests, [](const auto* pest) { return pest->name != "termites"; });
        add_warnings(pests, job_, words_, blocks_);
    }

    /// The last so many blocks, on one page if that is possible.
    void keep_together(std::ptrdiff_t count) {
        Group group;
        group.blocks.assign(std::make_move_iterator(blocks_.end() - count),
                            std::make_move_iterator(blocks_.end()));
        blocks_.erase(blocks_.end() - count, blocks_.end());
        blocks_.emplace_back(std::make_shared<const Group>(std::move(group)));
    }

    [[nodiscard]] std::string day(job::Date date) const {
        return near_day(date, job_.prepared.value, words_);
    }

    [[nodiscard]] std::string pests(const std::vector<std::string>& against,
                                    std::string (*name)(const job::Job&, const std::string&,
                                                        const Catalog&)) const {
        std::vector<std::string> names;
        names.reserve(against.size());
        for (const std::string& pest : against) names.push_back(name(job_, pest, words_));
        return words_.list(names);
    }

    [[nodiscard]] StyledText title() const {
        if (!house_.bait()) {
            return words_.rich("sheet.title.spray",
                               {{"pests", pests(house_.spray_against, pest_name)}});
        }
        const std::string bait = pests(house_.bait_against, pest_bait_name);
        if (!house_.bait_until) return words_.rich("sheet.title.bait", {{"bait", bait}});
        return words_.rich("sheet.title.bait_until",
                           {{"bait", bait}, {"day", day(*house_.bait_until)}});
    }

    [[nodiscard]] Signs signs() const {
        Signs signs;
        signs.entries = {{Sign::not_food, words_.rich("sheet.sign.not_food")},
                         {Sign::no_touching, words_.rich("sheet.sign.no_touching")}};
        if (house_.bait())
            signs.entries.push_back({Sign::no_spray, words_.rich("sheet.sign.no_spray")});
        if (StyledText number = call(who_, words_); !number.empty()) {
            StyledText text = words_.rich("sheet.sign.swallowed");
            add_sentence(text, std::move(number));
            signs.entries.push_back({Sign::call, std::move(text)});
        }
        return signs;
    }

    [[nodiscard]] StyledText look() const {
        StyledText text;
        const auto say = [&](bool wanted, const std::string& key) {
            if (wanted) add_sentence(text, words_.rich("sheet.look." + key));
        };
        say(house_.liquid, "liquid");
        say(house_.dry, "dry");
        say(house_.paste, "paste");
        say(house_.bait(), "label");
        say(house_.sprayed, "spray");
        say(house_.bait(), "why");
        return text;
    }

    [[nodiscard]] Cell contents_cell(const job::Station& station,
                                     const plan::Station& planned) const {
        if (!planned.per_container) return {};
        const plan::Contents& contents = *planned.per_container;
        const plan::Mix& mix = *plan_.mix(station.mix->value);
        const std::string list = document::contents(job_, mix, contents, words_);
        Cell cell;
        cell.text =
            station.sprayed()
                ? words_.rich("sheet.where.surface",
                              {{"area", words_.area(station.area->value, station.area_unit)},
                               {"contents", list}})
                : regular(list);
        if (contents.boron > units::Mass()) {
            cell.note = words_.rich("contents.equivalent",
                                    {{"acid", words_.mass(contents.boric_acid_equivalent)},
                                     {"boron", words_.mass(contents.boron)},
                                     {"mass", words_.mass(contents.mass)}});
        }
        return cell;
    }

    /// "K1", "K1-1, K1-2", "K1-1 to K1-4".
    [[nodiscard]] std::string numbers_of(const plan::Station& planned) const {
        const auto& ids = planned.container_ids;
        if (ids.empty()) return planned.id;
        if (ids.size() == 1) return ids.front();
        if (ids.size() == 2) return text::unbroken(ids[0] + ", " + ids[1]);
        return words_("sheet.where.numbers", {{"first", ids.front()}, {"last", ids.back()}});
    }

    [[nodiscard]] Table where() const {
        Table table;
        table.columns = {{words_.rich("sheet.where.room"), Align::left, 0},
                         {words_.rich("sheet.where.place"), Align::left, 2.3},
                         {words_.rich("sheet.where.number"), Align::left, 0},
                         {words_.rich("sheet.where.contents"), Align::left, 5},
                         {words_.rich("sheet.where.until"), Align::right, 1}};
        std::string room_before;
        for (const job::Station* station : plan::by_room(job_)) {
            if (!station->mix) continue;
            const plan::Station& planned = *plan_.station(station->id.value);
            const auto [room, place] = plan::whereabouts(job_, *station, words_.tag());
            StyledText until = regular(planned.replace_by ? day(*planned.replace_by) : "–");
            if (station->sprayed()) until = words_.rich("sheet.where.stays");
            // The room again in plain type, so that a row on the next page still says where it is.
            table.rows.push_back({{{{room, room != room_before}}, {}},
                                  {regular(words_.capital(place)), {}},
                                  {regular(numbers_of(planned)), {}},
                                  contents_cell(*station, planned),
                                  {std::move(until), {}}});
            room_before = room;
        }
        return table;
    }

    [[nodiscard]] Columns please() const {
        Columns columns;
        Columns::Part do_this{words_.rich("sheet.please.do"), {}};
        Columns::Part do_not{words_.rich("sheet.please.do_not"), {}};
        const auto say = [&](Columns::Part& part, const std::string& key,
                             const text::Arguments& arguments = {}) {
            part.lines.push_back(words_.rich("sheet.please." + key, arguments));
        };
        say(do_this, "away");
        say(do_this, "tell");
        if (job_.help.contact) {
            say(do_this, "report", {{"contact", job_.help.contact->name->in(words_.tag())}});
        } else {
            say(do_this, "report_anyone");
        }
        say(do_this, "wash");
        if (house_.bait()) {
            if (house_.no_sprays_until) {
                say(do_not, "no_spray_until", {{"day", day(*house_.no_sprays_until)}});
            } else {
                say(do_not, "no_spray");
            }
            if (house_.ants) say(do_not, "no_wiping");
            say(do_not, "no_food");
            say(do_not, "no_opening");
        }
        if (house_.sprayed) say(do_not, "no_sanding");
        columns.parts = {std::move(do_this), std::move(do_not)};
        return columns;
    }

    /// What first aid texts may ask for.
    [[nodiscard]] text::Arguments numbers() const {
        return {{"name", who_.name.in(words_.tag())},
                {"phone", text::unbroken(who_.phone.empty() ? who_.emergency : who_.phone)},
                {"emergency", text::unbroken(who_.emergency)},
                {"vet", text::unbroken(who_.vet_phone)}};
    }

    /// What to name on the telephone: the borates, else everything but water.
    [[nodiscard]] std::string substances() const {
        std::vector<std::string> borates;
        std::vector<std::string> others;
        for (const plan::Mix* mix : house_.mixes) {
            for (const plan::Ingredient& ingredient : mix->ingredients) {
                if (ingredient.substance == "water") continue;
                add_once(ingredient.borate ? borates : others,
                         ingredient_name(job_, ingredient, words_));
            }
            for (const std::string& name : mix->hazard.unknown) {
                add_once(borates, ingredient_name(job_, *mix, name, words_));
            }
        }
        return words_.either(borates.empty() ? others : borates);
    }

    [[nodiscard]] Checklist swallowed() const {
        Checklist steps;
        steps.numbered = true;
        steps.boxes = false;
        if (!who_.emergency.empty()) {
            steps.items.push_back(words_.rich(aid_.unconscious, numbers()));
        }
        for (const std::string& key : aid_.swallowed) {
            steps.items.push_back(words_.rich(key, numbers()));
        }
        steps.items.push_back(words_.rich(aid_.signs, numbers()));
        StyledText tell = words_.rich("sheet.swallowed.say", {{"substances", substances()}});
        add_sentence(tell, words_.rich(aid_.tell, numbers()));
        steps.items.push_back(std::move(tell));
        return steps;
    }

    [[nodiscard]] Columns other() const {
        StyledText eyes;
        for (const std::string& key : aid_.eyes) add_sentence(eyes, words_.rich(key, numbers()));
        const std::string& pets = who_.vet_phone.empty() ? aid_.pets : aid_.pets_line;
        return {{{words_.rich("sheet.other.eyes"), {std::move(eyes)}},
                 {words_.rich("sheet.other.skin"), {words_.rich(aid_.skin, numbers())}},
                 {words_.rich("sheet.other.breathed"), {words_.rich(aid_.breathed, numbers())}},
                 {words_.rich("sheet.other.pet"), {words_.rich(pets, numbers())}}}};
    }

    /// Whom to call, side by side.
    [[nodiscard]] Columns ask() const {
        Columns numbers;
        const auto number = [&](const std::string& key, const text::Arguments& arguments) {
            numbers.parts.push_back({{}, {words_.rich("sheet.ask." + key, arguments)}});
        };
        if (const auto& contact = job_.help.contact)
            number("contact", {{"name", contact->name->in(words_.tag())},
                               {"phone", text::unbroken(*contact->phone)}});
        if (!who_.phone.empty())
            number(who_.hours.empty() ? "centre" : "centre_hours",
                   {{"name", who_.name.in(words_.tag())},
                    {"phone", text::unbroken(who_.phone)},
                    {"hours", text::unbroken(who_.hours)}});
        if (!who_.vet_phone.empty()) {
            const std::string name = who_.vet_name.in(words_.tag());
            number(name.empty() ? "vet_phone" : "vet",
                   {{"name", name}, {"phone", text::unbroken(who_.vet_phone)}});
        }
        return numbers;
    }

    [[nodiscard]] Paragraph to_be_checked() const {
        return {words_.rich("sheet.ask.check",
                            {{"phone", text::unbroken(who_.phone)}, {"source", who_.source}}),
                Voice::small};
    }

    [[nodiscard]] FillIn read_by() const {
        return {{{words_.rich("sheet.read.name"), Align::left, 3},
                 {words_.rich("sheet.read.date"), Align::left, 1},
                 {words_.rich("sheet.read.name_again"), Align::left, 3},
                 {words_.rich("sheet.read.date"), Align::left, 1}},
                3};
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const Catalog& words_;
    House house_;
    safety::FirstAid aid_;
    std::vector<Block> blocks_;
};

}  // namespace

Sheet household_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const Catalog& words) {
    return HouseholdSheet(job, plan, who, words).make();
}

}  // namespace gallipot::document
