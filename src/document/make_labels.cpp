#include "document/make_labels.hpp"

#include <algorithm>
#include <set>
#include <stdexcept>

#include "document/label_code.hpp"
#include "document/label_languages.hpp"
#include "document/notices.hpp"
#include "document/words.hpp"
#include "safety/classify.hpp"
#include "safety/first_aid.hpp"
#include "safety/precautions.hpp"
#include "safety/rules.hpp"
#include "safety/type_sizes.hpp"

namespace gallipot::document {
namespace {

/// What a jar for a decanted ingredient is taken to hold, to choose the size of letters and
/// pictograms: the jobs do not say. Published sizes are the same up to half a litre.
constexpr units::Volume jar = units::mL(500);

Wording of(std::string line) {
    return {{{text::Run{std::move(line), false}}}};
}

void append(text::Runs& runs, const text::Runs& more) {
    if (!runs.empty() && !more.empty()) runs.push_back({" ", false});
    runs.insert(runs.end(), more.begin(), more.end());
}

/// Labels of a job in one language.
class Maker {
  public:
    Maker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
          const text::Catalog& words)
        : job_(job), plan_(plan), who_(who), words_(words) {}

    [[nodiscard]] std::vector<Label> all() const {
        std::vector<Label> labels;
        for (std::size_t i = 0; i < plan_.stations.size(); ++i)
            for (const auto& id : plan_.stations[i].container_ids)
                labels.push_back(container(job_.stations[i], plan_.stations[i], id));
        for (const auto& mix : plan_.mixes) {
            labels.push_back(store(mix, vessel_of(mix)));
            labels.push_back(store(mix, "left"));
        }
        std::set<std::string> done;
        for (const auto& mix : plan_.mixes)
            for (const auto& ingredient : mix.ingredients)
                if (ingredient.borate && done.insert(ingredient.name).second)
                    labels.push_back(decanted(mix, ingredient));
        return labels;
    }

  private:
    [[nodiscard]] Wording say(std::string_view key, const text::Arguments& arguments = {}) const {
        return {{words_.rich(key, arguments)}};
    }

    static void add(Label& label, Part part, bool required, std::vector<Wording> wordings) {
        // A wording that says no less than the one before it is no step.
        const auto same = [](const Wording& a, const Wording& b) { return a.lines == b.lines; };
        wordings.erase(std::unique(wordings.begin(), wordings.end(), same), wordings.end());
        label.parts.push_back({part, required, std::move(wordings)});
    }

    /// What every label carries whatever is in it. `label.capacity` must be set.
    void warn(Label& label, const safety::Hazard& hazard, safety::Setting setting,
              bool bait) const {
        label.language = words_.tag();
        label.rules = hazard.rules;
        label.pictograms = hazard.pictograms;
        if (const auto word = signal_word(hazard.signal_word, words_); !word.empty())
            add(label, Part::signal_word, true, {of(word)});
        add(label, Part::not_food, true,
            {{{words_.rich("label.not_food"),
               words_.rich(bait ? "label.poison_bait" : "label.poison")}},
             say("label.poison_line")});
        add(label, Part::keep_away, true, {say("label.keep_away")});
        add_help(label);
        add_hazards(label, hazard);
        add_precautions(label, hazard, setting);
        add_origin(label, hazard);
        if (job_.help.contact)
            add(label, Part::contact, false,
                {say("label.contact", {{"name", *job_.help.contact->name},
                                       {"phone", text::unbroken(*job_.help.contact->phone)}})});
    }

    void add_help(Label& label) const {
        const auto phone = who_.phone.empty() ? who_.emergency : who_.phone;
        add(label, Part::call, true, {say("label.call", {{"phone", text::unbroken(phone)}})});
        const bool us = safety::advice_for(*job_.help.region) == safety::Advice::us_label;
        const std::string aid = us ? "label.first_aid.us" : "label.first_aid.ask_first";
        auto whole = words_.rich(aid);
        append(whole, words_.rich(aid + "_eyes"));
        add(label, Part::first_aid, true, {{{whole}}, say(aid), say(aid + "_short")});
    }

