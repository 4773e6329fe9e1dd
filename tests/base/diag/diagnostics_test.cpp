#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"

using namespace gallipot::diag;

namespace {

SourcePtr file(const std::string& name) {
    return std::make_shared<const Source>(Source{name, "one\ntwo\n"});
}

std::vector<std::string> codes(const Diagnostics& found) {
    std::vector<std::string> result;
    for (const Diagnostic& d : found.in_order()) result.push_back(d.code);
    return result;
}

}  // namespace

TEST_CASE("diagnostics come in file order, what has no place last") {
    const SourcePtr a = file("a.yaml");
    const SourcePtr b = file("b.yaml");
    Diagnostics found;
    found.error("nowhere", {}, "m", "h");
    found.warning("a2:9", {a, 2, 9, 1}, "m", "h");
    found.error("b1:1", {b, 1, 1, 1}, "m", "h");
    found.error("a-whole", {a, 0, 0, 1}, "m", "h");
    found.error("a2:3", {a, 2, 3, 1}, "m", "h");
    found.error("a1:5", {a, 1, 5, 1}, "m", "h");
    found.error("a1:5-too", {a, 1, 5, 1}, "m", "h");
    CHECK(codes(found) == std::vector<std::string>{"a1:5", "a1:5-too", "a2:3", "a2:9", "a-whole",
                                                   "b1:1", "nowhere"});
    CHECK(found.errors() == 6);
    CHECK(found.warnings() == 1);
    CHECK(found.has_errors());
}

TEST_CASE("warnings alone are no errors") {
    Diagnostics found;
    CHECK_FALSE(found.has_errors());
    found.warning("w", {}, "m", "h");
    CHECK_FALSE(found.has_errors());
    CHECK(found.warnings() == 1);
}

TEST_CASE("the same finding at the same place counts once") {
    const SourcePtr a = file("a.yaml");
    Diagnostics found;
    for (int i = 0; i < 3; ++i) found.error("c", {a, 2, 3, 1}, "m", "h");
    found.error("c", {a, 2, 3, 1}, "another message", "h");
    found.error("c", {a, 2, 4, 1}, "m", "h");
    CHECK(found.errors() == 3);
    CHECK(found.in_order().size() == 3);
}

TEST_CASE("a diagnostic without code, message or hint is a bug") {
    Diagnostics found;
    CHECK_THROWS_AS(found.error("", {}, "m", "h"), std::logic_error);
    CHECK_THROWS_AS(found.error("c", {}, "", "h"), std::logic_error);
    CHECK_THROWS_AS(found.warning("c", {}, "m", ""), std::logic_error);
    CHECK(found.errors() + found.warnings() == 0);
}

TEST_CASE("a flood of errors is counted but not kept") {
    const SourcePtr a = file("a.yaml");
    Diagnostics found;
    const int many = static_cast<int>(Diagnostics::kept) + 500;
    for (int i = 1; i <= many; ++i) found.error("c", {a, i, 1, 1}, "m", "h");
    CHECK(found.errors() == Diagnostics::kept + 500);
    CHECK(found.in_order().size() == Diagnostics::kept);

    Diagnostics all;
    all.warning("w", {a, 1, 1, 1}, "m", "h");
    all.append(found);
    CHECK(all.errors() == Diagnostics::kept + 500);
    CHECK(all.warnings() == 1);
}
