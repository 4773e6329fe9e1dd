#pragma once

#include <string>
#include <utility>
#include <vector>

/// One rule of the job file: what is changed in a job, and what is said of it. In the new text "^"
/// marks where each error or warning is expected, in file order; findings on the file as a whole
/// have no mark and come last.
namespace gallipot::tests {

struct Rule {
    std::vector<std::pair<std::string, std::string>> changes;  ///< from, to
    std::vector<std::string> codes;
    std::string hint;  ///< of the first finding; empty: not looked at
};

const std::vector<Rule>& rules_of_form();      ///< values, wherever they stand
const std::vector<Rule>& rules_of_sections();  ///< help, log, measures, supplies, containers, plan
const std::vector<Rule>& rules_of_mixes();
const std::vector<Rule>& rules_of_stations();
const std::vector<Rule>& rules_of_keys();    ///< each key on its own
const std::vector<Rule>& rules_of_advice();  ///< warnings

}  // namespace gallipot::tests