    /// The official statements, whole; and whose hazard nobody knows. What the rules let a small
    /// container leave out may go.
    void add_hazards(Label& label, const safety::Hazard& hazard) const {
        const auto less = safety::may_leave_out(hazard, label.capacity);
        text::Runs all, some;
        for (const auto& code : hazard.hazard_codes) {
            const auto statement = words_.rich("hazard." + code);
            append(all, statement);
            if (std::find(less.begin(), less.end(), code) == less.end()) append(some, statement);
        }
        if (!hazard.unknown.empty()) {
            const auto unknown =
                words_.rich("basis.unknown", {{"names", words_.list(hazard.unknown)}});
            append(all, unknown);
            append(some, unknown);
        }
        if (!all.empty()) add(label, Part::hazards, true, {{{all}}, {{some.empty() ? all : some}}});
    }

    void add_precautions(Label& label, const safety::Hazard& hazard,
                         safety::Setting setting) const {
        text::Runs all;
        for (const auto& code : safety::precautions_for(hazard, setting)) {
            // Said in larger letters already.
            if (code == "P102" || code == "us_children") continue;
            append(all, words_.rich("precaution." + code));
        }
        if (!all.empty()) add(label, Part::precautions, false, {{{all}}});
    }

    /// That it is home-made and no registered product, and on what its hazard rests.
    void add_origin(Label& label, const safety::Hazard& hazard) const {
        auto whole = words_.rich(hazard.basis);
        for (const auto& note : hazard.notes) append(whole, words_.rich(note));
        add(label, Part::origin, true,
            {{{whole}},
             say(hazard.basis),
             say(hazard.rules == safety::RuleSet::us_household ? "label.origin_us"
                                                               : "label.origin_clp")});
    }

    /// "borax 1.0 % (0.49 g), sugar 20 % (9.8 g) and water"; grams where it is one container's
    /// content. The short form gives figures for borates alone.
    [[nodiscard]] std::string ingredients(const plan::Mix& mix, const plan::Contents* contents,
                                          bool all) const {
        std::vector<std::string> list;
        for (std::size_t i = 0; i < mix.ingredients.size(); ++i) {
            const auto& one = mix.ingredients[i];
            const auto name = ingredient_name(job_, one, words_);
            const auto strength = mix.strength.find(one.name);
            if (strength == mix.strength.end() || (!all && !one.borate)) {
                list.push_back(name);
                continue;
            }
            text::Arguments arguments{{"name", name},
                                      {"percent", words_.percent(strength->second.w_w)}};
            if (contents != nullptr)
                arguments.emplace_back("mass", words_.mass(contents->ingredients.at(i).second));
            list.push_back(words_(
                contents != nullptr ? "label.ingredient" : "label.ingredient_share", arguments));
        }
        return words_.list(list);
    }

    [[nodiscard]] Label container(const job::Station& station, const plan::Station& planned,
                                  const std::string& id) const {
        const auto& mix = *plan_.mix(planned.mix);
        const auto& asked = *job_.mix(planned.mix);
        const auto& kind = *job_.container(**station.container);
        const auto& contents = *planned.per_container;
        Label label;
        label.name = id;
        label.section = {*asked.title, planned.id};
        label.capacity = *kind.holds;
        label.diameter = kind.body.diameter;
        label.panel = safety::panel_of(kind.body);
        add(label, Part::id, true, {of(id)});
        warn(label, mix.hazard, safety::Setting::set_out, *asked.form != job::Form::spray);
        add(label, Part::contents, true,
            {say("label.contents", {{"title", *asked.title},
                                    {"pests", pest_name(job_, *asked.against, words_)},
                                    {"fill", words_.volume(contents.fill)}})});
        add(label, Part::ingredients, true,
            {of(ingredients(mix, &contents, true)), of(ingredients(mix, &contents, false))});
        add(label, Part::dates, true, dates(planned.placed, planned.replace_by));
        label.code = planned.link.empty() ? facts(id, mix, contents) : planned.link;
        add(label, Part::caption, false,
            planned.link.empty()
                ? std::vector<Wording>{say("label.caption_facts")}
                : std::vector<Wording>{say("label.caption"), say("label.caption_short")});
        return label;
    }

    /// Long with full dates; short with the year only where it decides.
    [[nodiscard]] std::vector<Wording> dates(const std::optional<plan::LocalTime>& placed,
                                             const std::optional<plan::Date>& replace) const {
        const auto made = *job_.prepared;
        std::optional<plan::Date> on;
        if (placed) on = plan::Date{std::chrono::floor<std::chrono::days>(*placed)};
        const auto wording = [&](bool whole) {
            const auto date = [&](plan::Date day) {
                return text::unbroken(whole     ? words_.date(day)
                                      : replace ? words_.day(day)
                                                : words_.short_date(day));
            };
            std::string key = "label.made";
            text::Arguments arguments{{"made", date(made)}};
            if (on == made) {
                key += "_and_placed";
            } else if (on) {
                key += "_placed";
                arguments.emplace_back("placed", date(*on));
            }
            if (replace) {
                key += "_replace";
                arguments.emplace_back(
                    "replace",
                    text::unbroken(whole ? words_.date(*replace) : words_.short_date(*replace)));
            }
            return say(key, arguments);
        };
        return {wording(true), wording(false)};
    }

