#include "catch_all.hpp"

#include "papers/text/catalog.hpp"

using namespace gallipot;

namespace {

/// The text with | where a line may end and ! where it must, the end included.
std::string broken(const std::string& text, const std::string& language = "en") {
    std::string shown;
    std::size_t done = 0;
    for (const auto& at : text::line_breaks(text, language)) {
        shown += text.substr(done, at.offset - done) + (at.mandatory ? "!" : "|");
        done = at.offset;
    }
    return shown + text.substr(done);
}

}  // namespace

TEST_CASE("lines break where UAX 14 lets them", "[text]") {
    CHECK(broken("") == "");
    CHECK(broken("Keep away") == "Keep |away|");
    CHECK(broken("one\ntwo") == "one\n!two|");
    CHECK(broken("3.2\u00A0g of borax") == "3.2\u00A0g |of |borax|");
    CHECK(broken("K1-2, K2") == "K1-2, |K2|");
    CHECK(broken("well-known") == "well-|known|");
    // Offsets are bytes, wherever characters take more than one.
    CHECK(broken("Проти мурах", "uk") == "Проти |мурах|");
    CHECK(broken("a\u200Bb") == "a\u200B|b|");
    CHECK(broken("蟻の餌", "ja") == "蟻|の|餌|");
}

TEST_CASE("broken bytes do not break the line breaker", "[text]") {
    const std::string text = "a \xFF\xC3 b";
    std::size_t last = 0;
    for (const auto& at : text::line_breaks(text, "en")) {
        CHECK(at.offset > last);
        last = at.offset;
    }
    CHECK(last == text.size());
}
