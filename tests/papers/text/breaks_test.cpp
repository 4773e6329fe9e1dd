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

TEST_CASE("no line ends inside a date", "[text]") {
    CHECK(broken("until 2 March 2027, at") == "until |2 March 2027, |at|");
    CHECK(broken("by 1 Apr") == "by |1 Apr|");
    CHECK(broken("until March 2, 2027 or") == "until |March 2, 2027 |or|");
    CHECK(broken("vom 1. September 2025 an", "de") == "vom |1. September 2025 |an|");
    CHECK(broken("hasta el 2 de marzo de 2027.", "es") == "hasta |el |2 de marzo de 2027.|");
    CHECK(broken("до 2 березня 2027 р. тут", "uk") == "до |2 березня 2027 р. |тут|");
    CHECK(broken("hanggang Marso 2, 2027 at", "fil") == "hanggang |Marso 2, 2027 |at|");
    // What only looks like one.
    CHECK(broken("2 containers") == "2 |containers|");
    CHECK(broken("you may 10") == "you |may |10|");
    CHECK(broken("12 de 20", "es") == "12 |de |20|");
    CHECK(broken("Monday, 2 March") == "Monday, |2 March|");
}
