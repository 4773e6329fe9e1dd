#include "domain/reference/premises.hpp"

#include "catch_all.hpp"

using namespace gallipot::reference;

// Ohio Revised Code 921.06 (A)(1)(d): child care centers, facilities of school districts, hospitals
// and medical facilities, food service operations and retail food establishments.
TEST_CASE("where only licensed operators may work", "[reference]") {
    for (const char* premises : {"childcare", "school", "care", "food business"}) {
        INFO(premises);
        REQUIRE(find_premises_rule(premises) != nullptr);
        CHECK(find_premises_rule(premises)->licensed_only);
    }
    // Rental properties of more than four units; buildings of a township or municipality, (b).
    for (const char* premises : {"flats", "hall"}) {
        INFO(premises);
        REQUIRE(find_premises_rule(premises) != nullptr);
        CHECK_FALSE(find_premises_rule(premises)->licensed_only);
        CHECK_FALSE(find_premises_rule(premises)->source.empty());
    }
    CHECK(find_premises_rule("home") == nullptr);
    CHECK(find_premises_rule("workshop") == nullptr);
    CHECK(find_premises_rule("") == nullptr);
}
