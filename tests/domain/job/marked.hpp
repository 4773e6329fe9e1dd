#pragma once

#include <string>
#include <utility>
#include <vector>

#include "job_text.hpp"
#include "rules.hpp"

namespace gallipot::tests {

struct Marked {
    std::string text;
    std::vector<std::pair<int, int>> places;  ///< line, column; in file order
};

/// Takes the "^" out of a text and says where they stood.
inline Marked marked(const std::string& with_marks) {
    Marked result;
    int line = 1;
    int column = 1;
    for (const char c : with_marks) {
        if (c == '^') {
            result.places.emplace_back(line, column);
            continue;
        }
        result.text += c;
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) ++column;
        if (c == '\n') {
            ++line;
            column = 1;
        }
    }
    return result;
}

/// The small job as the rule changes it.
inline Marked job_for(const Rule& rule) {
    std::string text = small_job;
    for (const auto& [from, to] : rule.changes) text = changed(text, from, to);
    return marked(text);
}

/// Every rule of tests/domain/job.
inline std::vector<const std::vector<Rule>*> all_rules() {
    return {&rules_of_form(),     &rules_of_sections(), &rules_of_mixes(),
            &rules_of_stations(), &rules_of_keys(),     &rules_of_advice()};
}

}  // namespace gallipot::tests
