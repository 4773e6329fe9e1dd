#include "papers/document/label.hpp"

#include <algorithm>
#include <functional>

namespace gallipot::document {

const LabelPart* LabelBody::find(Part part) const {
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&](const LabelPart& one) { return one.part == part; });
    return found != parts.end() ? &*found : nullptr;
}

std::size_t hash(const LabelBody& body) {
    std::size_t sum = body.parts.size();
    const auto add = [&](std::size_t more) {
        // As boost::hash_combine of old.
        sum ^= more + 0x9e3779b9 + (sum << 6) + (sum >> 2);
    };
    for (const LabelPart& part : body.parts) {
        for (const Wording& wording : part.wordings) {
            for (const text::StyledText& line : wording.lines) {
                for (const text::Run& run : line) add(std::hash<std::string>()(run.text));
            }
        }
    }
    return sum;
}

}  // namespace gallipot::document
