#pragma once

#include <memory>
#include <string>
#include <vector>

#include "papers/document/make_labels.hpp"
#include "papers/layout/labels.hpp"

namespace gallipot::app {

/// Labels of a job on one stock, to be drawn volume by volume: a file with tens of thousands of
/// labels serves nobody and fills the memory.
class LabelRun {
  public:
    /// About so many labels a file; what is less than this many sheets is one file.
    static constexpr std::size_t labels_a_volume = 1000;

    /// `which` are labels that `imposer` has fitted; `name` is that of the file or files.
    LabelRun(std::shared_ptr<const document::LabelMaker> maker,
             std::shared_ptr<const layout::LabelImposer> imposer,
             std::vector<document::LabelChoice> which, std::string name);

    [[nodiscard]] std::size_t volumes() const { return volumes_; }
    /// "labels.pdf", or of several "labels-01.pdf".
    [[nodiscard]] std::string file(std::size_t volume) const;
    /// The pages of a volume. May be called by several threads at once.
    [[nodiscard]] layout::Paper paper(std::size_t volume) const;

  private:
    std::shared_ptr<const document::LabelMaker> maker_;
    std::shared_ptr<const layout::LabelImposer> imposer_;
    std::vector<document::LabelChoice> which_;
    std::string name_;
    std::size_t room_ = 1;    ///< places on the sheets of a volume
    std::size_t taken_ = 0;   ///< of the first sheet, before the first label
    std::size_t copies_ = 1;  ///< of each label
    std::size_t volumes_ = 1;
};

}  // namespace gallipot::app
