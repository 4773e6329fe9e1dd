#include "web/form.hpp"

#include "catch_all.hpp"

#include "tracking/keys/link.hpp"

namespace gallipot::web {
namespace {

// WHATWG URL Standard, 5.1, application/x-www-form-urlencoded parsing.
TEST_CASE("form: fields as a browser sends them") {
    const Form form =
        Form::parse("seen=4&state=wet&state=dry&note=a+%26+b%0D%0A%C3%BC&by=").value();
    CHECK(form.value("seen") == "4");
    CHECK(form.values("state") == std::vector<std::string>{"wet", "dry"});
    CHECK(form.value("note") == "a & b\r\nü");
    CHECK(form.value("by").empty());
    CHECK(form.value("not there").empty());
    CHECK(form.values("not there").empty());
}

TEST_CASE("form: odd ones keep their meaning") {
    CHECK(Form::parse("")->value("a").empty());
    CHECK(Form::parse("&&a=1&&")->value("a") == "1");
    CHECK(Form::parse("a")->value("a").empty());
    CHECK(Form::parse("a=b=c")->value("a") == "b=c");
    CHECK(Form::parse("a=%")->value("a") == "%");
    CHECK(Form::parse("a=%4")->value("a") == "%4");
    CHECK(Form::parse("a=%zz")->value("a") == "%zz");
    CHECK(Form::parse("%61=%62")->value("a") == "b");
}

TEST_CASE("form: what is no text is refused") {
    CHECK_FALSE(Form::parse("a=%00"));
    CHECK_FALSE(Form::parse("a=%FF"));
    CHECK_FALSE(Form::parse("a=%C0%AF"));
    CHECK_FALSE(Form::parse("%ED%A0%80=1"));
    std::string many;
    for (std::size_t i = 0; i <= Form::most_fields; ++i) many += "a=1&";
    CHECK_FALSE(Form::parse(many));
}

TEST_CASE("form: percent encoding there and back") {
    CHECK(keys::percent_encoded("Zoë & co/+1~") == "Zo%C3%AB%20%26%20co%2F%2B1%7E");
    CHECK(percent_decoded(keys::percent_encoded("Zoë & co/+1~"), false) == "Zoë & co/+1~");
    CHECK(percent_decoded("a+b", false) == "a+b");
}

}  // namespace
}  // namespace gallipot::web
