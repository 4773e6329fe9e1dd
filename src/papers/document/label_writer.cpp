#include "papers/document/label_writer.hpp"

#include <algorithm>

#include "domain/safety/rules.hpp"
#include "domain/safety/type_sizes.hpp"
#include "papers/document/label_code.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/pest_advice.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {
namespace {

Wording of(std::string line) {
    return {{{text::Run{std::move(line), false}}}};
}

void append(text::StyledText& runs, const text::StyledText& more) {
    if (!runs.empty() && !more.empty()) runs.push_back({" ", false});
    runs.insert(runs.end(), more.begin(), more.end());
}

void add(LabelBody& label, Part part, bool required, std::vector<Wording> wordings) {
    // A wording that says no less than the one before it is no step.
    const auto same = [](const Wording& a, const Wording& b) { return a.lines == b.lines; };
    wordings.erase(std::unique(wordings.begin(), wordings.end(), same), wordings.end());
    label.parts.push_back({part, required, std::move(wordings)});
}

}  // namespace

OfStation of_station(const job::Station& station) {
    OfStation out;
    for (const auto& near : station.near) out.near_pets |= *near == job::Near::pets;
    return out;
}

Wording LabelWriter::say(std::string_view key, const text::Arguments& arguments) const {
    return {{words_.rich(key, arguments)}};
}

/// What every label carries whatever is in it. `label.capacity` must be set.
void LabelWriter::warn(LabelBody& label, const plan::Filling& filling, const OfStation& station,
                       bool bait) const {
    const safety::Hazard& hazard = *filling.hazard;
    label.language = words_.tag();
    label.rules = hazard.rules;
    label.pictograms = hazard.pictograms;
    std::vector<std::string> pictures;
    for (const auto pictogram : hazard.pictograms)
        pictures.push_back(words_(pictogram == safety::Pictogram::health_hazard
                                      ? "alt.pictogram.health_hazard"
                                      : "alt.pictogram.exclamation"));
    label.pictograms_say = words_.list(pictures);
    if (const auto word = signal_word(hazard.signal_word, words_); !word.empty())
        add(label, Part::signal_word, true, {of(word)});
    // By US rules POISON is the word of toxicity category I, never beside CAUTION (40 CFR 156.64).
    if (hazard.rules == safety::RuleSet::us_household)
        add(label, Part::not_food, true, {say("label.not_food")});
    else
        add(label, Part::not_food, true,
            {{{words_.rich(bait ? "label.poison_bait" : "label.poison"),
               words_.rich("label.not_food")}},
             say("label.poison_line")});
    add(label, Part::keep_away, true, {say("label.keep_away")});
    add_help(label, hazard.rules, station.near_pets);
    add_hazards(label, hazard);
    add_precautions(label, hazard, filling.setting());
    add_origin(label, hazard);
    add_contact(label, station.near_pets);
}

/// Whom to call for an animal that ate of it.
text::StyledText LabelWriter::for_pets() const {
    if (who_.vet_phone.empty()) return words_.rich("label.first_aid.pet");
    return words_.rich("label.first_aid.pet_line", {{"phone", text::unbroken(who_.vet_phone)}});
}

/// Who looks after it; where no animals come by whom to call for one too, if there is room.
void LabelWriter::add_contact(LabelBody& label, bool near_pets) const {
    const auto& contact = job_.help.contact;
    if (!contact) return;
    Wording alone = say("label.contact", {{"name", contact->name->in(words_.tag())},
                                          {"phone", text::unbroken(*contact->phone)}});
    Wording whole = alone;
    if (!near_pets) {
        whole.lines.front() = for_pets();
        append(whole.lines.front(), alone.lines.front());
    }
    add(label, Part::contact, false, {std::move(whole), std::move(alone)});
}

