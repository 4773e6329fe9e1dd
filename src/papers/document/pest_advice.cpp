#include "papers/document/pest_advice.hpp"

#include <algorithm>
#include <string>

namespace gallipot::document {

using reference::Pest;
using reference::Topic;
using text::Catalog;

std::vector<const Pest*> treated_pests(const job::Job& job) {
    std::vector<const Pest*> pests;
    for (const job::Mix& mix : job.mixes) {
        const bool used = std::ranges::any_of(job.stations, [&](const job::Station& station) {
            return station.mix && **station.mix == mix.id;
        });
        const Pest* pest = reference::find_pest(*mix.against);
        if (used && pest != nullptr && std::ranges::find(pests, pest) == pests.end())
            pests.push_back(pest);
    }
    return pests;
}

std::vector<const Pest*> wood_pests(const job::Job& job) {
    std::vector<const Pest*> pests = treated_pests(job);
    std::erase_if(pests, [](const Pest* pest) { return !pest->lives_in_wood; });
    return pests;
}

std::vector<StyledText> advice_on(const Pest& pest, Topic topic, const job::Job& job,
                                  const Catalog& words) {
    std::vector<StyledText> sentences;
    for (const reference::Advice* advice : pest.advice_on(topic, *job.help.region))
        sentences.push_back(words.rich(advice->key));
    return sentences;
}

std::vector<StyledText> counting_for_all(const job::Job& job, const Catalog& words) {
    const auto pests = treated_pests(job);
    if (pests.size() < 2) return {};
    auto shared = advice_on(*pests.front(), Topic::count, job, words);
    for (const Pest* pest : pests) {
        const auto own = advice_on(*pest, Topic::count, job, words);
        std::erase_if(shared, [&](const StyledText& sentence) {
            return std::ranges::find(own, sentence) == own.end();
        });
    }
    return shared;
}

std::vector<StyledText> warnings_of(const std::vector<const Pest*>& pests, const job::Job& job,
                                    const Catalog& words) {
    std::vector<StyledText> all;
    for (const Pest* pest : pests)
        for (StyledText& sentence : advice_on(*pest, Topic::warning, job, words))
            if (std::ranges::find(all, sentence) == all.end()) all.push_back(std::move(sentence));
    return all;
}

void add_warnings(const std::vector<const Pest*>& pests, const job::Job& job, const Catalog& words,
                  std::vector<Block>& blocks) {
    std::vector<StyledText> all = warnings_of(pests, job, words);
    for (StyledText& sentence : all)
        for (text::Run& run : sentence) run.bold = true;
    if (!all.empty()) blocks.emplace_back(bullets(std::move(all)));
}

std::string pest_name(const Pest& pest, const Catalog& words) {
    std::string key(pest.name);
    std::ranges::replace(key, ' ', '_');
    return words("pest." + key + ".many");
}

}  // namespace gallipot::document
