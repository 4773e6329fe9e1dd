#include "document/make_labels.hpp"

#include <cctype>
#include <set>

#include "document/notices.hpp"
#include "document/words.hpp"
#include "safety/classify.hpp"
#include "safety/first_aid.hpp"
#include "safety/type_sizes.hpp"

namespace gallipot::document {
namespace {

/// The characters of a code's dense mode (ISO/IEC 18004, alphanumeric mode); others become blanks.
std::string dense(std::string_view text) {
    static constexpr std::string_view also = " $%*+-./:";
    std::string out;
    for (const char c : text) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte >= 0x80) return std::string(text);  // another script: kept as it stands
        const char capital = static_cast<char>(std::toupper(byte));
        const bool fits = std::isalnum(byte) != 0 || also.find(c) != std::string_view::npos;
        if (fits || (!out.empty() && out.back() != ' ')) out += fits ? capital : ' ';
    }
    return out;
}

std::string plain_spaces(std::string text) {
    for (std::size_t at; (at = text.find("\u00A0")) != std::string::npos;) text.replace(at, 2, " ");
    return text;
}

/// All of it needed by every label of a job.
class Maker {
  public:
    Maker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
          const text::Catalog& words)
        : job_(job),
          plan_(plan),
          who_(who),
          words_(words),
          aid_(safety::first_aid(safety::advice_for(*job.help.region))) {}

    Labels all() {
        Labels out;
        out.title = *job_.title + ": " + words_("paper.labels");
        out.author = job_.by ? **job_.by : "";
        out.language = words_.tag();
        for (std::size_t i = 0; i < plan_.stations.size(); ++i)
            for (const auto& id : plan_.stations[i].container_ids)
                out.labels.push_back(container(job_.stations[i], plan_.stations[i], id));
        for (const auto& mix : plan_.mixes) {
            out.labels.push_back(store(mix, "bottle"));
            out.labels.push_back(store(mix, "left"));
        }
        std::set<std::string> done;
        for (const auto& mix : plan_.mixes)
            for (const auto& ingredient : mix.ingredients)
                if (ingredient.borate && done.insert(ingredient.name).second)
                    out.labels.push_back(decanted(mix, ingredient));
        return out;
    }

  private:
    [[nodiscard]] text::Arguments numbers() const {
        return {{"phone", text::unbroken(who_.phone)},
                {"name", who_.name},
                {"emergency", text::unbroken(who_.emergency)}};
    }

    static void add(Label& label, Part part, bool required, std::vector<Wording> wordings) {
        std::erase_if(wordings, [](const Wording& one) { return one.lines.empty(); });
        if (!wordings.empty()) label.parts.push_back({part, required, std::move(wordings)});
    }
    [[nodiscard]] Wording say(std::string_view key, const text::Arguments& arguments = {}) const {
        return {{words_.rich(key, arguments)}};
    }

    /// What every label of a hazardous thing carries, whatever is in it.
    void warn(Label& label, const safety::Hazard& hazard) const {
        label.language = words_.tag();
        label.rules = hazard.rules;
        label.pictograms = hazard.pictograms;
        if (const std::string word = signal_word(hazard.signal_word, words_); !word.empty())
            add(label, Part::signal_word, true, {{{{text::Run{word, true}}}}});
        add(label, Part::not_food, true,
            {{{words_.rich("label.not_food"), words_.rich("label.poison")}},
             say("label.not_food")});
        add(label, Part::keep_away, true, {say("label.keep_away")});
        add(label, Part::call, true, {say("label.call", numbers())});

        Wording hazards;
        for (const auto& code : hazard.hazard_codes)
            hazards.lines.push_back(words_.rich("hazard." + code));
        if (!hazard.unknown.empty())
            hazards.lines.push_back(
                words_.rich("basis.unknown", {{"names", words_.list(hazard.unknown)}}));
        add(label, Part::hazards, true, {hazards});

        Wording whole = say(aid_.label, numbers());
        whole.lines.push_back(words_.rich(aid_.label_eyes, numbers()));
        add(label, Part::first_aid, true,
            {whole, say(aid_.label, numbers()), say(aid_.label + "_short", numbers())});

        text::Runs advice;
        for (const auto& code : hazard.precaution_codes) {
            if (!advice.empty()) advice.push_back({" ", false});
            for (auto& run : words_.rich("precaution." + code)) advice.push_back(std::move(run));
        }
        if (!advice.empty()) add(label, Part::precautions, false, {{{advice}}});
        add(label, Part::origin, true, {say(hazard.basis), say("label.origin")});
        if (job_.help.contact)
            add(label, Part::contact, false,
                {say("label.contact", {{"name", *job_.help.contact->name},
                                       {"phone", text::unbroken(*job_.help.contact->phone)}})});
    }

    /// "borax 1.0 % (0.49 g), sugar 20 % (9.8 g), water"; grams only where there is one container
    /// they are in. The short form gives figures for borates alone.
    [[nodiscard]] std::string ingredients(const plan::Mix& mix, const plan::Contents* contents,
                                          bool all) const {
        std::vector<std::string> out;
        for (std::size_t i = 0; i < mix.ingredients.size(); ++i) {
            const plan::Ingredient& one = mix.ingredients[i];
            const std::string name = ingredient_name(job_, one, words_);
            const auto strength = mix.strength.find(one.name);
            if (strength == mix.strength.end() || (!all && !one.borate)) {
                out.push_back(name);
                continue;
            }
            text::Arguments arguments{{"name", name},
                                      {"percent", words_.percent(strength->second.w_w)}};
            if (contents != nullptr) {
                arguments.emplace_back("mass", words_.mass(contents->ingredients.at(i).second));
                out.push_back(words_("label.ingredient", arguments));
            } else {
                out.push_back(words_("label.ingredient_share", arguments));
            }
        }
        return words_.list(out);
    }

    [[nodiscard]] Wording of(std::string line) const { return {{{text::Run{std::move(line)}}}}; }

    [[nodiscard]] Label container(const job::Station& station, const plan::Station& planned,
                                  const std::string& id) const {
        const plan::Mix& mix = *plan_.mix(planned.mix);
        const job::Mix& asked = *job_.mix(planned.mix);
        const job::Container& kind = *job_.container(**station.container);
        const plan::Contents& contents = *planned.per_container;
        Label label;
        label.name = id;
        label.section = {*asked.title};
        add(label, Part::id, true, {of(id)});
        warn(label, mix.hazard);
        const text::Arguments what{{"title", *asked.title},
                                   {"pests", pest_name(job_, *asked.against, words_)},
                                   {"fill", words_.volume(contents.fill)}};
        add(label, Part::contents, true,
            {say("label.contents", what), say("label.contents_short", what)});
        add(label, Part::ingredients, true,
            {of(ingredients(mix, &contents, true)), of(ingredients(mix, &contents, false))});
        add(label, Part::dates, true, dates(planned.placed, planned.replace_by));

        label.capacity = *kind.holds;
        label.diameter = kind.body.diameter;
        label.panel = safety::panel_of(kind.body);
        label.code = planned.link;
        if (label.code.empty()) label.code = facts(id, mix, contents);
        add(label, Part::caption, false,
            planned.link.empty()
                ? std::vector<Wording>{say("label.caption_facts")}
                : std::vector<Wording>{say("label.caption"), say("label.caption_short")});
        return label;
    }

    [[nodiscard]] std::vector<Wording> dates(const std::optional<plan::LocalTime>& placed,
                                             const std::optional<plan::Date>& replace) const {
        const bool long_too[] = {true, false};
        std::vector<Wording> out;
        for (const bool whole : long_too) {
            const auto date = [&](plan::Date d) {
                return text::unbroken(whole ? words_.date(d) : words_.short_date(d));
            };
            text::Arguments arguments{{"made", date(*job_.prepared)}};
            std::string key = "label.made";
            if (placed) {
                key += "_placed";
                arguments.emplace_back(
                    "placed", date(plan::Date{std::chrono::floor<std::chrono::days>(*placed)}));
            }
            if (replace) {
                key += "_replace";
                arguments.emplace_back("replace", date(*replace));
            }
            out.push_back(say(key, arguments));
        }
        return out;
    }

    /// What a code says when there is no log to open: enough for whoever finds the container.
    [[nodiscard]] std::string facts(const std::string& id, const plan::Mix& mix,
                                    const plan::Contents& contents) const {
        std::string what;
        for (std::size_t i = 0; i < mix.ingredients.size(); ++i)
            if (mix.ingredients[i].borate)
                what += (what.empty() ? "" : " ") +
                        substance_name(mix.ingredients[i].substance, words_) + " " +
                        words_.mass(contents.ingredients.at(i).second);
        return dense(plain_spaces(
            words_("label.facts", {{"id", id}, {"contents", what}, {"phone", who_.phone}})));
    }

    /// The bottle a mix is made in, or what is left of it.
    [[nodiscard]] Label store(const plan::Mix& mix, const std::string& kind) const {
        const job::Mix& asked = *job_.mix(mix.id);
        Label label;
        label.name = kind + " " + mix.id;
        label.section = {*asked.title};
        add(label, Part::id, true, {say("label.id_" + kind)});
        warn(label, mix.hazard);
        const text::Arguments what{{"title", *asked.title},
                                   {"pests", pest_name(job_, *asked.against, words_)}};
        add(label, Part::contents, true, {say("label.contents_" + kind, what)});
        add(label, Part::ingredients, true,
            {of(ingredients(mix, nullptr, true)), of(ingredients(mix, nullptr, false))});
        std::optional<plan::Date> replace;
        if (asked.lasts) replace = later(*job_.prepared, **asked.lasts);
        add(label, Part::dates, true, dates(std::nullopt, replace));
        label.capacity = asked.vessel ? **asked.vessel : mix.finished;
        return label;
    }

    /// A borate out of its packet.
    [[nodiscard]] Label decanted(const plan::Mix& mix, const plan::Ingredient& ingredient) const {
        const safety::Component pure{ingredient.name, ingredient.substance, 1, 1, false};
        Label label;
        label.name = "jar " + ingredient.name;
        label.section = {words_("label.jars")};
        add(label, Part::id, true, {say("label.id_jar")});
        warn(label, safety::classify({pure}, mix.hazard.rules));
        add(label, Part::contents, true,
            {say("label.contents_jar", {{"name", ingredient_name(job_, ingredient, words_)}})});
        if (std::string note = ingredient_note(job_, ingredient, words_); !note.empty())
            add(label, Part::ingredients, true, {of(std::move(note))});
        label.capacity = units::mL(500);
        return label;
    }

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const text::Catalog& words_;
    safety::FirstAid aid_;
};

}  // namespace

Labels make_labels(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                   const text::Catalog& words) {
    return Maker(job, plan, who, words).all();
}

}  // namespace gallipot::document
