#pragma once

#include <string>
#include <vector>

#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"

/// What it comes to in a building with several pests, each by itself: never added together.
namespace gallipot::document {

/// How it goes, as a reader asks.
enum class Going { badly, nobody_knows, partly, well, not_begun };
Going going(analysis::Verdict verdict);

/// One pest: its name, what it comes to, and the effect with what must not be concluded.
struct PestLine {
    std::string pest;
    std::string verdict;
    std::string evidence;  ///< empty where there is none
    std::string except;    ///< stations that do worse; empty where none does
};
std::vector<PestLine> pest_lines(const job::Job& job, const analysis::Report& report,
                                 const text::Catalog& words);

/// How all pests do, in one sentence; empty where the job has one pest, whose own sentence says it.
std::string building_sentence(const job::Job& job, const analysis::Report& report,
                              const text::Catalog& words);

/// Where a licensed professional should look, the worst first; empty where nowhere.
std::string call_sentence(const analysis::Report& report, const text::Catalog& words);

}  // namespace gallipot::document
