#include "domain/reference/premises.hpp"

#include <algorithm>
#include <array>

namespace gallipot::reference {

namespace {

// Read at codes.ohio.gov in November 2026: division (A)(1)(b) for those who work for a township or
// city, (A)(1)(d) for owners and their staff. That the last four are an error everywhere is ours.
constexpr std::string_view code = "Ohio Revised Code 921.06, read 2026-11";
constexpr std::string_view only_licensed =
    "in Ohio, for one, neither its owner nor staff may treat it without a licence";

constexpr std::array table{
    PremisesRule{"flats", "block of flats", false,
                 "in Ohio, for one, a licence is needed from five rented homes at one place on",
                 code},
    PremisesRule{"hall", "hall", false,
                 "in Ohio, for one, whoever works for a township or city needs one", code},
    PremisesRule{"childcare", "place of childcare", true, only_licensed, code},
    PremisesRule{"school", "school", true, only_licensed, code},
    PremisesRule{"care", "hospital or place of care", true, only_licensed, code},
    PremisesRule{"food business", "food business", true, only_licensed, code},
};

}  // namespace

const PremisesRule* find_premises_rule(std::string_view premises) {
    const auto found = std::find_if(table.begin(), table.end(), [&](const PremisesRule& rule) {
        return rule.premises == premises;
    });
    return found == table.end() ? nullptr : &*found;
}

}  // namespace gallipot::reference