/// The published statements on swallowing, P301+P310 and P330+P331, with whom to call in the place
/// that they leave for "the appropriate source of emergency medical advice", and the number beside
/// them, large; by US rules those of PR Notice 2001-1. Where animals come by, whom to call for one
/// in each wording.
void LabelWriter::add_help(LabelBody& label, safety::RuleSet rules, bool near_pets) const {
    const bool us = rules == safety::RuleSet::us_household;
    const std::string call = us ? "label.call_us" : "label.call";
    std::vector<Wording> calls{say(call + "_short")};
    if (us || !who_.phone.empty())
        calls.insert(calls.begin(), say(call, {{"name", who_.name.in(words_.tag())}}));
    add(label, Part::call, true, std::move(calls));
    add(label, Part::number, true,
        {of(text::unbroken(who_.phone.empty() ? who_.emergency : who_.phone))});
    const std::string aid = us ? "label.first_aid.us" : "label.first_aid.ask_first";
    auto whole = words_.rich(aid);
    append(whole, words_.rich(aid + "_eyes"));
    std::vector<Wording> aids{{{whole}}, say(aid), say(aid + "_short")};
    if (us) aids.push_back(say(aid + "_least"));
    if (near_pets)
        for (Wording& wording : aids) append(wording.lines.front(), for_pets());
    add(label, Part::first_aid, true, std::move(aids));
}

/// The published hazard statements, all of them; and whose hazard nobody knows.
void LabelWriter::add_hazards(LabelBody& label, const safety::Hazard& hazard) const {
    Wording all{{{}}, hazard.hazard_codes};
    for (const auto& code : hazard.hazard_codes)
        append(all.lines.front(), words_.rich("hazard." + code));
    if (!hazard.unknown.empty())
        append(all.lines.front(),
               words_.rich("basis.unknown", {{"names", words_.list(hazard.unknown)}}));
    if (!all.lines.front().empty()) add(label, Part::hazards, true, {std::move(all)});
}

/// The published precautions; then without one more of them each time, in the order in which they
/// may go.
void LabelWriter::add_precautions(LabelBody& label, const safety::Hazard& hazard,
                                  safety::Setting setting) const {
    auto codes = safety::precautions_for(hazard, setting);
    // Said in larger letters already.
    std::erase_if(codes, [](const auto& code) { return code == "P102" || code == "us_children"; });
    if (codes.empty()) return;
    std::vector<Wording> wordings;
    const auto word = [&] {
        Wording made{{{}}, codes};
        for (const auto& code : codes)
            append(made.lines.front(), words_.rich("precaution." + code));
        wordings.push_back(std::move(made));
    };
    word();
    for (const auto& code : safety::leave_out_order(hazard, setting, label.capacity)) {
        std::erase(codes, code);
        if (!codes.empty()) word();
    }
    add(label, Part::precautions, !codes.empty(), std::move(wordings));
}

/// That it is home-made and no registered product, and on what its hazard rests.
void LabelWriter::add_origin(LabelBody& label, const safety::Hazard& hazard) const {
    auto whole = words_.rich(hazard.basis);
    for (const auto& note : hazard.notes) append(whole, words_.rich(note));
    add(label, Part::origin, false,
        {{{whole}},
         say(hazard.basis),
         say(hazard.rules == safety::RuleSet::us_household ? "label.origin_us"
                                                           : "label.origin_clp"),
         say("label.origin_short")});
}

/// "borax 1.0 % (0.49 g), sugar 20 % (9.8 g) and water"; grams where it is one container's
/// content.
std::string LabelWriter::ingredients(const plan::Mix& mix, const plan::Contents* contents,
                                     Told told) const {
    const bool any_borate = std::any_of(mix.ingredients.begin(), mix.ingredients.end(),
                                        [](const auto& one) { return one.borate; });
    std::vector<std::string> list;
    for (std::size_t i = 0; i < mix.ingredients.size(); ++i) {
        const auto& one = mix.ingredients[i];
        if (told == Told::borates && any_borate && !one.borate) continue;
        const auto name = ingredient_name(job_, one, words_);
        const auto strength = mix.strength.find(one.name);
        if (strength == mix.strength.end() || (told != Told::all && !one.borate)) {
            list.push_back(name);
            continue;
        }
        text::Arguments arguments{{"name", name},
                                  {"percent", words_.percent(strength->second.w_w)}};
        if (contents != nullptr)
            arguments.emplace_back("mass", words_.mass(contents->ingredients.at(i).second));
        list.push_back(
            words_(contents != nullptr ? "label.ingredient" : "label.ingredient_share", arguments));
    }
    return words_.list(list);
}

