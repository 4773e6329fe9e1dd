#include "rules.hpp"

namespace gallipot::tests {

namespace {

/// The syrup's ingredients, its limits taken out.
Rule ingredients(const std::string& text, const std::vector<std::string>& codes,
                 const std::string& hint = "") {
    return {{{"ingredients: { borax: 1, malt: 20, water: rest }\n    limits: { borax: 1.5 }",
              "ingredients: " + text}},
            codes,
            hint};
}
/// The same on another basis.
Rule ingredients_on(const std::string& basis, const std::string& text,
                    const std::vector<std::string>& codes, const std::string& hint = "") {
    Rule rule = ingredients(text, codes, hint);
    rule.changes.insert(rule.changes.begin(), {"basis: percent w/w", "basis: " + basis});
    return rule;
}
Rule limits(const std::string& text, const std::vector<std::string>& codes,
            const std::string& hint = "") {
    return {{{"limits: { borax: 1.5 }", "limits: " + text}}, codes, hint};
}

}  // namespace

const std::vector<Rule>& rules_of_mixes() {
    static const std::vector<Rule> rules = {
        {{{"  syrup:",
           "  ^'my syrup': { title: A, against: b, form: dry, basis: parts by mass, ingredients: { "
           "borax: 1 }, lasts: 1 d }\n  syrup:"},
          {"    mix: syrup\n", "    mix: my syrup\n"},
          {"  syrup:", "  ^syrup:"}},
         {"bad-id"},
         ""},
        {{{"  timber:", "  ^SYRUP:"}, {"mix: timber", "mix: SYRUP"}},
         {"duplicate-name"},
         "give each mix a name of its own"},
        {{{"    title: Syrup\n", ""}, {"    against: ants", "    ^against: ants"}},
         {"missing-key"},
         "add title: with what the papers call it"},
        {{{"    basis: percent w/w\n", ""}, {"    title: Syrup", "    ^title: Syrup"}},
         {"missing-key"},
         "add basis: with one of parts by volume, parts by mass, percent w/w, percent w/v, percent "
         "v/v, as measured; or give every amount its unit"},
        // names
        ingredients("{ ^borx: 1, malt: 20, water: rest }", {"unknown-ingredient"},
                    "did you mean 'borax'?"),
        ingredients("{ borax: 1, ^mald: 20, water: rest }", {"unknown-ingredient"},
                    "did you mean 'malt'?"),
        ingredients("{ borax: { as: ^borate, percent: 1 }, malt: 20, water: rest }",
                    {"unknown-substance"}, "name the borate that is meant"),
        ingredients("{ borax: { as: ^boric, percent: 1 }, malt: 20, water: rest }",
                    {"unknown-substance"}, "did you mean 'boric acid'?"),
        ingredients("{ borax: 1, ^unobtainium: 20, water: rest }", {"unknown-ingredient"},
                    "add it to supplies with its density, as scooped or poured"),
        ingredients("{ Borax: 1, water: rest }", {}),
        ingredients("{ borax decahydrate: 1, sucrose: 10, water: rest }", {}),
        ingredients("{ borax: 1, ^BORAX: 1, water: rest }", {"duplicate-name"},
                    "write it once, with the amount that the recipe says"),
        ingredients("{ borax: 1, ^borax: 1, water: rest }", {"duplicate-key"}),
        ingredients("^[borax]", {"wrong-type"}, "write a mapping of names behind ingredients:"),
        ingredients("^{}", {"too-few"}),
        // amounts
        ingredients("{ borax: ^0, water: rest }", {"out-of-bounds"},
                    "look it up again where the recipe comes from"),
        ingredients("{ borax: ^-1, water: rest }", {"bad-number"}),
        ingredients("{ borax: ^a lot, water: rest }", {"unit-not-wanted"}),
        ingredients("{ ^borax: , water: rest }", {"empty-value"}),
        ingredients("{ borax: ^[1], water: rest }", {"wrong-type"}),
        ingredients("{ borax: 1/2, water: rest }", {}),
        // totals
        ingredients("^{ borax: 1, malt: 20 }", {"bad-total"},
                    "look the amounts up again; where one only fills it up, write rest for that"),
        ingredients("^{ borax: 1, malt: 20, water: 80 }", {"bad-total"},
                    "look the amounts up again; where they are parts, say so as the basis"),
        ingredients("{ borax: 1, malt: 20, water: 79 }", {}),
        ingredients("{ borax: 0.1, malt: 0.2, water: 99.7 }",
                    {}),  // 0.1 + 0.2 is not 0.3 in binary
        ingredients("^{ borax: 0.1, malt: 0.2, water: 99.70001 }", {"bad-total"}),
        ingredients("{ borax: 50, malt: 50, ^water: rest }", {"bad-total"},
                    "look the amounts up again where the recipe comes from"),
        ingredients("{ borax: 1, malt: rest, water: ^rest }", {"two-rests"},
                    "write rest for one ingredient only"),
        // 70 % as boric acid is 108 % of borax: molar masses give 381.4 / (4 x 61.83).
        ingredients("{ borax: { as: boric acid, percent: 70 }, ^water: rest }", {"bad-total"}),
        ingredients("{ borax: { as: boric acid, percent: 60 }, water: rest }", {}),
        ingredients_on("percent v/v", "^{ malt: 20, water: 79 }", {"bad-total"}),
        ingredients_on("percent w/v", "^{ borax: 1, malt: 99 }", {"missing-rest"},
                       "write rest for the one that fills it up"),
        ingredients_on("percent w/v", "{ borax: 1, malt: 99, water: rest }", {}),
        ingredients_on("parts by volume", "{ borax: 1, malt: 50 }", {}),
        ingredients_on("parts by volume", "{ borax: 1, malt: ^rest }", {"rest-in-parts"}),
        ingredients_on("parts by mass", "{ borax: 1, water: ^rest }", {"rest-in-parts"},
                       "write how many parts it is"),
        ingredients_on("parts by mass", "{ borax: ^0, water: 50 }", {"out-of-bounds"}),
        // stated as another borate
        ingredients("{ borax: { as: ^boric acdi, percent: 1 }, water: rest }",
                    {"unknown-substance"}, "did you mean 'boric acid'?"),
        ingredients("{ borax: { as: ^sugar, percent: 1 }, water: rest }", {"not-a-borate"}),
        ingredients("{ malt: { as: ^boric acid, percent: 1 }, water: rest }", {"not-a-borate"},
                    "write its amount without 'as'"),
        ingredients("{ borax: ^{ as: boric acid }, water: rest }", {"missing-key"},
                    "add percent: and how much it is"),
        ingredients("{ borax: ^{ percent: 1 }, water: rest }", {"missing-key"},
                    "add as: with a text"),
        ingredients("{ borax: { as: boric acid, ^parts: 1 }, water: rest }", {"wrong-amount"},
                    "say how many percent it is"),
        ingredients("{ borax: { as: boric acid, percent: ^200 }, water: rest }", {"out-of-bounds"}),
        ingredients("{ borax: ^{ ^af: boric acid, percent: 1 }, water: rest }",
                    {"missing-key", "unknown-key"}),
        ingredients_on("parts by mass", "{ borax: { as: boric acid, parts: 1 }, water: 50 }", {}),
        ingredients_on("parts by mass", "{ borax: { as: boric acid, ^percent: 1 }, water: 50 }",
                       {"wrong-amount"}, "say how many parts it is"),
        ingredients_on("parts by volume", "{ borax: { as: ^boric acid, parts: 1 }, water: 50 }",
                       {"as-by-volume"}),
        ingredients_on("percent v/v", "{ borax: { as: ^boric acid, percent: 1 }, water: rest }",
                       {"as-by-volume"}),
        // a ready-made product of 5 % takes twenty times as much
        {{{"malt: { density: 1.4 g/mL }",
           "malt: { density: 1.4 g/mL, strength: { of: boric acid, percent: 5 } }"},
          {"{ borax: 1, malt: 20, water: rest }",
           "{ borax: 1, malt: { as: boric acid, percent: 2 }, water: rest }"}},
         {},
         ""},
        {{{"malt: { density: 1.4 g/mL }",
           "malt: { density: 1.4 g/mL, strength: { of: boric acid, percent: 5 } }"},
          {"{ borax: 1, malt: 20, water: rest }",
           "{ borax: 1, malt: { as: boric acid, percent: 6 }, ^water: rest }"}},
         {"bad-total"},
         ""},
        {{{"malt: { density: 1.4 g/mL }",
           "malt: { density: 1.4 g/mL, strength: { of: sugar, percent: 5 } }"},
          {"{ borax: 1, malt: 20, water: rest }",
           "{ borax: 1, malt: { as: ^boric acid, percent: 6 }, water: rest }"}},
         {"not-a-borate"},
         ""},
        // amounts with units
        ingredients_on("as measured", "{ borax: 1 1/2 tbsp, malt: 100 g, water: 2 cups }", {}),
        ingredients_on("as measured", "{ borax: ^1, malt: 100 g, water: 2 cups }", {"missing-unit"},
                       "write how much of it there is, with its unit"),
        ingredients_on("as measured", "{ borax: ^1 %, malt: 100 g, water: 2 cups }",
                       {"missing-unit"}),
        ingredients_on("as measured", "{ borax: 1 tbsp, malt: 100 g, water: ^rest }",
                       {"rest-in-parts"}, "write how much of it there is, with its unit"),
        ingredients_on("as measured", "{ borax: ^1 tbs, water: 2 cups }", {"unknown-unit"},
                       "use mL, L, tsp, tbsp, cup, fl oz, g, kg, oz or lb"),
        ingredients_on("as measured", "{ borax: ^1 m, water: 2 cups }", {"wrong-unit"}),
        ingredients_on("as measured", "{ borax: ^1 pt, water: 2 cups }", {"ambiguous-unit"}),
        ingredients_on("as measured", "{ borax: ^[1], water: 2 cups }", {"wrong-type"}),
        ingredients_on("as measured", "{ borax: { as: ^boric acid, percent: 1 }, water: 2 cups }",
                       {"as-measured-out"}),
        ingredients("{ borax: ^1 tbsp, malt: 20, water: rest }", {"unit-not-wanted"}),
        ingredients("{ borax: ^1 %, malt: 20, water: rest }", {"unit-not-wanted"}, "write 1"),
        ingredients_on("parts by mass", "{ borax: ^1 %, water: 99 }", {"unit-not-wanted"},
                       "say how much it is in parts by mass"),
        {{{"    basis: percent w/w\n", ""},
          {"ingredients: { borax: 1, malt: 20, water: rest }\n    limits: { borax: 1.5 }",
           "ingredients: { borax: 1 tsp, malt: 20 g, water: 1 cup }\n    batch: as written"}},
         {},
         ""},
        {{{"    basis: percent w/w\n", ""},
          {"ingredients: { borax: 1, malt: 20, water: rest }\n    limits: { borax: 1.5 }",
           "ingredients: { borax: 1 tsp, malt: 20 g, water: 1 cup }\n    limits: { borax: ^5 }"}},
         {"limit-in-parts"},
         "say which percent it is: % w/w, % w/v or % v/v behind the number"},
        {{{"    lasts: 30 d", "    batch: ^as written\n    lasts: 30 d"}},
         {"batch-of-what"},
         "write batch: as a volume, or leave it out"},
        {{{"    lasts: 30 d", "    batch: ^3 times\n    lasts: 30 d"}}, {"batch-of-what"}, ""},
        {{{"    lasts: 30 d", "    batch: 2 cups\n    ^makes: 2 cups\n    lasts: 30 d"}},
         {"batch-and-makes"},
         "keep the one that is meant"},
        {{{"    lasts: 30 d", "    makes: 2 cups\n    lasts: 30 d"}}, {}, ""},
        {{{"    lasts: 30 d", "    makes: ^2\n    lasts: 30 d"}}, {"missing-unit"}, ""},
        {{{"    lasts: 30 d", "    makes: ^as written\n    lasts: 30 d"}}, {"bad-number"}, ""},
        ingredients("{ ^boric: 1, water: rest }", {"unknown-ingredient"},
                    "did you mean 'boric acid'?"),
        {{{"as: boric acid", "as: ^boric"}}, {"unknown-substance"}, "did you mean 'boric acid'?"},
        // limits
        limits("{ borax: 1.5 % w/w }", {}),
        limits("{ borax: 1.5 % w/v }", {}),
        limits("{ borax: ^x % w/v }", {"bad-number"}),
        limits("{ ^borx: 1.5 }", {"unknown-ingredient"}, "did you mean 'borax'?"),
        limits("{ ^sugar: 1.5 }", {"unknown-ingredient"}, "name one of its ingredients"),
        limits("{ borax: ^0.5 }", {"bad-limit"},
               "look up where the recipe comes from which of the two is wrong, and correct it"),
        limits("{ borax: 1 }", {}),
        limits("{ ^water: 90 }", {"bad-limit"}, "limit another ingredient"),
        limits("{ borax: ^1.5 % }", {"unit-not-wanted"}, "write 1.5"),
        limits("^[borax]", {"wrong-type"}),
        {{{"basis: percent w/w", "basis: parts by mass"},
          {"malt: 20, water: rest", "malt: 20, water: 79"},
          {"{ borax: 1.5 }", "{ borax: ^1.5 }"}},
         {"limit-in-parts"},
         ""},
        // the rest of a mix
        {{{"    lasts: 30 d", "    lasts: 30 d\n    tolerance: ^0 %"}}, {"out-of-bounds"}, ""},
        {{{"    lasts: 30 d", "    lasts: 30 d\n    vessel: ^1 kg"}}, {"wrong-unit"}, ""},
        {{{"    lasts: 30 d", "    lasts: 30 d\n    batch: ^750"}}, {"missing-unit"}, ""},
        {{{"    lasts: 30 d", "    lasts: 30 d\n    visits: [1 d, ^1 h]"}}, {"visit-order"}, ""},
        {{{"  syrup:\n", "  bad: ^5\n  syrup:\n"}}, {"wrong-type"}, ""},
    };
    return rules;
}

}  // namespace gallipot::tests
