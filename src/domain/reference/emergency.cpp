#include "domain/reference/emergency.hpp"

#include <algorithm>
#include <array>

#include "domain/reference/regions.hpp"

namespace gallipot::reference {

namespace {

constexpr Provenance found = Provenance::found;
constexpr Provenance memory = Provenance::memory;

constexpr std::chrono::year_month_day day(int y, unsigned m, unsigned d) {
    return {std::chrono::year{y}, std::chrono::month{m}, std::chrono::day{d}};
}

const Number eu_emergency{
    "112", found, "112.hu, 112 in the EU (all member states, Switzerland); news.lt, 2009-02-12",
    day(2009, 2, 12)};

// The federal Poison Help line; the page names the places its centres serve, and says to call 911
// for who has fainted or cannot breathe.
constexpr std::string_view us_pages = "poisonhelp.hrsa.gov";
const Number us_emergency{"911", found, us_pages};

constexpr std::string_view french = "centres-antipoison.net";
constexpr std::string_view laender = "rtl.de, 2019-11-13; de.wikibooks.org, Erste Hilfe/Giftnotruf";

// All read in stored copies of the pages named, in November 2026. The day beside a number is the
// one that the page itself gives; a month alone counts from its first day. Pages without one leave
// it open, whatever the age of the copy.
const std::array table{
    EmergencyHelp{
        .region = "AS",
        .centre = "Poison Help",
        .phone = Number{"1-800-222-1222", found,
                        "samoanews.com, Nebraska Regional Poison Center; poisonhelp.hrsa.gov"},
        .hours = "24/7",
        .emergency = us_emergency,
    },
    EmergencyHelp{
        .region = "AT",
        .centre = "Vergiftungsinformationszentrale",
        .phone = Number{"01 406 43 43", found, "gesundheit.gv.at, Vergiftungsinformationszentrale",
                        day(2021, 10, 20)},
        .hours = "24/7",
        .emergency = Number{"112", found, "gesundheit.gv.at, Vergiftungsinformationszentrale",
                            day(2021, 10, 20)},
    },
    EmergencyHelp{
        .region = "AU",
        .centre = "Poisons Information Centre",
        .phone = Number{"13 11 26", found,
                        "poisonsinfo.health.qld.gov.au; healthywa.wa.gov.au, Poisoning first aid",
                        day(2023, 8, 1)},
        .hours = "24/7",
        .emergency = Number{"000", found, "ambulance.qld.gov.au, Calling an ambulance"},
        .animal_centre = "Animal Poisons Helpline",
        .animal_phone =
            Number{"1300 869 738", found,
                   "animalpoisons.com.au; begadistrictnews.com.au, 2024-06-25", day(2024, 6, 25)},
    },
    EmergencyHelp{
        .region = "BR",
        .centre = "Disque-Intoxicação",
        .phone =
            Number{"0800 722 6001", found,
                   "mg.gov.br, service page on poisonings; ultimosegundo.ig.com.br, 2025-10-01",
                   day(2025, 10, 1)},
        .emergency = Number{"192", found, "mg.gov.br, service page on poisonings (SAMU)"},
        .note = "the 2025 report found calls that did not connect in several states",
    },
    EmergencyHelp{
        .region = "CA",
        .centre = "Poison centre",
        .phone = Number{"1-844-764-7669", found, "aboutkidshealth.ca; ctvnews.ca, 2023-03",
                        day(2023, 3, 1)},
        .hours = "24/7",
        .by_area = {{"Quebec", {"1-800-463-5060", found, "ciusss-capitalenationale.gouv.qc.ca"}}},
        .emergency = Number{"911", found, "aboutkidshealth.ca"},
        .note = "in Nunavut ring the local public health unit",
    },
    EmergencyHelp{
        .region = "CH",
        .centre = "Tox Info Suisse",
        .phone = Number{"145", found, "vitagate.ch, Notfallnummer 145; de.wikibooks.org"},
        .hours = "24/7",
        .emergency = eu_emergency,
    },
    EmergencyHelp{
        // Each Land has its own. The one at Homburg closed on 31 March 2021:
        // uniklinikum-saarland.de;
        // its land is served from Mainz since: unimedizin-mainz.de. That Mainz serves the three
        // Laender: rhein-zeitung.de, 2025-11-21; its number: mkuem.rlp.de and as above.
        .region = "DE",
        .centre = "Giftinformationszentrum",
        .hours = "24/7",
        .by_area = {{"Berlin (BE, BB)", {"030 19240", found, laender, day(2019, 11, 13)}},
                    {"Bonn (NW)", {"0228 19240", found, laender, day(2019, 11, 13)}},
                    {"Erfurt (MV, SN, ST, TH)",
                     {"0361 730730", found, "ms.sachsen-anhalt.de, 30 years of the centre; rtl.de",
                      day(2019, 11, 13)}},
                    {"Freiburg (BW)", {"0761 19240", found, laender, day(2019, 11, 13)}},
                    {"Göttingen (HB, HH, NI, SH)",
                     {"0551 19240", found, laender, day(2019, 11, 13)}},
                    {"Mainz (HE, RP, SL)",
                     {"06131 19240", found,
                      "unimedizin-mainz.de, uniklinikum-saarland.de, both of March 2021",
                      day(2021, 3, 30)}},
                    {"München (BY)", {"089 19240", found, laender, day(2019, 11, 13)}}},
    },
    EmergencyHelp{
        .region = "ES",
        .centre = "Servicio de Información Toxicológica",
        .phone = Number{"91 562 04 20", found, "telecinco.es, 2023-06-10; laregion.es, 2014-04-23",
                        day(2023, 6, 10)},
        .hours = "24/7",
    },
    EmergencyHelp{
        .region = "FI",
        .centre = "Myrkytystietokeskus",
        .phone = Number{"0800 147 111", found, "terveyskyla.fi, emergency hub", day(2021, 5, 1)},
        .hours = "24/7",
    },
    EmergencyHelp{
        .region = "FR",
        .centre = "Centres antipoison (ORFILA)",
        .phone = Number{"01 45 42 59 59", found, "centres-antipoison.net"},
        .hours = "24/7",
        .by_area = {{"Angers", {"02 41 48 21 21", found, french}},
                    {"Bordeaux", {"05 56 96 40 80", found, french}},
                    {"Lille", {"08 00 59 59 59", found, french}},
                    {"Lyon", {"04 72 11 69 11", found, french}},
                    {"Marseille", {"04 91 75 25 25", found, french}},
                    {"Nancy", {"03 83 22 50 50", found, french}},
                    {"Paris", {"01 40 05 48 48", found, french}},
                    {"Toulouse", {"05 61 77 74 47", found, french}}},
        .emergency = Number{"15", found, "centres-antipoison.net (SAMU)"},
        .note = "for the whole country; nearer ones",
    },
    EmergencyHelp{
        .region = "GB",
        .centre = "NHS 111",
        .phone = Number{"111", found, "npis.org, box for the public"},
        .emergency = Number{"999", found,
                            "richmondgpalliance.co.uk, the NHS page on poisoning as syndicated"},
        .note = "in Northern Ireland ring a GP or a pharmacist",
    },
    EmergencyHelp{
        .region = "GU",
        .centre = "Poison Help",
        .phone = Number{"1-800-222-1222", found,
                        "ohsu.edu, Oregon Poison Center (Oregon and Guam), week of 15 March 2026",
                        day(2026, 3, 15)},
        .hours = "24/7",
        .emergency = us_emergency,
    },
    EmergencyHelp{
        .region = "IE",
        .centre = "Public Poisons Information Line",
        .phone = Number{"01 809 2166", found, "poisons.ie, What we do"},
        .hours = "08:00-22:00",
        .note = "outside these hours ring a doctor or the emergency number",
    },
    EmergencyHelp{
        .region = "IN",
        .centre = "National Poisons Information Centre, AIIMS New Delhi",
        .phone = Number{"1800 116 117", memory, "recalled; looked for and not found"},
        .by_area = {{"West Bengal", {"1800 345 0033", found, "aitcofficial.org"}}},
        .emergency = Number{"112", memory, "recalled"},
    },
    EmergencyHelp{
        .region = "IT",
        .centre = "Centro antiveleni",
        .by_area = {{"Roma, Policlinico Gemelli", {"06 3054343", found, "policlinicogemelli.it"}},
                    {"Milano, Niguarda", {"02 66101029", memory, "recalled"}},
                    {"Pavia, Maugeri", {"0382 24444", memory, "recalled"}},
                    {"Roma, Bambino Gesù", {"06 68593726", memory, "recalled"}}},
        .note = "there are about ten",
    },
    EmergencyHelp{
        .region = "MX",
        .centre = "Centro de información toxicológica (SINTOX)",
        .phone = Number{"800 009 2800", memory, "recalled; looked for and not found"},
        .emergency = Number{"911", memory, "recalled"},
    },
    EmergencyHelp{
        .region = "NL",
        .centre = "Huisarts of huisartsenpost",
        .note = "the national centre takes calls from professionals only (nvic.umcutrecht.nl); the "
                "public rings its own doctor (huisarts) or the out-of-hours post",
    },
    EmergencyHelp{
        .region = "NZ",
        .centre = "National Poisons Centre",
        .phone = Number{"0800 764 766", found, "poisons.co.nz; otago.custhelp.com, answer 2481",
                        day(2021, 11, 3)},
        .hours = "24/7",
        .emergency = Number{"111", found, "stjohn.org.nz, first aid library, Poisoning"},
        .animal_centre = "Animal Poisons Helpline",
        .animal_phone = Number{"0800 869 738", found, "animalpoisons.com.au"},
    },
    EmergencyHelp{
        .region = "PH",
        .centre = "National Poison Management and Control Center, UP-PGH",
        .phone =
            Number{"(02) 8524-1078", found, "findhealthclinics.com, copy of the centre's own page"},
        .emergency = Number{"911", found, "mb.com.ph, 2025-09-12 (Unified 911)", day(2025, 9, 12)},
        .note = "from a mobile 0966 718 9904",
    },
    EmergencyHelp{
        .region = "PR",
        .centre = "Centro de Control de Envenenamiento",
        .phone =
            Number{"1-800-222-1222", found,
                   "ocpipr.blogspot.com, 2016-03-30; poisonhelp.hrsa.gov/es", day(2016, 3, 30)},
        .hours = "24/7",
        .emergency = us_emergency,
    },
    EmergencyHelp{
        .region = "UA",
        .emergency = Number{"103", found, "kokl.ua; interfax.com.ua, 2013-07-11", day(2013, 7, 11)},
    },
    EmergencyHelp{
        .region = "US",
        .centre = "Poison Help",
        .phone =
            Number{"1-800-222-1222", found,
                   "poisonhelp.hrsa.gov; ohsu.edu, Oregon Poison Center, week of 15 March 2026",
                   day(2026, 3, 15)},
        .hours = "24/7",
        .emergency = us_emergency,
    },
    EmergencyHelp{
        .region = "VI",
        .centre = "Poison Help",
        .phone = Number{"1-800-222-1222", found,
                        "V.I. Department of Health in stjohntradewinds.com, March 2022",
                        day(2022, 3, 20)},
        .hours = "24/7",
    },
    EmergencyHelp{
        .region = "ZA",
        .centre = "Poisons Information Helpline of the Western Cape",
        .phone = Number{"0861 555 777", found, "westerncape.gov.za; health.uct.ac.za"},
        .hours = "24/7",
        .emergency = Number{"10177", found,
                            "trekmedics.org, South Africa; heraldlive.co.za, "
                            "2023-04-14",
                            day(2023, 4, 14)},
        .note = "from a mobile 112 reaches an ambulance too",
    },
};

}  // namespace

std::span<const EmergencyHelp> emergency_help() {
    return table;
}

const EmergencyHelp* find_emergency_help(std::string_view region) {
    const auto at = std::lower_bound(
        table.begin(), table.end(), region,
        [](const EmergencyHelp& help, std::string_view code) { return help.region < code; });
    return at != table.end() && at->region == region ? &*at : nullptr;
}

std::optional<Number> emergency_number(std::string_view region) {
    const EmergencyHelp* help = find_emergency_help(region);
    if (help != nullptr && help->emergency) return help->emergency;
    const Region* place = find_region(region);
    if (place != nullptr && place->bloc == Bloc::eu) return eu_emergency;
    return std::nullopt;
}

bool is_old(const Number& number, std::chrono::year_month_day today) {
    constexpr std::chrono::years kept{2};
    if (!number.shown_on) return true;
    // Two years after a 29 February is the day after the 28th.
    return std::chrono::sys_days(*number.shown_on + kept) < std::chrono::sys_days(today);
}

}  // namespace gallipot::reference
