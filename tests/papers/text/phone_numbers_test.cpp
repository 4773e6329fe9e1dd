#include "papers/text/phone_numbers.hpp"

#include "catch_all.hpp"

using namespace gallipot;

namespace {

std::vector<std::string> found(const std::string& text, const std::vector<std::string>& numbers) {
    std::vector<std::string> all;
    for (const auto& [at, words] : text::phones_in(text, numbers)) {
        CHECK(text.compare(at, words.size(), words) == 0);
        all.emplace_back(words);
    }
    return all;
}

using List = std::vector<std::string>;

}  // namespace

TEST_CASE("a link rings the digits of a number as written", "[phones]") {
    CHECK(text::phone_link("13 11 26") == "tel:131126");
    CHECK(text::phone_link("(02) 5550 0142") == "tel:0255500142");
    CHECK(text::phone_link("+49 30 23125 000") == "tel:+493023125000");
    CHECK(text::phone_link("javascript:alert(1)+") == "tel:1");
}

TEST_CASE("a short number is none inside a longer one", "[phones]") {
    CHECK(found("call 000 first", {"000"}) == List{"000"});
    CHECK(found("2\u00a0000\u00a0mL of water", {"000"}).empty());
    CHECK(found("12000 mL", {"000"}).empty());
    CHECK(found("0001 and 000\u00a01", {"000"}).empty());
    CHECK(found("+000", {"000"}).empty());
}

TEST_CASE("all numbers of a text are found in order, of two that begin alike the longer",
          "[phones]") {
    CHECK(found("13\u00a011\u00a026, 000, 13\u00a011\u00a026", {"000", "13 11 26", ""}) ==
          List{"13\u00a011\u00a026", "000", "13\u00a011\u00a026"});
    CHECK(found("112\u00a0(Berlin)", {"112", "112 (Berlin)"}) == List{"112\u00a0(Berlin)"});
    CHECK(found("", {"000"}).empty());
}
