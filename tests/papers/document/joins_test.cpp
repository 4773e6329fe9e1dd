#include "papers/document/joins.hpp"

#include "catch_all.hpp"

#include "papers/text/direction.hpp"
#include "scenario.hpp"

using namespace gallipot;
using document::Join;

TEST_CASE("pieces are put together with the marks of the language", "[joins]") {
    const auto english = tests::words_in("en"), french = tests::words_in("fr");
    CHECK(document::headed(english, "Kitchen") == "Kitchen:");
    CHECK(document::headed(french, "Cuisine") == "Cuisine\u00a0:");
    CHECK(document::headed(english, "Hall", "labels") == "Hall: labels");
    CHECK(document::headed(french, "Salle", "affiches") == "Salle\u00a0: affiches");
    CHECK(document::joined(english, Join::semicolon, {"a", "b", "c"}) == "a; b; c");
    CHECK(document::joined(french, Join::semicolon, {"a", "b", "c"}) == "a\u00a0; b\u00a0; c");
    CHECK(document::joined(french, Join::comma, {"K1", "K2"}) == "K1, K2");
    CHECK(document::joined(french, Join::comma, {}).empty());

    text::StyledText runs{{"Cuisine", true}};
    document::add_joined(runs, french, Join::semicolon, {{"Cour", true}});
    CHECK(text::plain(runs) == "Cuisine\u00a0; Cour");
    CHECK(runs.back().bold);
}

TEST_CASE("a sentence ends once", "[joins]") {
    const auto words = tests::words_in("en");
    CHECK(document::sentence(words, "DANGER") == "DANGER.");
    CHECK(document::sentence(words, "Wash hands.") == "Wash hands.");
    text::StyledText runs{{"Wash ", false}, {"hands", true}};
    document::end_sentence(runs, words);
    CHECK(text::plain(runs) == "Wash hands.");
    document::end_sentence(runs, words);
    CHECK(text::plain(runs) == "Wash hands.");
}

TEST_CASE("pieces that run from right to left do not turn each other round", "[joins]") {
    const auto words = tests::words_in("en");
    const std::string kitchen = "\u0645\u0637\u0628\u062e", yard = "\u0641\u0646\u0627\u0621";
    const std::string list = document::joined(words, Join::comma, {kitchen, "K1", yard});
    CHECK(list == text::isolated(kitchen, false) + ", K1, " + text::isolated(yard, false));
}
