#include "web/head.hpp"

#include "catch_all.hpp"

namespace gallipot::web {
namespace {

int status(HeaderFields fields, const std::string& method = "GET",
           const std::string& target = "/") {
    fields.insert(fields.begin(), {"Host", "127.0.0.1:8017"});
    const auto error = check_head(method, target, fields, 8192);
    return error ? error->status : 0;
}

int host_status(const HeaderFields& fields) {
    const auto error = check_head("GET", "/", fields, 8192);
    return error ? error->status : 0;
}

// RFC 9112: 3 (request line), 5 (fields), 6 (length of the body).
TEST_CASE("head: good ones pass") {
    CHECK(status({}) == 0);
    CHECK(status({{"Accept-Language", "de"}, {"content-length", "120"}}, "POST",
                 "/S/K1/7Q2M?try=1") == 0);
}

TEST_CASE("head: too much, and what we have no use for") {
    CHECK(status({{"Transfer-Encoding", "chunked"}}, "POST") == 501);
    CHECK(status({{"TRANSFER-ENCODING", "gzip"}}, "POST") == 501);
    CHECK(status({{"Content-Encoding", "gzip"}}, "POST") == 415);
    CHECK(status({{"A", std::string(8100, 'a')}}) == 0);
    CHECK(status({{"A", std::string(8200, 'a')}}) == 431);
    CHECK(status(HeaderFields(3000, {"A", "b"})) == 431);
}

TEST_CASE("head: what can be read in two ways, or in none") {
    CHECK(status({{"Content-Length", "1"}, {"content-length", "1"}}, "POST") == 400);
    CHECK(status({{"Content-Length ", "1"}}, "POST") == 400);
    CHECK(status({{"", "empty"}}) == 400);
    CHECK(status({{"A", "\x01"}}) == 400);
    CHECK(status({{"A", "b\nC: d"}}) == 400);
    CHECK(status({}, "G@T") == 400);
    CHECK(status({}, "") == 400);
    for (const char* target : {"http://example.org/", "*", "", "x", "/\x01"}) {
        INFO(target);
        CHECK(status({}, "GET", target) == 400);
    }
}

// RFC 9112, 3.2: "A server MUST respond with a 400 (Bad Request) status code to any HTTP/1.1
// request message that lacks a Host header field and to any request message that contains more than
// one Host header field line or a Host header field with an invalid field value." HTTP/1.0 is held
// to it too.
TEST_CASE("head: one good Host, not two, none or a malformed one") {
    CHECK(host_status({{"host", "log.example.org"}}) == 0);
    CHECK(host_status({}) == 400);
    CHECK(host_status({{"Host", "a"}, {"host", "a"}}) == 400);
    for (const char* bad : {"", "a b", "a,b", "user@a", "a:x", "http://a"}) {
        INFO(bad);
        CHECK(host_status({{"Host", bad}}) == 400);
    }
}

}  // namespace
}  // namespace gallipot::web
