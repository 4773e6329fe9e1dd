#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"

using gallipot::diag::nearest;

TEST_CASE("the nearest spelling") {
    const std::vector<std::string> keys = {"ingredients", "stations", "mix", "mixes",
                                           "measures",    "fill",     "mL",  "boric acid"};
    struct Case {
        std::string word, expected;
    };
    const auto c = GENERATE_REF(values<Case>({
        {"ingredient", "ingredients"},
        {"Ingredients", "ingredients"},  // letter case ignored
        {"ingerdients", "ingredients"},  // neighbours swapped: one edit
        {"mesaures", "measures"},
        {"mixs", "mix"},  // as near as "mixes": the first of them
        {"ml", "mL"},
        {"fil", "fill"},
        {"boricacid", "boric acid"},
        {"boric acids", "boric acid"},
        {"statns", "stations"},
        {"st", ""},  // half the word or more is no slip
        {"xyz", ""},
        {"ingr", ""},  // more than three edits
        {"", ""},
    }));
    INFO(c.word);
    CHECK(nearest(c.word, keys) == c.expected);
}

TEST_CASE("a huge word is no slip of the finger, and takes no time") {
    CHECK(nearest(std::string(4'000'000, 'a'), {std::string(4'000'000, 'a')}).empty());
}
