#include "papers/layout/misfit.hpp"

#include <utility>

namespace gallipot::layout {

namespace {

std::string in_words(const std::vector<Misfit>& misfits) {
    std::string text;
    for (const Misfit& misfit : misfits) {
        if (!text.empty()) text += '\n';
        text += misfit.what + ": " + misfit.problem + "; " + misfit.remedy;
    }
    return text;
}

}  // namespace

LayoutError::LayoutError(std::vector<Misfit> misfits)
    : std::runtime_error(in_words(misfits)), misfits_(std::move(misfits)) {}

}  // namespace gallipot::layout
