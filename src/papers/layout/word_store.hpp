#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <unordered_map>
#include <utility>

#include "papers/layout/typeset.hpp"

namespace gallipot::layout {

/// Words measured once and remembered: sheets and labels say the same things again and again, and
/// a sheet is set a second time to see whether tighter spaces save a page.
class WordStore {
  public:
    explicit WordStore(fonts::Faces faces) : faces_(std::move(faces)) {}
    WordStore(const WordStore&) = delete;
    WordStore& operator=(const WordStore&) = delete;

    /// Throws as MeasuredText does, each time.
    const std::shared_ptr<const MeasuredText>& operator()(const text::StyledText& runs,
                                                          const std::string& language,
                                                          std::string_view what);
    [[nodiscard]] const fonts::Faces& faces() const { return faces_; }

  private:
    fonts::Faces faces_;
    std::unordered_map<std::string, std::shared_ptr<const MeasuredText>> known_;
};

}  // namespace gallipot::layout
