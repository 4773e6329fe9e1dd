#include "job_rows.hpp"

namespace gallipot::tests {
namespace {

constexpr auto fill = "fill: 1 fl oz";
constexpr auto placed = "placed: 2027-05-14 20:00";

/// What stands behind a key of the flat, replaced.
Hostile value(const std::string& was, const std::string& place, const std::string& code,
              const std::string& now) {
    const std::string key = was.substr(0, was.find(':') + 2);
    return {key + now.substr(0, 40), place, code,
            [was, with = key + now] { return flat(was, with); }};
}

Hostile filled(const std::string& code, const std::string& now) {
    return value(fill, "40:32", code, now);
}

Hostile counted(const std::string& code, const std::string& now) {
    return {"count: " + now, "43:86", code,
            [now] { return flat("container: cup, ", "container: cup, count: " + now + ", "); }};
}

}  // namespace

std::vector<Hostile> numbers_of_every_wrong_kind() {
    std::vector<Hostile> rows;
    for (const char* number :
         {"nan mL",      ".nan mL",        "NaN mL",    "inf mL",    ".inf mL",   "-.inf mL",
          "1e999 mL",    "1e3 mL",         "1e-400 mL", "0x1F mL",   "017 mL",    "-0 mL",
          "-1 mL",       "\u22121 mL",     "+1 mL",     "1_000 mL",  "1 000 mL",  "1'000 mL",
          "1. mL",       ".5 mL",          "1.2.3 mL",  "1/0 mL",    "0/1 mL",    "1/2/3 mL",
          "1\u20132 mL", "99999999999 mL", "\u0663 mL", "\uFF11 mL", "\u2460 mL", "true",
          "mL"})
        rows.push_back(filled("bad-number", number));
    rows.push_back(filled("bad-number", repeated("9", 30) + " mL"));
    rows.push_back(filled("bad-number", repeated("9", 50'000) + " mL"));
    rows.push_back(filled("bad-number", "0." + repeated("0", 50'000) + "1 mL"));
    rows.push_back(filled("decimal-comma", "\"1,5 mL\""));
    rows.push_back(filled("decimal-comma", "\"1,000 mL\""));
    rows.push_back(filled("missing-unit", "1,5 mL"));  // the comma ends the value there
    rows.push_back(filled("unknown-unit", "0o17 mL"));
    rows.push_back(filled("unknown-unit", "1 mL mL"));
    rows.push_back(filled("unknown-unit", "1\u00A0mL"));
    rows.push_back(filled("wrong-unit", "1 lb"));
    rows.push_back(filled("out-of-bounds", "0 mL"));
    rows.push_back(filled("out-of-bounds", "1 \u00B5L"));
    rows.push_back(filled("empty-value", "~"));
    rows.push_back(filled("wrong-type", "[1 mL]"));
    rows.push_back(filled("wrong-type", "{ mL: 1 }"));
    for (const char* number : {"-1", "1.5", "1e3", "nan", "several", "01", "999999999999"})
        rows.push_back(counted("bad-number", number));
    rows.push_back(counted("out-of-bounds", "0"));
    rows.push_back(counted("out-of-bounds", "1001"));
    rows.push_back(counted("empty-value", "~"));
    return rows;
}

std::vector<Hostile> dates_and_places_out_of_this_world() {
    constexpr auto prepared = "prepared: 2027-05-14";
    constexpr auto at = "at: [0.4, 2.1]";
    constexpr auto outline = "outline: [[0, 0], [3, 0], [3, 3], [0, 3]]";
    constexpr auto visits = "visits: [1 d, 4 d, 7 d, 14 d, 28 d]";
    std::vector<Hostile> rows;
    for (const char* day :
         {"0000-01-01", "9999-12-31", "99999-01-01", "-001-01-01", "1582-10-10", "2027-02-29",
          "2027-13-01", "2027-00-10", "2027-1-1", "2027/05/14", "14.05.2027", "20270514",
          "2027-05-14T00:00", "tomorrow", "\u0662\u0660\u0662\u0667-05-14"})
        rows.push_back(value(prepared, "3:11", "bad-date", day));
    for (const char* time : {"2027-05-14 24:00", "2027-05-14 23:60", "2027-05-14 8:00",
                             "2027-05-14 20", "2027-05-14 20:00+11:00"})
        rows.push_back(value(placed, "43:87", "bad-time", time));
    rows.push_back(value(placed, "43:87", "bad-date", "9999-12-31 23:59"));
    rows.push_back(value(at, "43:129", "wrong-type", "[0]"));
    rows.push_back(value(at, "43:129", "wrong-type", "[0, 0, 0]"));
    rows.push_back(value(at, "43:130", "bad-number", "[nan, 0]"));
    rows.push_back(value(at, "43:130", "bad-number", "[1e9, 0]"));
    rows.push_back(value(at, "43:130", "out-of-bounds", "[99999, 0]"));
    rows.push_back(value(outline, "50:33", "flat-room", "[[0, 0], [0, 0], [0, 0]]"));
    rows.push_back(value(outline, "50:33", "flat-room", "[[0, 0], [1, 1], [1, 0], [0, 1]]"));
    rows.push_back(value(outline, "50:33", "too-few", "[[0, 0], [1, 0]]"));
    rows.push_back(value(outline, "50:33", "too-many", "[" + repeated("[0, 0], ", 300) + "]"));
    rows.push_back(value(visits, "54:10", "bad-number", "[1e9 d]"));
    rows.push_back(value(visits, "54:10", "bad-number", "[-1 d]"));
    rows.push_back(value(visits, "54:10", "out-of-bounds", "[0 d]"));
    rows.push_back(value(visits, "54:10", "out-of-bounds", "[1827 d]"));
    rows.push_back(value(visits, "54:9", "too-many", "[" + repeated("1 d, ", 61) + "]"));
    return rows;
}

}  // namespace gallipot::tests
