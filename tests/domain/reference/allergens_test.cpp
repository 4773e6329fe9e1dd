#include "domain/reference/allergens.hpp"

#include "catch_all.hpp"

using gallipot::reference::names_peanut;

TEST_CASE("peanut is known by its word in every language of the papers") {
    for (const char* name :
         {"peanut butter", "PEANUT oil", "groundnut paste", "Erdnussbutter", "Erdnußmus",
          "mantequilla de cacahuete", "crema de cacahuate", "mantequilla de MANÍ", "mani",
          "dinurog na mani", "арахісова паста", "Арахіс"}) {
        INFO(name);
        CHECK(names_peanut(name));
    }
    for (const char* name : {"butter", "nutmeg", "coconut oil", "manioc flour", "sugar", ""}) {
        INFO(name);
        CHECK_FALSE(names_peanut(name));
    }
}
