#include "web/head.hpp"

#include <string>

#include "catch_all.hpp"

namespace gallipot::web {
namespace {

Head check(const std::string& lines, std::size_t most = 16384) {
    return check_head(lines + "\r\n\r\n", most);
}

// RFC 9112: 3 (request line), 5 (fields), 6 (length of the body).
TEST_CASE("head: good ones pass with the length of their body") {
    CHECK(check("GET /S/K1/7Q2MX4KD9A HTTP/1.1\r\nHost: a").status == 0);
    CHECK(check("GET / HTTP/1.0").status == 0);
    const Head post = check("POST /S HTTP/1.1\r\nHost: a\r\ncontent-length:  120 ");
    CHECK(post.status == 0);
    CHECK(post.body == 120);
    CHECK(check("POST / HTTP/1.1\r\nContent-Length: 16384").status == 0);
}

TEST_CASE("head: too much, and what we have no use for") {
    CHECK(check("POST / HTTP/1.1\r\nContent-Length: 16385").status == 413);
    CHECK(check("POST / HTTP/1.1\r\nContent-Length: 99999999999999999999999").status == 413);
    CHECK(check("POST / HTTP/1.1\r\nTransfer-Encoding: chunked").status == 501);
    CHECK(check("POST / HTTP/1.1\r\nContent-Encoding: gzip").status == 415);
    CHECK(check("POST / HTTP/1.1\r\nExpect: 100-continue").status == 417);
    std::string many = "GET / HTTP/1.1";
    for (int i = 0; i < 65; ++i) many += "\r\nX-A: 1";
    CHECK(check(many).status == 431);
}

TEST_CASE("head: what has two meanings, or none") {
    for (const char* bad : {
             "POST / HTTP/1.1\r\nContent-Length: 1\r\nContent-Length: 2",
             "POST / HTTP/1.1\r\nContent-Length: 1, 1",
             "POST / HTTP/1.1\r\nContent-Length: -1",
             "POST / HTTP/1.1\r\nContent-Length: +1",
             "POST / HTTP/1.1\r\nContent-Length: 0x10",
             "POST / HTTP/1.1\r\nContent-Length:",
             "POST / HTTP/1.1\r\nContent-Length : 1",
             "GET / HTTP/1.1\r\nHost: a\r\n folded",
             "GET / HTTP/1.1\r\nno colon",
             "GET / HTTP/1.1\r\n: empty",
             "GET / HTTP/1.1\r\nA: b\nC: d",
             "GET / HTTP/1.1\r\nA: \x01",
             "GET /",
             "GET  / HTTP/1.1",
             "GET / HTTP/2.0",
             "GET /a b HTTP/1.1",
             "GET http://example.org/ HTTP/1.1",
             "GET * HTTP/1.1",
             "G@T / HTTP/1.1",
             " / HTTP/1.1",
             "",
             "\r\nGET / HTTP/1.1",
         }) {
        INFO(bad);
        CHECK(check(bad).status == 400);
    }
    CHECK(check(std::string("GET /\0 HTTP/1.1", 15)).status == 400);
}

}  // namespace
}  // namespace gallipot::web