std::vector<Wording> LabelWriter::ingredients(const plan::Mix& mix,
                                              const plan::Contents* contents) const {
    return {of(ingredients(mix, contents, Told::all)),
            of(ingredients(mix, contents, Told::all_names)),
            of(ingredients(mix, contents, Told::borates))};
}

LabelBody LabelWriter::body(const plan::Filling& filling, const OfStation& station) const {
    LabelBody label;
    label.capacity = filling.capacity;
    label.code_says = words_("alt.code_label");
    const bool decanted = filling.kind == plan::ContainerKind::decanted;
    const bool bait = !decanted && *job_.mix(filling.mix)->form != job::Form::spray;
    warn(label, filling, station, bait);
    if (decanted)
        add_decanted(label, filling);
    else if (filling.kind == plan::ContainerKind::cup)
        add_cup(label, filling);
    else
        add_store(label, filling);
    return label;
}

void LabelWriter::add_cup(LabelBody& label, const plan::Filling& cup) const {
    const auto& mix = *plan_.mix(cup.mix);
    const auto& said = *job_.mix(cup.mix);
    const auto& body = job_.container(cup.type)->body;
    label.diameter = body.diameter;
    label.height = body.height;
    label.lid = body.lid;
    label.panel = safety::panel_of(body);
    add_contents(
        label, mix, *said.against,
        say("label.contents",
            {{"title", said.title->in(words_.tag())},
             {"pests", pest_name(job_, *said.against, words_)},
             {"fill", words_.volume(cup.contents->fill, job_.container(cup.type)->fill_unit)}}));
    add(label, Part::ingredients, true, ingredients(mix, cup.contents.get()));
    add(label, Part::dates, true, dates(cup));
    add(label, Part::caption, false, {say(cup.has_link ? "label.caption" : "label.caption_facts")});
}

/// With full dates; with the year only where it decides; and only by when to replace it.
std::vector<Wording> LabelWriter::dates(const plan::Filling& filling) const {
    const auto made = filling.made;
    const auto& replace = filling.replace_by;
    std::optional<plan::Date> on;
    if (filling.placed) on = plan::Date{std::chrono::floor<std::chrono::days>(*filling.placed)};
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
            arguments.emplace_back("replace", text::unbroken(whole ? words_.date(*replace)
                                                                   : words_.short_date(*replace)));
        }
        return say(key, arguments);
    };
    std::vector<Wording> wordings{wording(true), wording(false)};
    if (replace)
        wordings.push_back(
            say("label.replace", {{"replace", text::unbroken(words_.short_date(*replace))}}));
    return wordings;
}

std::string LabelWriter::facts(const plan::Container& cup) const {
    const auto& mix = *plan_.mix(cup.mix);
    std::string what;
    for (std::size_t i = 0; i < mix.ingredients.size(); ++i) {
        const auto& one = mix.ingredients[i];
        if (!one.borate) continue;
        const auto strength = mix.strength.find(one.name);
        if (!what.empty()) what += ' ';
        what += substance_name(one.substance, words_);
        if (strength != mix.strength.end()) what += ' ' + words_.percent(strength->second.w_w);
        what += ' ' + words_.mass(cup.contents->ingredients.at(i).second);
    }
    const bool us = mix.hazard.rules == safety::RuleSet::us_household;
    return dense_text(words_(us ? "label.facts_us" : "label.facts",
                             {{"id", cup.id}, {"contents", what}, {"phone", who_.phone}}));
}