    /// What a code says when there is no log to open: enough for whoever finds the container.
    [[nodiscard]] std::string facts(const std::string& id, const plan::Mix& mix,
                                    const plan::Contents& contents) const {
        std::string what;
        for (std::size_t i = 0; i < mix.ingredients.size(); ++i) {
            const auto& one = mix.ingredients[i];
            if (!one.borate) continue;
            const auto strength = mix.strength.find(one.name);
            if (!what.empty()) what += ' ';
            what += substance_name(one.substance, words_);
            if (strength != mix.strength.end()) what += ' ' + words_.percent(strength->second.w_w);
            what += ' ' + words_.mass(contents.ingredients.at(i).second);
        }
        return dense_text(
            words_("label.facts", {{"id", id}, {"contents", what}, {"phone", who_.phone}}));
    }

    /// What a mix is mixed and kept in: the card says the same.
    [[nodiscard]] std::string vessel_of(const plan::Mix& mix) const {
        const auto form = *job_.mix(mix.id)->form;
        if (form == job::Form::spray) return "sprayer";
        return form == job::Form::liquid ? "bottle" : "mixing_jar";
    }

    /// The vessel a mix is made in (see vessel_of), or what is left of it ("left").
    [[nodiscard]] Label store(const plan::Mix& mix, const std::string& kind) const {
        const auto& asked = *job_.mix(mix.id);
        Label label;
        label.name = (kind == "mixing_jar" ? "jar" : kind) + " " + mix.id;
        const std::string id = "label.id_" + (kind == "mixing_jar" ? "jar" : kind);
        label.section = {*asked.title, words_(id)};
        label.capacity = asked.vessel ? **asked.vessel : mix.finished;
        add(label, Part::id, true, {say(id)});
        warn(label, mix.hazard, safety::Setting::stored, *asked.form != job::Form::spray);
        add(label, Part::contents, true,
            {say("label.contents_" + kind,
                 {{"title", *asked.title}, {"pests", pest_name(job_, *asked.against, words_)}})});
        add(label, Part::ingredients, true,
            {of(ingredients(mix, nullptr, true)), of(ingredients(mix, nullptr, false))});
        std::optional<plan::Date> replace;
        if (asked.lasts) replace = later(*job_.prepared, **asked.lasts);
        add(label, Part::dates, true, dates(std::nullopt, replace));
        return label;
    }

    /// A borate out of its packet.
    [[nodiscard]] Label decanted(const plan::Mix& mix, const plan::Ingredient& ingredient) const {
        const safety::Component pure{ingredient.name, ingredient.substance, 1, 1, false};
        Label label;
        label.name = "jar of " + ingredient.name;
        label.section = {words_("label.jars"), ingredient_name(job_, ingredient, words_)};
        label.capacity = jar;
        add(label, Part::id, true, {say("label.id_jar")});
        warn(label, safety::classify({pure}, mix.hazard.rules), safety::Setting::stored, false);
        add(label, Part::contents, true,
            {say("label.contents_jar", {{"name", ingredient_name(job_, ingredient, words_)}})});
        if (auto note = ingredient_note(job_, ingredient, words_); !note.empty())
            add(label, Part::ingredients, true, {of(std::move(note))});
        return label;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const text::Catalog& words_;
};

}  // namespace

Labels make_labels(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                   const std::vector<const text::Catalog*>& languages) {
    if (languages.empty()) throw std::logic_error("make_labels: no language");
    const auto& main = *languages.front();
    Labels made;
    made.title = *job.title + ": " + main("paper.labels");
    made.author = job.by ? **job.by : "";
    made.language = main.tag();
    made.labels = Maker(job, plan, who, main).all();
    if (languages.size() < 2) return made;
    const auto second = Maker(job, plan, who, *languages[1]).all();
    for (std::size_t i = 0; i < made.labels.size(); ++i)
        made.labels[i] = in_both(made.labels[i], second[i]);
    return made;
}

}  // namespace gallipot::document
