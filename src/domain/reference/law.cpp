#include "domain/reference/law.hpp"

#include <algorithm>
#include <iterator>

#include "domain/reference/regions.hpp"

namespace gallipot::reference {

namespace {

// All read in stored copies in November 2026.
//
// Looked for and not confirmed, hence not printed: a decision on boric acid in the EU after 31
// August 2026; that the EU approves no borate against insects; use by a householder in Queensland,
// South and Western Australia, Tasmania and the territories; in which schedule Australia has borax.

// The two extension services disagree about own use; both are shown.
constexpr LawNote us_notes[] = {
    {"law.us_own_use",
     "Michigan State University Extension, Are homemade pesticides legal? Read 2026-11", ""},
    {"law.us_conflict", "Hawaii Ant Lab, LFA Fact Sheet 6, October 2012", "2012-10"},
    {"law.us_sale", "40 CFR 152.25(f), edition of 2015", "2015"},
    {"law.us_licence",
     "Texas Department of Agriculture, Structural Pest Control Licensing; Ohio Revised Code "
     "921.06; "
     "read 2026-11",
     "", false, true},
};

constexpr LawNote uk_notes[] = {
    // Read as reproduced at john-norman.com, not at the regulator.
    {"law.uk_home_made", "letter of the Chemicals Regulation Directorate, 1 September 2011",
     "2011-09-01", true},
    {"law.uk_biocides",
     "Regulation (EU) No 528/2012 as it applies in Great Britain, Article 17, legislation.gov.uk",
     "2012-05-22", true},
    {"law.uk_enforcement", "HSE, Find the right enforcement authority, read 2026-11", ""},
};

constexpr LawNote eu_notes[] = {
    {"law.eu_biocides", "Regulation (EU) No 528/2012, Article 17", "2012-05-22", true},
    {"law.eu_wood",
     "HSENI, EU active substance expiry dates postponed, 13 March 2024; Commission Implementing "
     "Decision (EU) 2024/208",
     "2024-03-13"},
    // Entry 30 by yordasgroup.com, 16 June 2023; the limit for boron by kft.de.
    {"law.eu_sale",
     "REACH, Annex XVII, entry 30; kft.de, Boron compounds: ECHA approves new classification; read "
     "2026-11",
     ""},
};

constexpr LawNote ca_notes[] = {
    {"law.ca_unregistered", "mytrainingbc.ca, Home pesticide use, section 2.6, read 2026-11", "",
     true},
    {"law.ca_boric_acid",
     "Health Canada, List of Cancelled Boron/Boric Acid Products for Domestic Use, decision of 22 "
     "July 2016",
     "2016-07-22"},
};

constexpr LawNote au_notes[] = {
    {"law.au_registered", "APVMA, media release 03/3, 1 April 2003", "2003-04-01", true},
    {"law.au_unregistered", "NSW EPA, Registration and off-label use, read 2026-11", "", true},
    {"law.au_victoria", "agriculture.vic.gov.au, Registered chemicals, read 2026-11", "", true},
    {"law.au_poisons",
     "Poisons Standard Amendment (Boric Acid and Picramic Acid) Instrument 2021, F2021L00070",
     "2021-01-22"},
};

constexpr LawNote unknown_notes[] = {
    {"law.not_known", "", ""},
};

template <std::size_t n>
std::vector<LawNote> all(const LawNote (&notes)[n]) {
    return {std::begin(notes), std::end(notes)};
}

}  // namespace

std::vector<LawNote> law_notes(std::string_view region) {
    const Region* place = find_region(region);
    switch (place == nullptr ? Bloc::none : place->bloc) {
        case Bloc::us:
            return all(us_notes);
        case Bloc::uk:
            return all(uk_notes);
        case Bloc::eu:
        case Bloc::eea:
            return all(eu_notes);
        case Bloc::none:
            break;
    }
    if (region == "CA") return all(ca_notes);
    if (region == "AU") return all(au_notes);
    return all(unknown_notes);
}

bool law_forbids(std::string_view region) {
    const auto notes = law_notes(region);
    return std::any_of(notes.begin(), notes.end(), [](const auto& note) { return note.forbids; });
}

}  // namespace gallipot::reference
