#include "domain/reference/law.hpp"

#include <iterator>

#include "domain/reference/regions.hpp"

namespace gallipot::reference {

namespace {

constexpr Standing found = Standing::found;
constexpr Standing memory = Standing::memory;

// All read in stored copies in November 2026 where not from memory.

// The two extension services disagree about own use; both are shown.
constexpr LawNote us_notes[] = {
    {"law.us_own_use",
     "Michigan State University Extension, Are homemade pesticides legal? Read 2026-11", "", found},
    {"law.us_conflict", "Hawaii Ant Lab, LFA Fact Sheet 6, October 2012", "2012-10", found},
    {"law.us_sale", "40 CFR 152.25(f), edition of 2015", "2015", found},
};

constexpr LawNote uk_notes[] = {
    // Read as reproduced at john-norman.com, not at the regulator.
    {"law.uk_home_made", "letter of the Chemicals Regulation Directorate, 1 September 2011",
     "2011-09-01", found},
    {"law.uk_biocides",
     "Regulation (EU) No 528/2012 as it applies in Great Britain, Article 17, legislation.gov.uk",
     "2012-05-22", found},
    {"law.uk_enforcement", "HSE, Find the right enforcement authority, read 2026-11", "", found},
};

constexpr LawNote eu_notes[] = {
    {"law.eu_biocides", "Regulation (EU) No 528/2012, Article 17", "2012-05-22", found},
    {"law.eu_wood_only", "assessment report on boric acid for product type 8, 20 February 2009",
     "2009-02-20", memory},
    // Entry 30 itself was read about (ECHA Q&A 1523); that Appendix 6 lists borates is recalled.
    {"law.eu_sale", "REACH, Annex XVII, entry 30 and Appendix 6; ECHA Q&A 1523, read 2026-11", "",
     memory},
};

constexpr LawNote ca_notes[] = {
    {"law.ca_unregistered", "mytrainingbc.ca, Home pesticide use, section 2.6, read 2026-11", "",
     found},
    {"law.ca_boric_acid",
     "Health Canada, List of Cancelled Boron/Boric Acid Products for Domestic Use, decision of 22 "
     "July 2016",
     "2016-07-22", found},
};

constexpr LawNote au_notes[] = {
    {"law.au_unregistered", "NSW EPA, Registration and off-label use, read 2026-11", "", found},
};

constexpr LawNote unknown_notes[] = {
    {"law.not_known", "", "", found},
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

}  // namespace gallipot::reference
