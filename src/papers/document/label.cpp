#include "papers/document/label.hpp"

#include <algorithm>

namespace gallipot::document {

const LabelPart* LabelBody::find(Part part) const {
    const auto found = std::find_if(parts.begin(), parts.end(),
                                    [&](const LabelPart& one) { return one.part == part; });
    return found != parts.end() ? &*found : nullptr;
}

}  // namespace gallipot::document