std::string LabelWriter::store_name(const plan::Filling& store) const {
    if (store.kind == plan::ContainerKind::leftovers) return "left";
    const auto form = *job_.mix(store.mix)->form;
    if (form == job::Form::spray) return "sprayer";
    return form == job::Form::liquid ? "bottle" : "mixing_jar";
}

std::string LabelWriter::decanted_name(const plan::Filling& jar) const {
    return ingredient_name(job_, *plan_.mix(jar.mix), jar.supply, words_);
}

text::StyledText LabelWriter::id(const plan::Container& container) const {
    if (container.kind == plan::ContainerKind::cup) return {text::Run{container.id, false}};
    const bool decanted = container.kind == plan::ContainerKind::decanted;
    const std::string name = decanted ? "jar" : store_name(container);
    return words_.rich("label.id_" + (name == "mixing_jar" ? "jar" : name));
}

text::StyledText LabelWriter::place(const job::Station& station) const {
    return words_.rich("label.place", {{"place", station.where(words_.tag())}});
}

std::vector<std::string> LabelWriter::section(const plan::Container& container) const {
    if (container.kind == plan::ContainerKind::decanted)
        return {words_("label.jars"), decanted_name(container)};
    const auto& title = job_.mix(container.mix)->title->in(words_.tag());
    if (container.kind == plan::ContainerKind::cup) return {title, container.station};
    return {title, text::plain(id(container))};
}

std::string LabelWriter::code(const plan::Container& container) const {
    if (container.kind != plan::ContainerKind::cup) return {};
    return container.link.empty() ? facts(container) : container.link;
}

/// With what must be said of peanut in it, and of the pest it is against.
void LabelWriter::add_contents(LabelBody& label, const plan::Mix& mix, const std::string& against,
                               Wording contents) const {
    if (holds_peanut(job_, mix)) contents.lines.push_back(words_.rich("allergy.label"));
    if (const reference::Pest* pest = reference::find_pest(against))
        for (StyledText& line : advice_on(*pest, reference::Topic::label, job_, words_))
            contents.lines.push_back(std::move(line));
    add(label, Part::contents, true, {std::move(contents)});
}

void LabelWriter::add_store(LabelBody& label, const plan::Filling& store) const {
    const auto& mix = *plan_.mix(store.mix);
    const auto& asked = *job_.mix(store.mix);
    // Where a published statement says that it is to be locked away, the heading need not.
    const auto codes = safety::precautions_for(*store.hazard, store.setting());
    const bool said = store.kind == plan::ContainerKind::leftovers &&
                      std::find(codes.begin(), codes.end(), "P405") != codes.end();
    Wording contents = say("label.contents_" + store_name(store) + (said ? "_locked" : ""),
                           {{"title", asked.title->in(words_.tag())},
                            {"pests", pest_name(job_, *asked.against, words_)}});
    add_contents(label, mix, *asked.against, std::move(contents));
    add(label, Part::ingredients, true, ingredients(mix, nullptr));
    add(label, Part::dates, true, dates(store));
}

/// Of a bought product, what it holds; else the substance that a name of
/// the user's own stands for.
void LabelWriter::add_decanted(LabelBody& label, const plan::Filling& jar) const {
    add(label, Part::contents, true, {say("label.contents_jar", {{"name", decanted_name(jar)}})});
    std::string note;
    if (jar.product()) {
        std::vector<std::string> list;
        for (const auto& [substance, share] : jar.parts) {
            const auto name = substance_name(substance, words_);
            list.push_back(words_("label.ingredient_share",
                                  {{"name", name}, {"percent", words_.percent(share)}}));
        }
        note = words_.list(list);
    } else {
        const auto& ingredients = plan_.mix(jar.mix)->ingredients;
        note = ingredient_note(
            job_, *std::ranges::find(ingredients, jar.supply, &plan::Ingredient::name), words_);
    }
    if (!note.empty()) add(label, Part::ingredients, true, {of(std::move(note))});
}

}  // namespace gallipot::document
