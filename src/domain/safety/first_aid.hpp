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

/// Catalog keys of the household sheet, each a sentence or two, in the order to act. Every text
/// takes {name}, {phone}, {emergency} and {vet}; not all use them. Where the advice comes from, all
/// read in stored copies in November 2026:
///
/// - the emergency number first when somebody collapses, has a fit, has trouble breathing or cannot
/// be
///   woken: the wording of the US poison centres (poison.org, as quoted at n0elle.com);
/// - eyes, ask_first: 10 to 15 minutes (Victorian Poisons Information Centre, austin.org.au), 15
/// (New
///   South Wales, poisonsinfo.nsw.gov.au; Ireland, poisons.ie), 15 or more (New Zealand,
///   poison.co.nz), 20 (National Health Service, myhealthbracknell.info): hence 10 to 20;
/// - fresh air: the Victorian centre, and Ireland's;
/// - broken skin lets borates in: a supplier's safety data sheet and a drug leaflet
/// (irisfarma.com);
/// - the signs: a medical encyclopedia (health.am, Boric acid). That they may come hours later is
/// only
///   recalled, hence not said.
struct FirstAid {
    std::vector<std::string> swallowed;
    std::vector<std::string> eyes;
    std::string skin;
    std::string breathed;
    std::string unconscious;  ///< comes before all else
    std::string tell;         ///< what to say on the telephone
    std::string signs;        ///< what may be seen of it
    std::string pets;
    std::string pets_line;  ///< the same with {vet}, a number for animals
};

FirstAid first_aid(Advice advice);

}  // namespace gallipot::safety
