#include "web/form.hpp"

#include "catch_all.hpp"

#include "tracking/keys/link.hpp"

namespace gallipot::web {
namespace {

// WHATWG URL Standard, 5.1, application/x-www-form-urlencoded parsing.
TEST_CASE("form: fields as a browser sends them") {
    const Form form("seen=4&state=wet&state=dry&note=a+%26+b%0D%0A%C3%BC&by=");
    CHECK_FALSE(form.damaged());
    CHECK(form.value("seen") == "4");
    CHECK(form.values("state") == std::vector<std::string>{"wet", "dry"});
    CHECK(form.value("note") == "a & b\r\nü");
    CHECK(form.value("by").empty());
    CHECK(form.value("not there").empty());
    CHECK(form.values("not there").empty());
}

TEST_CASE("form: odd ones keep their meaning") {
    CHECK(Form("").value("a").empty());
    CHECK(Form("&&a=1&&").value("a") == "1");
    CHECK(Form("a").value("a").empty());
    CHECK(Form("a=b=c").value("a") == "b=c");
    CHECK(Form("a=%").value("a") == "%");
    CHECK(Form("a=%4").value("a") == "%4");
    CHECK(Form("a=%zz").value("a") == "%zz");
    CHECK(Form("%61=%62").value("a") == "b");
}

TEST_CASE("form: of a damaged one, what can be read") {
    for (const char* bad : {"a=%00", "a=%FF", "a=%C0%AF", "%ED%A0%80=1"})
        CHECK(Form(bad).damaged());
    CHECK(Form("note=before%FFafter&seen=9").value("note") ==
          "before\xEF\xBF\xBD"
          "after");
    CHECK(Form("note=before%00after&seen=9").value("note") == "beforeafter");
    CHECK(Form("note=before%FFafter&seen=9").value("seen") == "9");
    std::string many = "seen=9";
    for (std::size_t i = 1; i < Form::maximum_fields; ++i) many += "&a=1";
    CHECK_FALSE(Form(many).damaged());
    const Form too_many(many + "&a=1");
    CHECK(too_many.damaged());
    CHECK(too_many.value("seen") == "9");
    CHECK(too_many.fields().size() == Form::maximum_fields);
}

TEST_CASE("form: percent encoding there and back") {
    CHECK(keys::percent_encoded("Zoë & co/+1~") == "Zo%C3%AB%20%26%20co%2F%2B1%7E");
    CHECK(percent_decoded(keys::percent_encoded("Zoë & co/+1~"), false) == "Zoë & co/+1~");
    CHECK(percent_decoded("a+b", false) == "a+b");
}

}  // namespace
}  // namespace gallipot::web
