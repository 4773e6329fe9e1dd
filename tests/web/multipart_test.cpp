#include "web/multipart.hpp"

#include "catch_all.hpp"

#include "multipart.hpp"
#include "web/form.hpp"

namespace gallipot::web {
namespace {

using tests::boundary;
using tests::multipart_type;

// The forms of the bodies are RFC 7578's and RFC 2046's, 5.1.1.
TEST_CASE("multipart: fields and files as a browser sends them") {
    const std::string body = tests::multipart(
        {{"seen", "4"}, {"state", "wet"}, {"state", "dry"}, {"note", "a & b\r\nü --\r\n"}},
        {std::string("\xFF\xD8\0\r\n--\r\n", 9), "second"});
    const Form form(body, multipart_type);
    CHECK_FALSE(form.damaged());
    CHECK(form.value("seen") == "4");
    CHECK(form.values("state") == std::vector<std::string>{"wet", "dry"});
    CHECK(form.value("note") == "a & b\r\nü --\r\n");
    CHECK(form.files("photo") ==
          std::vector<std::string_view>{std::string_view("\xFF\xD8\0\r\n--\r\n", 9), "second"});
    CHECK_FALSE(form.has("photo"));
}

TEST_CASE("multipart: where nothing was chosen there is no file") {
    const std::string body = tests::multipart({{"seen", "4"}}, {""});
    const Form form(body, multipart_type);
    CHECK_FALSE(form.damaged());
    CHECK(form.files("photo").empty());
}

TEST_CASE("multipart: odd ones keep their meaning") {
    const auto one = [](const std::string& head, const std::string& type = multipart_type) {
        const std::string body =
            "--" + boundary + "\r\n" + head + "\r\n\r\nv\r\n--" + boundary + "--\r\nepilogue";
        const Form form(body, type);
        return std::pair(form.damaged(), form.value("a"));
    };
    CHECK(one("content-DISPOSITION: form-data; name=a") == std::pair(false, std::string("v")));
    CHECK(one("X: y\r\nContent-Disposition: form-data;name=\"a\"") ==
          std::pair(false, std::string("v")));
    CHECK(one("Content-Disposition: form-data; x; name=\"a\"; y=z") ==
          std::pair(false, std::string("v")));
    CHECK(one("Content-Disposition: form-data; xname=\"b\"; name=\"a\"") ==
          std::pair(false, std::string("v")));
    CHECK(one("Content-Disposition: form-data; name=\"a\"",
              "Multipart/Form-Data; charset=utf-8; BOUNDARY=\"" + boundary + "\"") ==
          std::pair(false, std::string("v")));
    // No name, no disposition, no head at all: left out, and said so.
    CHECK(one("Content-Disposition: form-data").first);
    CHECK(one("X: y").first);
    CHECK(one("").first);
    // Text before the first delimiter says nothing.
    const std::string preamble = "hello\r\n" + tests::multipart({{"a", "v"}});
    CHECK(Form(preamble, multipart_type).value("a") == "v");
}

TEST_CASE("multipart: a boundary that is none") {
    const std::string body = tests::multipart({{"a", "v"}});
    for (const std::string& type :
         {std::string("multipart/form-data"), std::string("multipart/form-data; boundary="),
          std::string("multipart/form-data; boundary=\"\""),
          std::string("multipart/form-data; boundary=other"),
          "multipart/form-data; boundary=" + std::string(71, 'a')}) {
        const Form form(body, type);
        CHECK(form.damaged());
        CHECK(form.fields().empty());
    }
    CHECK(Form("", multipart_type).damaged());
    CHECK(Form("--" + boundary, multipart_type).damaged());
}

TEST_CASE("multipart: wherever it is cut, what came before is there and no half of a file") {
    const std::string photo(500, 'p');
    const std::string body = tests::multipart({{"seen", "4"}, {"note", "as typed"}}, {photo});
    const auto photo_at = body.find("name=\"photo\"");
    const auto end = body.rfind("--\r\n");
    for (std::size_t size = 0; size < body.size(); ++size) {
        CAPTURE(size);
        const std::string cut = body.substr(0, size);
        const Form form(cut, multipart_type);
        if (size >= photo_at) {
            REQUIRE(form.value("seen") == "4");
            REQUIRE(form.value("note") == "as typed");
        }
        for (const std::string_view file : form.files("photo")) REQUIRE(file == photo);
        REQUIRE(form.damaged() == (size < end + 2));
    }
}

TEST_CASE("multipart: very many parts, and very long heads") {
    std::vector<std::pair<std::string, std::string>> fields(1000, {"a", "v"});
    CHECK_FALSE(Form(tests::multipart(fields), multipart_type).damaged());
    fields.resize(5000, {"a", "v"});
    const Form many(tests::multipart(fields), multipart_type);
    CHECK(many.damaged());
    CHECK(many.fields().size() == Form::maximum_fields);
    const std::string files = tests::multipart({}, std::vector<std::string>(1000, "x"));
    const Form full(files, multipart_type);
    CHECK(full.damaged());
    CHECK(full.files("photo").size() == Form::maximum_files);
    const std::string long_head = "--" + boundary + "\r\nContent-Disposition: form-data; name=\"" +
                                  std::string(10'000, 'a') + "\"\r\n\r\nv\r\n--" + boundary +
                                  "--\r\n";
    CHECK(Form(long_head, multipart_type).damaged());
    CHECK(Form(long_head, multipart_type).fields().empty());
}

TEST_CASE("multipart: what is no text comes as with any form") {
    const Form form(tests::multipart({{"a", std::string("x\0y\xFF", 4)}}), multipart_type);
    CHECK(form.damaged());
    CHECK(form.value("a") == "xy\xEF\xBF\xBD");
}

}  // namespace
}  // namespace gallipot::web
