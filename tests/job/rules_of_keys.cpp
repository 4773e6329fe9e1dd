#include "rules.hpp"

namespace gallipot::tests {

const std::vector<Rule>& rules_of_keys() {
    static const std::vector<Rule> rules = {};
    return rules;
}

}  // namespace gallipot::tests
