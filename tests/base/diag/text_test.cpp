#include "base/diag/text.hpp"

#include <stdexcept>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"
#include "base/diag/paint.hpp"

using namespace gallipot::diag;

namespace {

/// Spanish for a few patterns; the first has its places the other way round.
std::string_view spanish(std::string_view pattern) {
    if (pattern == "'{}' takes {}, not {}") return "{1}, y no {2}, lleva '{0}'";
    if (pattern == "a number") return "un número";
    if (pattern == "{} mL") return "{} mililitros";
    if (pattern == "a list") return "una lista {}";  // a place too many: of a user's own file
    if (pattern == "error:") return "error:";
    if (pattern == "fix:") return "solución:";
    if (pattern == "{} errors") return "{} errores";
    return {};
}

}  // namespace

TEST_CASE("a text of a pattern is what fmt makes of it") {
    CHECK(say("no places {}").english() == "no places {}");
    CHECK(say("'{}' is {}", "x", 3).english() == "'x' is 3");
    CHECK(say("{0:.0f} of {0:.0f} {1}", 2.5, std::string("b")).english() == "2 of 2 b");
    CHECK(say("0x{:02X}", 10u).english() == "0x0A");
    CHECK(say("write {{ {}: .. }}", std::string("en")).english() == "write { en: .. }");
    CHECK(say("{}", say("{} of {}", 1, 2)).english() == "1 of 2");
    CHECK(joined(std::vector<std::string>{"a", "b", "c"}, ", ").english() == "a, b, c");
    CHECK(joined(std::vector<std::string>{}, ", ").empty());
    CHECK(chained(std::vector<std::string>{"a", "b", "c"}, "{} or {}").english() == "a or b or c");
    CHECK(Text().empty());
    CHECK_THROWS_AS(Text("{} and {}", {Text("one")}), std::logic_error);
}

TEST_CASE("a text is said in another language, argument by argument") {
    CHECK(say("'{}' takes {}, not {}", std::string("fill"), "a number", say("{:.2g} mL", 1.26))
              .in(spanish) == "un número, y no 1.3 mililitros, lleva 'fill'");
    // What the user wrote is no word of ours, whatever it looks like.
    CHECK(Text(std::string("a number")).in(spanish) == "a number");
    CHECK(term(std::string("a number")).in(spanish) == "un número");
    // What the language lacks, and what cannot be put together, stays English.
    CHECK(say("{} is new", "a number").in(spanish) == "un número is new");
    CHECK(say("a list").in({}) == "a list");
    CHECK(Text("a list", {}).in(spanish) == "una lista {}");
    CHECK(chained(std::vector<Text>{"a number", "x"}, "{} or {}").in(spanish) == "un número or x");
}

TEST_CASE("a catalog with other places than the pattern leaves the message English") {
    const auto wrong = [](std::string_view) -> std::string_view { return "{} {} {}"; };
    CHECK(say("only {}", 1).in(wrong) == "only 1");
}

TEST_CASE("messages are printed in another language, code, place and line as they are") {
    const auto source = std::make_shared<const Source>(Source{"job.yaml", "fill: [1]\n"});
    Diagnostics found;
    found.error("wrong-type", {source, 1, 7, 3},
                say("'{}' takes {}, not {}", std::string("fill"), "a number", "a mapping"),
                "write it in one word");
    found.error("other", {}, "a number", "no other");
    CHECK(print(found, Paint{}, spanish) ==
          "job.yaml:1:7: error: un número, y no a mapping, lleva 'fill' [wrong-type]\n"
          "    1 | fill: [1]\n"
          "      |       ^~~\n"
          "  solución: write it in one word\n"
          "error: un número [other]\n"
          "  solución: no other\n"
          "2 errores\n");
    CHECK(print(found) == print(found, Paint{}, {}));
}
