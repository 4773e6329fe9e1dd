#include "rules.hpp"

namespace gallipot::tests {

namespace {

/// More keys for station K1.
Rule more(const std::string& text, const std::vector<std::string>& codes,
          const std::string& hint = "") {
    return {{{"    container: cup\n", "    container: cup\n    " + text + "\n"}}, codes, hint};
}
/// One more station at the end.
Rule another(const std::string& text, const std::vector<std::string>& codes,
             const std::string& hint = "") {
    return {{{"visits:", "  - " + text + "\nvisits:"}}, codes, hint};
}
Rule id(const std::string& text, const std::vector<std::string>& codes,
        const std::string& hint = "") {
    return {{{"id: K1", "id: " + text}}, codes, hint};
}

const std::string two_floors =
    "floor_plan:\n  rooms:\n    - { name: A, floor: Up, outline: [[0, 0], [5, 0], [5, 4]] }\n"
    "    - { name: B, floor: Down, outline: [[0, 0], [5, 0], [5, 4]] }\nvisits:";

}  // namespace

const std::vector<Rule>& rules_of_stations() {
    static const std::vector<Rule> rules = {
        // ids
        id("a-1-B2", {}),
        id("ABCDEFGHIJKL", {}),
        id("7", {}),
        id("^ABCDEFGHIJKLM", {"too-long"}),
        id("^K 1", {"bad-id"}, "write id: K1"),
        id("^K_1", {"bad-id"}),
        id("^K.1", {"bad-id"}),
        id("^\xC3\x84"
           "1",
           {"bad-id"}),
        id("^-K1", {"bad-id"}),
        id("^K1-", {"bad-id"}),
        id("^K--1", {"bad-id"}),
        id("^''", {"empty-value"}),
        id("^[K1]", {"wrong-type"}),
        another("{ id: ^K1, place: X, control: true }", {"duplicate-id"},
                "give each station an id of its own; letter case makes no difference"),
        another("{ id: ^k1, place: X, control: true }", {"duplicate-id"}),
        {{{"    container: cup\n", "    container: cup\n    count: 2\n"},
          {"visits:", "  - { id: ^k1-2, place: X, control: true }\nvisits:"}},
         {"duplicate-id"},
         "give this station another id"},
        {{{"    container: cup\n", "    container: cup\n    count: 2\n"},
          {"visits:", "  - { id: K1-3, place: X, control: true }\nvisits:"}},
         {},
         ""},
        {{{"    container: cup\n", "    container: cup\n    count: 2\n"},
          {"visits:", "  - { id: K1-02, place: X, control: true }\nvisits:"}},
         {},
         ""},
        another("{ id: K1-1, place: X, control: true }", {}),  // K1 is one container, not numbered
        // in the other order
        {{{"  - id: K1\n", "  - { id: ^K1-1, place: X, control: true }\n  - id: K1\n"},
          {"    container: cup\n", "    container: cup\n    count: 2\n"}},
         {"duplicate-id"},
         ""},
        // names that are not there
        {{{"    mix: syrup", "    mix: ^syrop"}}, {"unknown-mix"}, "did you mean 'syrup'?"},
        {{{"    mix: syrup", "    mix: ^zzz"}}, {"unknown-mix"}, "name one of: syrup, timber"},
        {{{"    container: cup", "    container: ^cap"}},
         {"unknown-container"},
         "did you mean 'cup'?"},
        {{{"containers:\n  cup: { holds: 60 mL, fill: 45 mL }\n", ""},
          {"    container: cup", "    container: ^cup"}},
         {"unknown-container"},
         "add it under containers"},
        // what belongs together
        {{{"    mix: syrup\n", ""}, {"id: K1", "id: ^K1"}},
         {"missing-key"},
         "add mix: and the name of a mix, or control: true"},
        {{{"    container: cup\n", ""}, {"id: K1", "id: ^K1"}},
         {"missing-key"},
         "add container: with the name of one for a bait, or area: for a sprayed surface"},
        more("^area: 6 m2", {"misplaced-key"}),
        {{{"    mix: syrup", "    mix: ^timber"}},
         {"wrong-form"},
         "name another mix, or give the station an area"},
        {{{"    mix: timber", "    mix: ^syrup"}},
         {"wrong-form"},
         "name a mix with form: spray, or give the station a container"},
        {{{"    area: 6 m2", "    area: 6 m2\n    ^count: 2"}}, {"misplaced-key"}, ""},
        more("^coats: 2", {"misplaced-key"}, "take it out"),
        more("^against: ants", {"misplaced-key"}, "take it out"),
        another("{ id: C2, place: X, control: true, against: ants }", {}),
        another("{ id: C2, place: X, control: true, ^mix: syrup, ^container: cup }",
                {"misplaced-key", "misplaced-key"}, "take out mix, or take out control"),
        another("{ id: C2, place: X, control: true, ^area: 1 m2, ^coats: 2, ^count: 2 }",
                {"misplaced-key", "misplaced-key", "misplaced-key"}),
        another("{ id: C2, place: X, control: true, near: [rain], coldest: 2 C, placed: 2027-03-02 "
                "10:00 }",
                {}),
        another("{ id: ^C2, place: X, control: false }", {"missing-key", "missing-key"}),
        another("^Kitchen", {"wrong-type"}),
        {{{"visits:", "  ^-\nvisits:"}}, {"empty-value"}, ""},
        // single values
        more("count: ^0", {"out-of-bounds"}),
        more("count: ^1001", {"out-of-bounds"}, "write a value between 1 and 1000"),
        more("count: 1000", {}),
        more("room: Kitchen", {}),
        more("room: { en: Kitchen, es: Cocina }", {}),
        more("room: ^[Kitchen]", {"wrong-type"}),
        more("room: ^'" + std::string(41, 'x') + "'", {"too-long"}),
        more("near: [rain, ^rian]", {"bad-choice"}, "did you mean 'rain'?"),
        more("near: [^kids, ^cat, ^Dogs, ^drain, ^heater]",
             {"bad-choice", "bad-choice", "bad-choice", "bad-choice", "bad-choice"},
             "did you mean 'children'?"),
        more("near: [^cat]", {"bad-choice"}, "did you mean 'pets'?"),
        more("near: [^Dogs]", {"bad-choice"}, "did you mean 'pets'?"),
        more("near: [^drain]", {"bad-choice"}, "did you mean 'water'?"),
        more("near: [^heater]", {"bad-choice"}, "did you mean 'heat'?"),
        more("near: [^moon]", {"bad-choice"}),
        more("near: [rain, ^rain]", {"duplicate-name"}),
        more("near: ^rain", {"wrong-type"}, "write near: [rain]"),
        more("visits: [1 d, ^1 d]", {"visit-order"}),
        more("at: ^3.2", {"wrong-type"}, "write at: [3.2, 1.1]"),
        more("at: [3.2, ^'1.1']", {"wrong-type"}),
        more("at: [^3.2 m, 1]", {"unit-not-wanted"}, "write 3.2"),
        more("at: ^[1, 2, 3]", {"wrong-type"}),
        {{{"    area: 6 m2", "    area: 6 m2\n    coats: ^11"}}, {"out-of-bounds"}, ""},
        {{{"    area: 6 m2", "    area: ^0 m2"}}, {"out-of-bounds"}, ""},
        // floors
        {{{"visits:", two_floors},
          {"    container: cup\n", "    container: cup\n    at: ^[1, 1]\n"}},
         {"missing-key"},
         "add floor: Up"},
        {{{"visits:", two_floors},
          {"    container: cup\n", "    container: cup\n    at: [1, 1]\n    floor: ^Dwn\n"}},
         {"unknown-floor"},
         "did you mean 'Down'?"},
        {{{"visits:", two_floors},
          {"    container: cup\n", "    container: cup\n    at: [1, 1]\n    floor: Down\n"}},
         {},
         ""},
        // the list itself
        {{{"stations:\n  - id: K1", "stations: ^[]\nx:\n  - id: K1"}, {"\nx:", "\n^x:"}},
         {"too-few", "unknown-key"},
         ""},
        {{{"mixes:\n", "^mixed:\n"}, {"title:", "^title:"}},
         {"missing-key", "unknown-key"},
         "add mixes:, with a name and what goes into each"},
        {{{"mixes:\n", "mixes: ^{}\nnotes:\n"}, {"\nnotes", "\n^notes"}},
         {"missing-key", "unknown-key"},
         "add mixes:, with a name and what goes into each"},
    };
    return rules;
}

const std::vector<Rule>& rules_of_advice() {
    static const std::vector<Rule> rules = {
        {{{"measures: [1 tbsp, 1/2 tsp]\n", ""}, {"title: Weir", "title: ^Weir"}},
         {"no-measures"},
         ""},
        {{{"measures: [1 tbsp, 1/2 tsp]\n", "measures: []\n"}, {"title: Weir", "title: ^Weir"}},
         {"no-measures"},
         ""},
        {{{"  - { id: C1, place: Yard, control: true }\n", ""}, {"title: Weir", "title: ^Weir"}},
         {"no-control"},
         ""},
        {{{"  contact: { name: Keeper, phone: 02 5550 0100 }\n", ""},
          {"region: AU", "region: ^AU"}},
         {"no-contact"},
         ""},
        {{{"title:", "languages: [en, es, de, uk, fil, ^it]\ntitle:"},
          {"title: Weir", "title: ^Weir"}},
         {"many-languages", "mixed-languages", "mixed-languages", "mixed-languages",
          "mixed-languages", "mixed-languages"},
         ""},
        {{{"visits: [1 d, 7 d]", "visits: []"}, {"title: Weir", "title: ^Weir"}},
         {"no-visits"},
         ""},
        {{{"containers:\n", "containers:\n  ^jar: { holds: 1 L, fill: 500 mL }\n"}},
         {"unused"},
         ""},
        {{{"mixes:\n",
           "mixes:\n  ^x: { title: A, against: b, form: dry, basis: parts by mass, ingredients: { "
           "borax: 1 }, lasts: 1 d }\n"}},
         {"unused"},
         ""},
        {{{"    lasts: 30 d\n", ""}, {"  syrup:\n", "  ^syrup:\n"}},
         {"no-lasts"},
         "add lasts: with how long it stays good"},
        // 48 mm x 20 mm is 36 mL outside
        {{{"fill: 45 mL", "fill: 45 mL, body: ^{ diameter: 48 mm, height: 20 mm }"}},
         {"small-body"},
         ""},
        more("near: [^food]", {"near-food"}),
        {{{"fill: 45 mL", "fill: 45 mL, openings: open top"},
          {"    container: cup\n", "    container: cup\n    near: [children, pets, ^rain, sun]\n"}},
         {"open-near"},
         "use a container with side holes, or move it under cover"},
        {{{"fill: 45 mL", "fill: 45 mL, openings: 4 side holes of 6 mm"},
          {"    container: cup\n", "    container: cup\n    near: [children, pets, rain]\n"}},
         {},
         ""},
        more("placed: ^2027-03-01 19:30", {"placed-early"}),
        more("placed: 2027-03-02 00:00", {}),
        more("placed: 2027-04-01 19:30", {}),  // thirty days on the day
        more("placed: ^2027-04-02 19:30", {"placed-late"}),
        more("at: ^[1, 2]", {"no-plan"}),
        more("floor: ^Ground", {"no-plan"}),
        // texts in one language only, for papers in two
        {{{"title: Weir", "languages: [en, es]\ntitle: ^Weir"}},
         {"mixed-languages"},
         "write one for each language, like { en: .., es: .. }; a name that stays the same is "
         "written in both"},
        {{{"title: Weir Street Hall", "languages: [en]\ntitle: ^{ es: Sala }"}},
         {"mixed-languages"},
         "write each in 'en' too, like { en: .. }; a name that stays the same is written again"},
        // what is near
        more("near: [^plants, ^water, ^sockets]", {"near-plants", "near-water", "near-sockets"}),
        {{{"    area: 6 m2", "    area: 6 m2\n    near: [^sockets]"}},
         {"near-sockets"},
         "switch the circuit off at the board and cover them, or leave that part out"},
        {{{"  - { id: C1, place: Yard, control: true }",
           "  - { id: C1, place: Yard, control: true, near: [plants, water, sockets] }"}},
         {},
         ""},
        {{{"fill: 45 mL", "fill: 45 mL, openings: open top"},
          {"    container: cup\n", "    container: cup\n    locked: true\n    near: [children]\n"}},
         {},
         ""},
        // the building
        {{{"title:", "premises: ^flats\ntitle:"}},
         {"licence"},
         "ask the authority first, and write its answer under asked: { whom: .., on: .., answer: "
         ".. }"},
        {{{"title:", "premises: ^hall\ntitle:"}}, {"licence"}, ""},
        {{{"title:", "premises: home\ntitle:"}}, {}, ""},
        {{{"title:", "premises: workshop\ntitle:"}}, {}, ""},
        {{{"title:",
           "premises: flats\nasked: { whom: State, on: 2027-02-20, answer: may be }\ntitle:"}},
         {},
         ""},
        // a liquid is looked at each week
        {{{"visits: [1 d, 7 d]", "visits: [^1 d, 9 d]"}},
         {"visits-far-apart"},
         "plan a visit for each week that it stands"},
        {{{"visits: [1 d, 7 d]", "visits: [^8 d]"}}, {"visits-far-apart"}, ""},
        {{{"visits: [1 d, 7 d]", "visits: [1 d, 8 d, 15 d, 22 d, 29 d]"}}, {}, ""},
        {{{"visits: [1 d, 7 d]", "visits: [1 d, 9 d]"}, {"form: liquid", "form: paste"}}, {}, ""},
        more("visits: [^2 d, 12 d]", {"visits-far-apart"}),
        // no sprays as long as the bait stands: 30 d
        {{{"visits: [1 d", "no_sprays_for: ^29 d\nvisits: [1 d"}},
         {"no-sprays-too-short"},
         "write no_sprays_for: 30 d, or leave it out: then it lasts as long as each bait"},
        {{{"visits: [1 d", "no_sprays_for: 30 d\nvisits: [1 d"}}, {}, ""},
    };
    return rules;
}

}  // namespace gallipot::tests
