#include "document/notices.hpp"

#include <stdexcept>

#include "document/runs.hpp"
#include "reference/law.hpp"

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

text::Runs call(const safety::WhoToCall& who, const text::Catalog& words) {
    const std::string& number = who.phone.empty() ? who.emergency : who.phone;
    if (number.empty()) return {};
    return words.rich("common.call", {{"phone", text::unbroken(number)}});
}

std::vector<text::Runs> law_notices(const job::Job& job, const text::Catalog& words) {
    std::vector<text::Runs> notices;
    for (const auto& note : reference::law_notes(job.help.region.value)) {
        notices.push_back(words.rich(note.key, {{"source", std::string(note.source)}}));
    }
    return notices;
}

std::vector<text::Runs> legal_notices(const job::Job& job, const safety::Hazard& hazard,
                                      const text::Catalog& words) {
    std::vector<text::Runs> notices;
    text::Runs basis;
    if (!hazard.basis.empty()) add_sentence(basis, words.rich(hazard.basis));
    for (const std::string& note : hazard.notes) add_sentence(basis, words.rich(note));
    if (!basis.empty()) notices.push_back(std::move(basis));
    for (auto& notice : law_notices(job, words)) notices.push_back(std::move(notice));
    return notices;
}

}  // namespace gallipot::document
