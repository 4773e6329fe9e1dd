#include "papers/document/full_statements.hpp"

#include <algorithm>
#include <iterator>
#include <string>

#include "domain/safety/precautions.hpp"
#include "papers/document/joins.hpp"
#include "papers/document/notices.hpp"
#include "papers/document/runs.hpp"

namespace gallipot::document {

namespace {

using text::Catalog;

/// Mixes that make the same statements.
struct Alike {
    const safety::Hazard* hazard = nullptr;
    std::vector<std::string> titles;
};

/// Codes of one hazard, hazard statements first.
std::vector<std::string> codes_of(const safety::Hazard& hazard) {
    std::vector<std::string> codes = hazard.hazard_codes;
    std::ranges::copy(hazard.precaution_codes, std::back_inserter(codes));
    return codes;
}

bool holds(const std::vector<std::string>& codes, const std::string& code) {
    return std::ranges::find(codes, code) != codes.end();
}

std::vector<Alike> groups_of(const job::Job& job, const std::vector<const plan::Mix*>& mixes,
                             const Catalog& words) {
    std::vector<Alike> groups;
    for (const plan::Mix* mix : mixes) {
        if (mix->hazard.hazard_codes.empty()) continue;
        auto at = std::ranges::find_if(groups, [&](const Alike& group) {
            return group.hazard->signal_word == mix->hazard.signal_word &&
                   codes_of(*group.hazard) == codes_of(mix->hazard);
        });
        if (at == groups.end()) at = groups.insert(at, {&mix->hazard, {}});
        at->titles.push_back(job.mix(mix->id)->title->in(words.tag()));
    }
    return groups;
}

/// One statement with its published code.
void say(StyledText& text, const safety::Hazard& hazard, const std::string& code,
         const Catalog& words) {
    const bool is_hazard = holds(hazard.hazard_codes, code);
    add_sentence(text,
                 regular(sentence(words, words((is_hazard ? "hazard." : "precaution.") + code))));
    if (const auto published = safety::published_code(code); !published.empty())
        add_sentence(text, regular("(" + std::string(published) + ")"));
}

/// Of groups with one signal word.
Paragraph paragraph(const std::vector<Alike>& groups, const Catalog& words) {
    const safety::Hazard& first = *groups.front().hazard;
    std::vector<std::string> titles;
    std::vector<std::string> shared = codes_of(first);
    for (const Alike& group : groups) {
        std::ranges::copy(group.titles, std::back_inserter(titles));
        const auto codes = codes_of(*group.hazard);
        std::erase_if(shared, [&](const std::string& code) { return !holds(codes, code); });
    }
    StyledText text = bold(headed(words, words.list(titles)));
    if (const auto word = signal_word(first.signal_word, words); !word.empty())
        add_sentence(text, bold(sentence(words, word)));
    for (const std::string& code : shared) say(text, first, code, words);
    for (const Alike& group : groups) {
        auto own = codes_of(*group.hazard);
        std::erase_if(own, [&](const std::string& code) { return holds(shared, code); });
        if (own.empty()) continue;
        add_sentence(text,
                     words.rich("sheet.statements.also", {{"titles", words.list(group.titles)}}));
        for (const std::string& code : own) say(text, *group.hazard, code, words);
    }
    if (first.rules == safety::RuleSet::clp_like) add_sentence(text, words.rich("basis.texts"));
    return {std::move(text), Voice::small};
}

}  // namespace

std::vector<Paragraph> full_statements(const job::Job& job,
                                       const std::vector<const plan::Mix*>& mixes,
                                       const Catalog& words) {
    std::vector<Alike> groups = groups_of(job, mixes, words);
    std::vector<Paragraph> all;
    while (!groups.empty()) {
        const auto word = groups.front().hazard->signal_word;
        const auto others = std::stable_partition(
            groups.begin(), groups.end(),
            [&](const Alike& group) { return group.hazard->signal_word == word; });
        all.push_back(paragraph({groups.begin(), others}, words));
        groups.erase(groups.begin(), others);
    }
    return all;
}

}  // namespace gallipot::document
