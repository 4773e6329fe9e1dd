#include "papers/document/household_sheet.hpp"

#include <algorithm>
#include <iterator>
#include <memory>

#include "domain/reference/pests.hpp"
#include "domain/safety/first_aid.hpp"
#include "papers/document/full_statements.hpp"
#include "papers/document/household_facts.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/runs.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

void add_once(std::vector<std::string>& list, const std::string& item) {
    if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

class HouseholdSheet {
  public:
    HouseholdSheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                   const Catalog& words, const Home* home)
        : job_(job),
          plan_(plan),
          who_(who),
          words_(words),
          home_(home),
          house_(household_facts(job, plan)),
          aid_(safety::first_aid(safety::advice_for(job.help.region.value))) {}

    Sheet make() {
        Sheet sheet;
        sheet.bookmark = home_ == nullptr ? words_("sheet.bookmark") : home_name();
        sheet.kicker =
            home_ == nullptr
                ? words_.rich("sheet.kicker", {{"job", job_.title->in(words_.tag())}})
                : words_.rich("sheet.kicker_home",
                              {{"job", job_.title->in(words_.tag())}, {"home", home_name()}});
        note_translation(sheet.kicker, words_);
        sheet.title = title();
        // The front: what saves a life, and where it is. It is what shows where the sheet hangs.
        add(Banner{
            words_.rich(house_.poison ? "sheet.banner.poison" : "sheet.banner.not_food"),
            call_words(who_.phone.empty() ? "sheet.sign.swallowed" : "sheet.sign.swallowed_name")});
        add(signs());
        if (house_.peanut) add(Paragraph{words_.rich("allergy.sheet"), Voice::large});
        heading("swallowed");
        add(swallowed());
        add(other());
        keep_together(3);
        sheet.front = blocks_.size();
        for (Block& block : where_it_is(job_, plan_, home_, words_)) add(std::move(block));
        add(report());
        if (blocks_.size() - sheet.front <= few_blocks && job_.stations.size() <= few_stations)
            sheet.front = blocks_.size();
        heading("look");
        add(Paragraph{look()});
        if (auto banner = not_asked(job_, words_)) add(std::move(*banner));
        heading("please");
        add(please());
        add_wood_warnings();
        heading("contents");
        add(Paragraph{words_.rich(aid_.tell, numbers())});
        add(contents_by_number(job_, plan_, words_));
        heading("ask");
        add(ask());
        if (!who_.phone.empty() && who_.source != safety::of_the_job) add(to_be_checked());
        add(read_by());
        if (auto all = full_statements(job_, house_.mixes, words_); !all.empty()) {
            heading("statements");
            for (Paragraph& paragraph : all) add(std::move(paragraph));
        }
        sheet.blocks = std::move(blocks_);
        sheet.footer_left = words_.rich("sheet.footer");
        sheet.footer_right = words_.rich("sheet.made", {{"made", job_.prepared.value}});
        sheet.sizes = {12, 11.5, 11, 10.5, 10, 9.5};
        sheet.least_behind = 11;
        sheet.most_pages = 2;
        return sheet;
    }

  private:
    /// Where there are more, not all of them can stand on the front.
    static constexpr std::size_t few_stations = 12;
    static constexpr std::size_t few_blocks = 5;

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

    /// Nothing where there is no number.
    [[nodiscard]] StyledText call_words(const char* key) const {
        return call(who_, words_).empty() ? StyledText{} : words_.rich(key, numbers());
    }

    [[nodiscard]] Signs signs() const {
        Signs signs;
        signs.entries = {
            {Sign::not_food, words_.rich("sheet.sign.not_food"), words_("alt.sign.not_food")},
            {Sign::no_touching, words_.rich("sheet.sign.no_touching"),
             words_("alt.sign.no_touching")}};
        if (house_.bait())
            signs.entries.push_back(
                {Sign::no_spray, words_.rich("sheet.sign.no_spray"), words_("alt.sign.no_spray")});
        if (StyledText number = call_words("sheet.sign.swallowed"); !number.empty())
            signs.entries.push_back({Sign::call, std::move(number), words_("alt.sign.call")});
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
            // Two short things not to do, on one line.
            if (key.ends_with("do_not_wait"))
                add_sentence(steps.items.back(), words_.rich(key, numbers()));
            else
                steps.items.push_back(words_.rich(key, numbers()));
        }
        steps.items.push_back(words_.rich(aid_.signs, numbers()));
        steps.items.push_back(words_.rich("sheet.swallowed.say", {{"substances", substances()}}));
        return steps;
    }

    [[nodiscard]] Checklist other() const {
        std::vector<StyledText> lines;
        const auto say = [&](const std::string& what, const std::vector<std::string>& keys) {
            lines.push_back(bold(headed(words_, words_("sheet.other." + what))));
            for (const std::string& key : keys)
                add_sentence(lines.back(), words_.rich(key, numbers()));
        };
        say("eyes", aid_.eyes);
        say("skin", {aid_.skin});
        say("breathed", {aid_.breathed});
        say("pet", {who_.vet_phone.empty() ? aid_.pets : aid_.pets_line});
        return bullets(std::move(lines));
    }

    /// Whom to tell when something is wrong with a container.
    [[nodiscard]] Paragraph report() const {
        if (!job_.help.contact) return {words_.rich("sheet.please.report_anyone")};
        return {words_.rich("sheet.please.report",
                            {{"contact", job_.help.contact->name->in(words_.tag())},
                             {"phone", text::unbroken(*job_.help.contact->phone)}})};
    }

    [[nodiscard]] std::string home_name() const {
        return document::home_name(job_, *home_, words_);
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
    const Home* home_;
    HouseholdFacts house_;
    safety::FirstAid aid_;
    std::vector<Block> blocks_;
};

}  // namespace

Sheet household_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                      const Catalog& words, const Home* home, const std::string& link) {
    Sheet sheet = HouseholdSheet(job, plan, who, words, home).make();
    if (!link.empty())
        sheet.code = Code{link, {words.rich("sheet.code")}, words("alt.code", {{"link", link}})};
    return sheet;
}

}  // namespace gallipot::document
