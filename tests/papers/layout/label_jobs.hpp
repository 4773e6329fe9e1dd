#pragma once

#include <optional>
#include <random>
#include <string>
#include <vector>

#include "papers/document/label.hpp"
#include "papers/layout/labels.hpp"

/// Labels of whole jobs, read and planned as the program does, for the tests on labels.
namespace gallipot::tests {

/// The labels of a job file's text in its languages; nothing, and why on `error`, when the job has
/// errors.
std::optional<document::Labels> labels_of(const std::string& job, std::string* error = nullptr);

/// The number of a label, and what it says besides in the words of `body`.
std::vector<document::LabelPart> parts_of(const document::Label& label,
                                          const document::LabelBody& body);

/// Every stock that is shipped and holds all that a label must say, with its design. Fails the test
/// when one has errors.
const std::vector<layout::LabelStock>& shipped_stocks();
const layout::LabelStock& shipped_stock(const std::string& name);
/// One for lids of containers that have a label on the wall too.
const layout::LabelStock& compact_stock(const std::string& name);

/// Job files of random sense, the same in every run: regions, one or two languages, hazards from
/// none to all, cups of 10 mL to 5 L with and without a body, short and long words, links and
/// facts.
class RandomLabelJobs {
  public:
    explicit RandomLabelJobs(unsigned seed) : random_(seed) {}
    std::string next();
    int whole(int low, int high);

  private:
    template <class T>
    const T& one_of(const std::vector<T>& list) {
        return list.at(static_cast<std::size_t>(whole(0, static_cast<int>(list.size()) - 1)));
    }
    std::string words(int count);

    std::mt19937 random_;
};

}  // namespace gallipot::tests
