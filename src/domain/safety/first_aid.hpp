#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace gallipot::safety {

/// Advice on swallowing differs: US label wording lets the person sip water; elsewhere nothing is
/// given to drink before asking.
enum class Advice { us_label, ask_first };

/// By region. ask_first is what the centres found say: France (centres-antipoison.net), Great
/// Britain (NHS page on poisoning), New Zealand (poisons.co.nz), Australia
/// (nsw.childsafetyhub.com.au; rinse the mouth: healthywa.wa.gov.au), Ireland (irishhealth.com);
/// for all others it is the more careful of the two. us_label is PR Notice 2001-1 as carried by a
/// registered borate label.
Advice advice_for(std::string_view region);

/// Catalog keys, each a sentence or two, in the order to act. Every text takes {name}, {phone} and
/// {emergency}; not all use them.
struct FirstAid {
    std::string label;                   ///< for a label, swallowed: the whole advice
    std::string label_short;             ///< the same in one line, for a small label
    std::string label_eyes;              ///< for a label: eyes
    std::vector<std::string> swallowed;  ///< for the sheet
    std::vector<std::string> eyes;
    std::string skin;
    std::string unconscious;  ///< comes before all else
    std::string tell;         ///< what to say on the telephone
    std::string pets;
};

FirstAid first_aid(Advice advice);

}  // namespace gallipot::safety
