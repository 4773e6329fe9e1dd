#include <algorithm>
#include <fmt/format.h>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "domain/job/language.hpp"
#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

/// A text that papers show, and how to name it in a message.
struct Shown {
    const LocalText* text;
    Place place;
    diag::Text name;
};

/// Whether there is anything to translate: "12" is read in every language.
bool has_letters(const LocalText& text) {
    const std::string& main = text.main();
    return std::any_of(main.begin(), main.end(), [](char c) {
        return strings::is_letter(c) || static_cast<unsigned char>(c) >= 0x80;
    });
}

std::vector<Shown> all_texts(const Job& job) {
    std::vector<Shown> all;
    const auto add = [&](const At<LocalText>& text, diag::Text name) {
        if (has_letters(*text)) all.push_back({&*text, text.place, std::move(name)});
    };
    add(job.title, std::string("title"));
    if (job.by) add(*job.by, std::string("by"));
    const auto contact = [&](const std::optional<Contact>& who, const char* key) {
        if (who && was_read(who->name)) add(who->name, fmt::format("help.{}.name", key));
    };
    contact(job.help.contact, "contact");
    contact(job.help.poison_centre, "poison_centre");
    contact(job.help.vet, "vet");
    for (const Mix& mix : job.mixes) add(mix.title, diag::say("title of '{}'", mix.id));
    for (const Station& station : job.stations) {
        add(station.place, diag::say("place of '{}'", *station.id));
        if (station.room) add(*station.room, diag::say("room of '{}'", *station.id));
        if (station.unit) add(*station.unit, diag::say("unit of '{}'", *station.id));
    }
    if (!job.floor_plan) return all;
    for (const Room& room : job.floor_plan->rooms) {
        add(room.name, diag::say("room '{}'", room.name->main()));
        if (has_letters(room.floor))
            all.push_back(
                {&room.floor, room.name.place, diag::say("floor '{}'", room.floor.main())});
    }
    return all;
}

/// "title, place of 'K1' and 12 more"
diag::Text listed(const std::vector<const Shown*>& texts) {
    constexpr std::size_t named = 4;
    const std::size_t shown = texts.size() > named + 1 ? named : texts.size();
    std::vector<diag::Text> names;
    for (std::size_t i = 0; i < shown; ++i) names.push_back(texts[i]->name);
    diag::Text list = diag::joined(names, ", ");
    if (shown < texts.size()) list = diag::say("{} and {} more", list, texts.size() - shown);
    return list;
}

}  // namespace

void advise_on_languages(const Job& job, diag::Diagnostics& out) {
    const std::vector<Shown> texts = all_texts(job);
    for (const auto& language : job.languages) {
        const bool is_main = &language == &job.languages.front();
        std::vector<const Shown*> missing;
        for (const Shown& shown : texts) {
            // One text for all is taken to be in the main language.
            const bool there = shown.text->one_for_all() ? is_main : shown.text->has(*language);
            if (!there) missing.push_back(&shown);
        }
        if (missing.empty()) continue;
        out.warning(
            "mixed-languages", missing.front()->place,
            missing.size() == 1
                ? diag::say("papers in '{}' will mix languages: 1 text is in another one ({})",
                            *language, listed(missing))
                : diag::say("papers in '{}' will mix languages: {} texts are in another one ({})",
                            *language, missing.size(), listed(missing)),
            job.languages.size() == 1
                ? diag::say("write each in '{}' too, like {{ {}: .. }}; a name that stays the same "
                            "is written again",
                            *language, *language)
                : diag::say(
                      "write one for each language, like {{ {}: .., {}: .. }}; a name that stays "
                      "the same is written in both",
                      *job.languages[is_main && job.languages.size() > 1 ? 1 : 0], *language));
    }
}

}  // namespace gallipot::job
