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
    /// What the lines of more than half of them ask for at the least, in ems; 0 where they ask for
    /// nothing: a name in another script does not spread the lines of a whole paper.
    [[nodiscard]] double leading_of_most() const;

  private:
    fonts::Faces faces_;
    std::unordered_map<std::string, std::shared_ptr<const MeasuredText>> known_;
};

}  // namespace gallipot::layout
