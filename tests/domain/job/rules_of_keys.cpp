#include "rules.hpp"

namespace gallipot::tests {

const std::vector<Rule>& rules_of_keys() {
    // Behind what a station says, and beside a container's fill.
    const auto station = [](const std::string& more) {
        return std::pair<std::string, std::string>("    container: cup\n",
                                                   "    container: cup\n    " + more + "\n");
    };
    const auto container = [](const std::string& more) {
        return std::pair<std::string, std::string>("fill: 45 mL", "fill: 45 mL, " + more);
    };
    const auto plan = [](const std::string& what) {
        return std::pair<std::string, std::string>("visits:", "floor_plan: " + what + "\nvisits:");
    };
    static const std::vector<Rule> rules = {
        {{{"title:", "by: ^''\ntitle:"}}, {"empty-value"}, "write by: Hall caretaker"},
        {{{"contact: { name: Keeper, phone: 02 5550 0100 }", "contact: ^Keeper"}},
         {"wrong-type"},
         "write it like { name: Hall caretaker, phone: (02) 5550 0142 }"},
        {{{"name: Keeper", "name: ^''"}}, {"empty-value"}, "write name: Hall caretaker"},
        {{{"  contact:", "  poison_centre: { name: Help, phone: ^[1] }\n  contact:"}},
         {"wrong-type"},
         "write phone: (02) 5550 0199"},
        {{{"title:", "log: ^here\ntitle:"}},
         {"wrong-type"},
         "write it like { address: http://192.168.1.20:8017 }"},
        {{{"title:", "log: { address: ^hall.example }\ntitle:"}},
         {"bad-address"},
         "write http://hall.example"},
        {{{"1/2 tsp]", "{ jug: ^500 g, marks: 25 mL }]"}}, {"wrong-unit"}, ""},
        {{{"1/2 tsp]", "{ syringe: ^2 L, marks: 1 mL }]"}}, {"out-of-bounds"}, ""},
        {{{"malt: { density: 1.4 g/mL }",
           "malt: { density: 1.4 g/mL }\n  tar: { density: { from: ^1.4, to: 1.5 g/mL } }"}},
         {"missing-unit"},
         "write 1.4 g/mL if grams per millilitre are meant"},
        {{{"against: ants", "against: ^[ants]"}}, {"wrong-type"}, "write against: ants"},
        {{{"ingredients: { borax: { as: boric acid, percent: 1 }, water: rest }",
           "ingredients: ^[borax]"}},
         {"wrong-type"},
         "write ingredients: { borax: 1, sugar: 20, water: rest }"},
        {{{"percent: 1 }", "percent: ^'1' }"}}, {"wrong-type"}, "write 1 without quotes"},
        {{{"percent: 1 }", "^parts: 1 }"}}, {"wrong-amount"}, "write percent: 1"},
        {{{"    lasts: 30 d", "    visits: ^1 d\n    lasts: 30 d"}},
         {"wrong-type"},
         "write visits: [1 d]"},
        {{{"containers:\n  cup: { holds: 60 mL, fill: 45 mL }", "containers: ^[cup]"},
          {"    container: cup", "    container: ^cup"}},
         {"wrong-type", "unknown-container"},
         "write containers: { cup: { holds: 60 mL, fill: 45 mL } }"},
        {{{"holds: 60 mL", "holds: ^60"}}, {"missing-unit"}, ""},
        {{container("body: { diameter: ^48, height: 44 mm }")},
         {"missing-unit"},
         "write 48 mm if millimetres are meant"},
        {{container("body: { diameter: 48 mm, height: ^4 m }")}, {"out-of-bounds"}, ""},
        {{container("openings: ^wide")}, {"bad-openings"}, ""},
        {{station("near: ^food")}, {"wrong-type"}, "write near: [food]"},
        {{station("near: [^foot]")}, {"bad-choice"}, "did you mean 'food'?"},
        {{station("at: ^[1]")}, {"wrong-type"}, "write at: [3.2, 1.1]"},
        {{station("floor: ^''")}, {"empty-value"}, "write floor: Ground floor"},
        {{{"control: true }", "control: true, against: ^'' }"}},
         {"empty-value"},
         "write against: ants"},
        {{{"visits: [1 d, 7 d]", "accept: ^little-bait\nvisits: [1 d, 7 d]"}},
         {"wrong-type"},
         "write accept: [little-bait]"},
        {{{"visits: [1 d, 7 d]", "accept: [^[a]]\nvisits: [1 d, 7 d]"}}, {"wrong-type"}, ""},
        {{{"    lasts: 30 d", "    accept: ^far-from-usual\n    lasts: 30 d"}}, {"wrong-type"}, ""},
        {{{"    lasts: 30 d", "    accept: [^x]\n    lasts: 30 d"}}, {"too-short"}, ""},
        {{station("accept: ^crystals")}, {"wrong-type"}, ""},
        {{station("accept: [^[crystals]]")}, {"wrong-type"}, ""},
        {{station("visits: ^1 d")}, {"wrong-type"}, "write visits: [1 d]"},
        {{station("visits: [^1]")}, {"missing-unit"}, "write 1 d if days are meant"},
        {{plan("^here")}, {"wrong-type"}, ""},
        {{plan("{ rooms: [^Kitchen] }")}, {"wrong-type"}, ""},
        {{plan("{ rooms: [{ name: ^'', outline: [[0, 0], [5, 0], [5, 4]] }] }")},
         {"empty-value"},
         "write name: Kitchen"},
        {{plan("{ rooms: [{ name: Kitchen, outline: ^[[0, 0]] }] }")}, {"too-few"}, ""},
        {{plan("{ rooms: [{ name: Kitchen, floor: ^[1], outline: [[0, 0], [5, 0], [5, 4]] }] }")},
         {"wrong-type"},
         "write floor: Ground floor"},
    };
    return rules;
}

}  // namespace gallipot::tests
