#include "domain/safety/first_aid.hpp"

#include "domain/safety/rules.hpp"

namespace gallipot::safety {

Advice advice_for(std::string_view region) {
    return rules_for(region).rules == RuleSet::us_household ? Advice::us_label : Advice::ask_first;
}

FirstAid first_aid(Advice advice) {
    FirstAid aid;
    if (advice == Advice::us_label) {
        aid.swallowed = {"first_aid.us.swallowed_call", "first_aid.us.swallowed_sip",
                         "first_aid.us.swallowed_no_vomiting", "first_aid.us.swallowed_by_mouth"};
        aid.eyes = {"first_aid.us.eyes_rinse", "first_aid.us.eyes_lenses",
                    "first_aid.us.eyes_call"};
        aid.skin = "first_aid.us.skin";
        aid.tell = "first_aid.us.tell";
    } else {
        aid.swallowed = {
            "first_aid.ask_first.swallowed_rinse", "first_aid.ask_first.swallowed_call",
            "first_aid.ask_first.swallowed_no_drink", "first_aid.ask_first.swallowed_no_vomiting",
            "first_aid.ask_first.swallowed_do_not_wait"};
        aid.eyes = {"first_aid.ask_first.eyes_rinse", "first_aid.ask_first.eyes_lenses",
                    "first_aid.ask_first.eyes_call"};
        aid.skin = "first_aid.ask_first.skin";
        aid.tell = "first_aid.ask_first.tell";
    }
    aid.breathed = "first_aid.breathed";
    aid.unconscious = "first_aid.unconscious";
    aid.signs = "first_aid.signs";
    aid.pets = "first_aid.pets";
    aid.pets_line = "first_aid.pets_line";
    return aid;
}

}  // namespace gallipot::safety
