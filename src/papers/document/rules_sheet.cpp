#include "papers/document/rules_sheet.hpp"

#include <algorithm>

#include "papers/document/notices.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

std::vector<StyledText> law_texts(const job::Job& job, const Catalog& words) {
    std::vector<StyledText> notes;
    for (const auto& note : document::law_notes(job)) {
        notes.push_back(words.rich(std::string(note.key), {{"source", std::string(note.source)}}));
    }
    return notes;
}

/// Each sentence once, however many mixes rest on it.
std::vector<StyledText> hazard_notes(const plan::Plan& plan, const Catalog& words) {
    std::vector<std::string> keys;
    const auto add = [&](const std::string& key) {
        if (!key.empty() && std::find(keys.begin(), keys.end(), key) == keys.end()) {
            keys.push_back(key);
        }
    };
    for (const plan::Mix& mix : plan.mixes) {
        add(mix.hazard.basis);
        for (const std::string& note : mix.hazard.notes) add(note);
    }
    std::vector<StyledText> notes;
    notes.reserve(keys.size());
    for (const std::string& key : keys) notes.push_back(words.rich(key));
    return notes;
}

/// Where each number that the papers show comes from, and whether it needs to be looked up again.
std::vector<StyledText> number_notes(const job::Job& job, const safety::WhoToCall& who,
                                     const Catalog& words) {
    std::vector<StyledText> notes;
    for (const safety::ShownNumber& number : who.numbers()) {
        text::Arguments arguments{{"phone", text::unbroken(number.phone)},
                                  {"source", number.source}};
        if (number.shown_on) arguments.emplace_back("day", *number.shown_on);
        const char* key = number.source == safety::of_the_job ? "own"
                          : !number.shown_on                  ? "undated"
                          : number.is_old(*job.prepared)      ? "old"
                                                              : "shown";
        notes.push_back(words.rich(std::string("rules.numbers.") + key, arguments));
    }
    return notes;
}

}  // namespace

Sheet rules_sheet(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                  const Catalog& words) {
    constexpr int lines = 3;
    Sheet sheet;
    sheet.follows = true;
    sheet.bookmark = words("rules.bookmark");
    sheet.kicker = regular(job.title->in(words.tag()));
    sheet.title = words.rich("rules.title");
    auto& blocks = sheet.blocks;
    blocks.emplace_back(Paragraph{words.rich("rules.intro"), Voice::large});
    blocks.emplace_back(Heading{words.rich("rules.law")});
    blocks.emplace_back(bullets(law_texts(job, words)));
    if (auto notes = hazard_notes(plan, words); !notes.empty()) {
        blocks.emplace_back(Heading{words.rich("rules.hazard")});
        blocks.emplace_back(bullets(std::move(notes)));
    }
    if (auto notes = number_notes(job, who, words); !notes.empty()) {
        blocks.emplace_back(Heading{words.rich("rules.numbers.heading")});
        blocks.emplace_back(bullets(std::move(notes)));
    }
    if (job.asked)
        blocks.emplace_back(Paragraph{words.rich("rules.told", {{"whom", *job.asked->whom},
                                                                {"day", *job.asked->on},
                                                                {"answer", *job.asked->answer}})});
    blocks.emplace_back(FillIn{{{words.rich("rules.asked"), Align::left, 3},
                                {words.rich("rules.date"), Align::left, 1},
                                {words.rich("rules.answer"), Align::left, 4}},
                               lines});
    sheet.footer_left = words.rich("card.footer");
    sheet.footer_right = words.rich("card.made", {{"made", job.prepared.value}});
    return sheet;
}

}  // namespace gallipot::document
