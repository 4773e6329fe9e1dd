#include "papers/document/notices.hpp"

#include <algorithm>
#include <stdexcept>

#include "domain/reference/allergens.hpp"

namespace gallipot::document {

std::string signal_word(safety::SignalWord word, const text::Catalog& words) {
    switch (word) {
        case safety::SignalWord::none:
            return {};
        case safety::SignalWord::caution:
            return words("signal.caution");
        case safety::SignalWord::warning:
            return words("signal.warning");
        case safety::SignalWord::danger:
            return words("signal.danger");
    }
    throw std::logic_error("unknown signal word");
}

text::StyledText call(const safety::WhoToCall& who, const text::Catalog& words) {
    const std::string& number = who.phone.empty() ? who.emergency : who.phone;
    if (number.empty()) return {};
    return words.rich("common.call", {{"phone", text::unbroken(number)}});
}

std::vector<reference::LawNote> law_notes(const job::Job& job) {
    auto notes = reference::law_notes(job.help.region.value);
    const bool own = job.premises && (**job.premises == job::Premises::home ||
                                      **job.premises == job::Premises::workshop);
    if (own) std::erase_if(notes, [](const auto& note) { return note.shared_buildings; });
    return notes;
}

void note_translation(StyledText& kicker, const text::Catalog& words) {
    if (words("translation.checked") == "yes") return;
    kicker.push_back({" \u00b7 ", false});
    const StyledText note = words.rich("translation.unchecked");
    kicker.insert(kicker.end(), note.begin(), note.end());
}

bool holds_peanut(const job::Job& job, const plan::Mix& mix) {
    return std::ranges::any_of(mix.ingredients, [&](const plan::Ingredient& ingredient) {
        const auto supply = job.supplies.find(ingredient.name);
        return reference::names_peanut(ingredient.name) ||
               reference::names_peanut(ingredient.substance) ||
               (supply != job.supplies.end() && supply->second.substance &&
                reference::names_peanut(**supply->second.substance));
    });
}

std::optional<Banner> not_asked(const job::Job& job, const text::Catalog& words) {
    if (job.asked || !reference::law_forbids(job.help.region.value)) return {};
    return Banner{words.rich("common.not_asked"), {}};
}

}  // namespace gallipot::document
