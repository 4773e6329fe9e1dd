#include "domain/reference/regions.hpp"

#include <algorithm>
#include <array>
#include <cctype>

#include "base/diag/diagnostic.hpp"

namespace gallipot::reference {

namespace {

// ISO 3166-1 as of Debian's iso-codes 4.15.0 (found), its long forms shortened. The blocs are from
// memory: membership of the EU and the EEA in 2026, EU territories overseas that have codes of
// their own, and the US territories to which 7 U.S.C. 136(aa) extends the pesticide law.
constexpr std::array table{
    // clang-format off
    Region{"AD", "AND", "Andorra", Bloc::none},
    Region{"AE", "ARE", "United Arab Emirates", Bloc::none},
    Region{"AF", "AFG", "Afghanistan", Bloc::none},
    Region{"AG", "ATG", "Antigua and Barbuda", Bloc::none},
    Region{"AI", "AIA", "Anguilla", Bloc::none},
    Region{"AL", "ALB", "Albania", Bloc::none},
    Region{"AM", "ARM", "Armenia", Bloc::none},
    Region{"AO", "AGO", "Angola", Bloc::none},
    Region{"AQ", "ATA", "Antarctica", Bloc::none},
    Region{"AR", "ARG", "Argentina", Bloc::none},
    Region{"AS", "ASM", "American Samoa", Bloc::us},
    Region{"AT", "AUT", "Austria", Bloc::eu},
    Region{"AU", "AUS", "Australia", Bloc::none},
    Region{"AW", "ABW", "Aruba", Bloc::none},
    Region{"AX", "ALA", "Åland Islands", Bloc::eu},
    Region{"AZ", "AZE", "Azerbaijan", Bloc::none},
    Region{"BA", "BIH", "Bosnia and Herzegovina", Bloc::none},
    Region{"BB", "BRB", "Barbados", Bloc::none},
    Region{"BD", "BGD", "Bangladesh", Bloc::none},
    Region{"BE", "BEL", "Belgium", Bloc::eu},
    Region{"BF", "BFA", "Burkina Faso", Bloc::none},
    Region{"BG", "BGR", "Bulgaria", Bloc::eu},
    Region{"BH", "BHR", "Bahrain", Bloc::none},
    Region{"BI", "BDI", "Burundi", Bloc::none},
    Region{"BJ", "BEN", "Benin", Bloc::none},
    Region{"BL", "BLM", "Saint Barthélemy", Bloc::none},
    Region{"BM", "BMU", "Bermuda", Bloc::none},
    Region{"BN", "BRN", "Brunei Darussalam", Bloc::none},
    Region{"BO", "BOL", "Bolivia", Bloc::none},
    Region{"BQ", "BES", "Caribbean Netherlands", Bloc::none},
    Region{"BR", "BRA", "Brazil", Bloc::none},
    Region{"BS", "BHS", "Bahamas", Bloc::none},
    Region{"BT", "BTN", "Bhutan", Bloc::none},
    Region{"BV", "BVT", "Bouvet Island", Bloc::none},
    Region{"BW", "BWA", "Botswana", Bloc::none},
    Region{"BY", "BLR", "Belarus", Bloc::none},
    Region{"BZ", "BLZ", "Belize", Bloc::none},
    Region{"CA", "CAN", "Canada", Bloc::none},
    Region{"CC", "CCK", "Cocos (Keeling) Islands", Bloc::none},
    Region{"CD", "COD", "Congo (Democratic Republic)", Bloc::none},
    Region{"CF", "CAF", "Central African Republic", Bloc::none},
    Region{"CG", "COG", "Congo", Bloc::none},
    Region{"CH", "CHE", "Switzerland", Bloc::none},
    Region{"CI", "CIV", "Côte d'Ivoire", Bloc::none},
    Region{"CK", "COK", "Cook Islands", Bloc::none},
    Region{"CL", "CHL", "Chile", Bloc::none},
    Region{"CM", "CMR", "Cameroon", Bloc::none},
    Region{"CN", "CHN", "China", Bloc::none},
    Region{"CO", "COL", "Colombia", Bloc::none},
    Region{"CR", "CRI", "Costa Rica", Bloc::none},
    Region{"CU", "CUB", "Cuba", Bloc::none},
    Region{"CV", "CPV", "Cabo Verde", Bloc::none},
    Region{"CW", "CUW", "Curaçao", Bloc::none},
    Region{"CX", "CXR", "Christmas Island", Bloc::none},
    Region{"CY", "CYP", "Cyprus", Bloc::eu},
    Region{"CZ", "CZE", "Czechia", Bloc::eu},
    Region{"DE", "DEU", "Germany", Bloc::eu},
    Region{"DJ", "DJI", "Djibouti", Bloc::none},
    Region{"DK", "DNK", "Denmark", Bloc::eu},
    Region{"DM", "DMA", "Dominica", Bloc::none},
    Region{"DO", "DOM", "Dominican Republic", Bloc::none},
    Region{"DZ", "DZA", "Algeria", Bloc::none},
    Region{"EC", "ECU", "Ecuador", Bloc::none},
    Region{"EE", "EST", "Estonia", Bloc::eu},
    Region{"EG", "EGY", "Egypt", Bloc::none},
    Region{"EH", "ESH", "Western Sahara", Bloc::none},
    Region{"ER", "ERI", "Eritrea", Bloc::none},
    Region{"ES", "ESP", "Spain", Bloc::eu},
    Region{"ET", "ETH", "Ethiopia", Bloc::none},
    Region{"FI", "FIN", "Finland", Bloc::eu},
    Region{"FJ", "FJI", "Fiji", Bloc::none},
    Region{"FK", "FLK", "Falkland Islands (Malvinas)", Bloc::none},
    Region{"FM", "FSM", "Micronesia", Bloc::none},
    Region{"FO", "FRO", "Faroe Islands", Bloc::none},
    Region{"FR", "FRA", "France", Bloc::eu},
    Region{"GA", "GAB", "Gabon", Bloc::none},
    Region{"GB", "GBR", "United Kingdom", Bloc::uk},
    Region{"GD", "GRD", "Grenada", Bloc::none},
    Region{"GE", "GEO", "Georgia", Bloc::none},
    Region{"GF", "GUF", "French Guiana", Bloc::eu},
    Region{"GG", "GGY", "Guernsey", Bloc::none},
    Region{"GH", "GHA", "Ghana", Bloc::none},
    Region{"GI", "GIB", "Gibraltar", Bloc::none},
    Region{"GL", "GRL", "Greenland", Bloc::none},
    Region{"GM", "GMB", "Gambia", Bloc::none},
    Region{"GN", "GIN", "Guinea", Bloc::none},
    Region{"GP", "GLP", "Guadeloupe", Bloc::eu},
    Region{"GQ", "GNQ", "Equatorial Guinea", Bloc::none},
    Region{"GR", "GRC", "Greece", Bloc::eu},
    Region{"GS", "SGS", "South Georgia and the South Sandwich Islands", Bloc::none},
    Region{"GT", "GTM", "Guatemala", Bloc::none},
    Region{"GU", "GUM", "Guam", Bloc::us},
    Region{"GW", "GNB", "Guinea-Bissau", Bloc::none},
    Region{"GY", "GUY", "Guyana", Bloc::none},
    Region{"HK", "HKG", "Hong Kong", Bloc::none},
    Region{"HM", "HMD", "Heard Island and McDonald Islands", Bloc::none},
    Region{"HN", "HND", "Honduras", Bloc::none},
    Region{"HR", "HRV", "Croatia", Bloc::eu},
    Region{"HT", "HTI", "Haiti", Bloc::none},
    Region{"HU", "HUN", "Hungary", Bloc::eu},
    Region{"ID", "IDN", "Indonesia", Bloc::none},
    Region{"IE", "IRL", "Ireland", Bloc::eu},
    Region{"IL", "ISR", "Israel", Bloc::none},
    Region{"IM", "IMN", "Isle of Man", Bloc::none},
    Region{"IN", "IND", "India", Bloc::none},
    Region{"IO", "IOT", "British Indian Ocean Territory", Bloc::none},
    Region{"IQ", "IRQ", "Iraq", Bloc::none},
    Region{"IR", "IRN", "Iran", Bloc::none},
    Region{"IS", "ISL", "Iceland", Bloc::eea},
    Region{"IT", "ITA", "Italy", Bloc::eu},
    Region{"JE", "JEY", "Jersey", Bloc::none},
    Region{"JM", "JAM", "Jamaica", Bloc::none},
    Region{"JO", "JOR", "Jordan", Bloc::none},
    Region{"JP", "JPN", "Japan", Bloc::none},
    Region{"KE", "KEN", "Kenya", Bloc::none},
    Region{"KG", "KGZ", "Kyrgyzstan", Bloc::none},
    Region{"KH", "KHM", "Cambodia", Bloc::none},
    Region{"KI", "KIR", "Kiribati", Bloc::none},
    Region{"KM", "COM", "Comoros", Bloc::none},
    Region{"KN", "KNA", "Saint Kitts and Nevis", Bloc::none},
    Region{"KP", "PRK", "North Korea", Bloc::none},
    Region{"KR", "KOR", "South Korea", Bloc::none},
    Region{"KW", "KWT", "Kuwait", Bloc::none},
    Region{"KY", "CYM", "Cayman Islands", Bloc::none},
    Region{"KZ", "KAZ", "Kazakhstan", Bloc::none},
    Region{"LA", "LAO", "Laos", Bloc::none},
    Region{"LB", "LBN", "Lebanon", Bloc::none},
    Region{"LC", "LCA", "Saint Lucia", Bloc::none},
    Region{"LI", "LIE", "Liechtenstein", Bloc::eea},
    Region{"LK", "LKA", "Sri Lanka", Bloc::none},
    Region{"LR", "LBR", "Liberia", Bloc::none},
    Region{"LS", "LSO", "Lesotho", Bloc::none},
    Region{"LT", "LTU", "Lithuania", Bloc::eu},
    Region{"LU", "LUX", "Luxembourg", Bloc::eu},
    Region{"LV", "LVA", "Latvia", Bloc::eu},
    Region{"LY", "LBY", "Libya", Bloc::none},
    Region{"MA", "MAR", "Morocco", Bloc::none},
    Region{"MC", "MCO", "Monaco", Bloc::none},
    Region{"MD", "MDA", "Moldova", Bloc::none},
    Region{"ME", "MNE", "Montenegro", Bloc::none},
    Region{"MF", "MAF", "Saint Martin (French part)", Bloc::eu},
    Region{"MG", "MDG", "Madagascar", Bloc::none},
    Region{"MH", "MHL", "Marshall Islands", Bloc::none},
    Region{"MK", "MKD", "North Macedonia", Bloc::none},
    Region{"ML", "MLI", "Mali", Bloc::none},
    Region{"MM", "MMR", "Myanmar", Bloc::none},
    Region{"MN", "MNG", "Mongolia", Bloc::none},
    Region{"MO", "MAC", "Macao", Bloc::none},
    Region{"MP", "MNP", "Northern Mariana Islands", Bloc::us},
    Region{"MQ", "MTQ", "Martinique", Bloc::eu},
    Region{"MR", "MRT", "Mauritania", Bloc::none},
    Region{"MS", "MSR", "Montserrat", Bloc::none},
    Region{"MT", "MLT", "Malta", Bloc::eu},
    Region{"MU", "MUS", "Mauritius", Bloc::none},
    Region{"MV", "MDV", "Maldives", Bloc::none},
    Region{"MW", "MWI", "Malawi", Bloc::none},
    Region{"MX", "MEX", "Mexico", Bloc::none},
    Region{"MY", "MYS", "Malaysia", Bloc::none},
    Region{"MZ", "MOZ", "Mozambique", Bloc::none},
    Region{"NA", "NAM", "Namibia", Bloc::none},
    Region{"NC", "NCL", "New Caledonia", Bloc::none},
    Region{"NE", "NER", "Niger", Bloc::none},
    Region{"NF", "NFK", "Norfolk Island", Bloc::none},
    Region{"NG", "NGA", "Nigeria", Bloc::none},
    Region{"NI", "NIC", "Nicaragua", Bloc::none},
    Region{"NL", "NLD", "Netherlands", Bloc::eu},
    Region{"NO", "NOR", "Norway", Bloc::eea},
    Region{"NP", "NPL", "Nepal", Bloc::none},
    Region{"NR", "NRU", "Nauru", Bloc::none},
    Region{"NU", "NIU", "Niue", Bloc::none},
    Region{"NZ", "NZL", "New Zealand", Bloc::none},
    Region{"OM", "OMN", "Oman", Bloc::none},
    Region{"PA", "PAN", "Panama", Bloc::none},
    Region{"PE", "PER", "Peru", Bloc::none},
    Region{"PF", "PYF", "French Polynesia", Bloc::none},
    Region{"PG", "PNG", "Papua New Guinea", Bloc::none},
    Region{"PH", "PHL", "Philippines", Bloc::none},
    Region{"PK", "PAK", "Pakistan", Bloc::none},
    Region{"PL", "POL", "Poland", Bloc::eu},
    Region{"PM", "SPM", "Saint Pierre and Miquelon", Bloc::none},
    Region{"PN", "PCN", "Pitcairn", Bloc::none},
    Region{"PR", "PRI", "Puerto Rico", Bloc::us},
    Region{"PS", "PSE", "Palestine", Bloc::none},
    Region{"PT", "PRT", "Portugal", Bloc::eu},
    Region{"PW", "PLW", "Palau", Bloc::none},
    Region{"PY", "PRY", "Paraguay", Bloc::none},
    Region{"QA", "QAT", "Qatar", Bloc::none},
    Region{"RE", "REU", "Réunion", Bloc::eu},
    Region{"RO", "ROU", "Romania", Bloc::eu},
    Region{"RS", "SRB", "Serbia", Bloc::none},
    Region{"RU", "RUS", "Russia", Bloc::none},
    Region{"RW", "RWA", "Rwanda", Bloc::none},
    Region{"SA", "SAU", "Saudi Arabia", Bloc::none},
    Region{"SB", "SLB", "Solomon Islands", Bloc::none},
    Region{"SC", "SYC", "Seychelles", Bloc::none},
    Region{"SD", "SDN", "Sudan", Bloc::none},
    Region{"SE", "SWE", "Sweden", Bloc::eu},
    Region{"SG", "SGP", "Singapore", Bloc::none},
    Region{"SH", "SHN", "Saint Helena, Ascension and Tristan da Cunha", Bloc::none},
    Region{"SI", "SVN", "Slovenia", Bloc::eu},
    Region{"SJ", "SJM", "Svalbard and Jan Mayen", Bloc::none},
    Region{"SK", "SVK", "Slovakia", Bloc::eu},
    Region{"SL", "SLE", "Sierra Leone", Bloc::none},
    Region{"SM", "SMR", "San Marino", Bloc::none},
    Region{"SN", "SEN", "Senegal", Bloc::none},
    Region{"SO", "SOM", "Somalia", Bloc::none},
    Region{"SR", "SUR", "Suriname", Bloc::none},
    Region{"SS", "SSD", "South Sudan", Bloc::none},
    Region{"ST", "STP", "Sao Tome and Principe", Bloc::none},
    Region{"SV", "SLV", "El Salvador", Bloc::none},
    Region{"SX", "SXM", "Sint Maarten (Dutch part)", Bloc::none},
    Region{"SY", "SYR", "Syria", Bloc::none},
    Region{"SZ", "SWZ", "Eswatini", Bloc::none},
    Region{"TC", "TCA", "Turks and Caicos Islands", Bloc::none},
    Region{"TD", "TCD", "Chad", Bloc::none},
    Region{"TF", "ATF", "French Southern Territories", Bloc::none},
    Region{"TG", "TGO", "Togo", Bloc::none},
    Region{"TH", "THA", "Thailand", Bloc::none},
    Region{"TJ", "TJK", "Tajikistan", Bloc::none},
    Region{"TK", "TKL", "Tokelau", Bloc::none},
    Region{"TL", "TLS", "Timor-Leste", Bloc::none},
    Region{"TM", "TKM", "Turkmenistan", Bloc::none},
    Region{"TN", "TUN", "Tunisia", Bloc::none},
    Region{"TO", "TON", "Tonga", Bloc::none},
    Region{"TR", "TUR", "Türkiye", Bloc::none},
    Region{"TT", "TTO", "Trinidad and Tobago", Bloc::none},
    Region{"TV", "TUV", "Tuvalu", Bloc::none},
    Region{"TW", "TWN", "Taiwan", Bloc::none},
    Region{"TZ", "TZA", "Tanzania", Bloc::none},
    Region{"UA", "UKR", "Ukraine", Bloc::none},
    Region{"UG", "UGA", "Uganda", Bloc::none},
    Region{"UM", "UMI", "United States Minor Outlying Islands", Bloc::us},
    Region{"US", "USA", "United States", Bloc::us},
    Region{"UY", "URY", "Uruguay", Bloc::none},
    Region{"UZ", "UZB", "Uzbekistan", Bloc::none},
    Region{"VA", "VAT", "Vatican City", Bloc::none},
    Region{"VC", "VCT", "Saint Vincent and the Grenadines", Bloc::none},
    Region{"VE", "VEN", "Venezuela", Bloc::none},
    Region{"VG", "VGB", "Virgin Islands (British)", Bloc::none},
    Region{"VI", "VIR", "Virgin Islands (US)", Bloc::us},
    Region{"VN", "VNM", "Vietnam", Bloc::none},
    Region{"VU", "VUT", "Vanuatu", Bloc::none},
    Region{"WF", "WLF", "Wallis and Futuna", Bloc::none},
    Region{"WS", "WSM", "Samoa", Bloc::none},
    Region{"YE", "YEM", "Yemen", Bloc::none},
    Region{"YT", "MYT", "Mayotte", Bloc::eu},
    Region{"ZA", "ZAF", "South Africa", Bloc::none},
    Region{"ZM", "ZMB", "Zambia", Bloc::none},
    Region{"ZW", "ZWE", "Zimbabwe", Bloc::none},
    // clang-format on
};

struct Habit {
    std::string_view written, meant;
};
constexpr std::array habits{Habit{"UK", "GB"},       Habit{"EN", "GB"},     Habit{"EL", "GR"},
                            Habit{"SP", "ES"},       Habit{"JA", "JP"},     Habit{"ENGLAND", "GB"},
                            Habit{"SCOTLAND", "GB"}, Habit{"WALES", "GB"},  Habit{"USA", "US"},
                            Habit{"AMERICA", "US"},  Habit{"HOLLAND", "NL"}};

std::string upper(std::string_view text) {
    std::string out(text);
    std::transform(out.begin(), out.end(), out.begin(),
                   [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
    return out;
}

}  // namespace

std::span<const Region> regions() {
    return table;
}

const Region* find_region(std::string_view code) {
    const auto at =
        std::lower_bound(table.begin(), table.end(), code,
                         [](const Region& r, std::string_view c) { return r.code < c; });
    return at != table.end() && at->code == code ? &*at : nullptr;
}

std::vector<const Region*> near_regions(std::string_view word) {
    const std::string wanted = upper(word);
    for (const Habit& habit : habits) {
        if (habit.written == wanted) return {find_region(habit.meant)};
    }
    std::vector<std::string> names;
    for (const Region& region : table) {
        if (region.code == wanted || region.alpha_3 == wanted || upper(region.name) == wanted) {
            return {&region};
        }
        names.emplace_back(region.name);
    }
    const std::string near = diag::nearest(word, names);
    std::vector<const Region*> out;
    for (const Region& region : table) {
        if (!near.empty() && region.name == near) out.push_back(&region);
    }
    return out;
}

}  // namespace gallipot::reference
