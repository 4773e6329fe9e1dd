#include "papers/document/notices.hpp"

#include <stdexcept>

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

}  // namespace gallipot::document
