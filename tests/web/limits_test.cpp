#include "web/limits.hpp"

#include "catch_all.hpp"

#include "web/addresses.hpp"
#include "web/cross_site.hpp"
#include "web/refusals.hpp"

namespace gallipot::web {
namespace {

using namespace std::chrono_literals;

TEST_CASE("limits: a burst, then as many as time gives back") {
    RateLimit limit({3, 1000ms});
    const Steady::time_point start{};
    for (int i = 0; i < 3; ++i) CHECK(limit.take("a", start));
    CHECK_FALSE(limit.take("a", start));
    CHECK(limit.take("b", start));
    CHECK_FALSE(limit.take("a", start + 999ms));
    CHECK(limit.take("a", start + 1001ms));
    CHECK_FALSE(limit.take("a", start + 1002ms));
    for (int i = 0; i < 3; ++i) CHECK(limit.take("a", start + 1h));
    CHECK_FALSE(limit.take("a", start + 1h));
}

TEST_CASE("limits: a crowd of names does not let the one that knocks on and on off") {
    RateLimit limit({1, 1h});
    const Steady::time_point start{};
    for (std::size_t i = 0; i < RateLimit::most_names * 2; ++i) {
        const auto now = start + std::chrono::milliseconds(i);
        limit.take(std::to_string(i), now);
        CHECK(limit.take("a", now) == (i == 0));
    }
}

Request from(std::map<std::string, std::string> headers) {
    Request request;
    request.headers = std::move(headers);
    return request;
}

TEST_CASE("cross-site: only our own pages, and programs that are no browsers") {
    const std::vector<std::string> own{"log.example.org"};
    const std::string host = "192.168.1.20:8017";
    CHECK_FALSE(is_cross_site(from({{"host", host}}), own));
    CHECK_FALSE(is_cross_site(from({{"host", host}, {"origin", "http://192.168.1.20:8017"}}), own));
    CHECK_FALSE(is_cross_site(from({{"host", host}, {"origin", "https://Log.example.org"}}), own));
    CHECK_FALSE(is_cross_site(from({{"host", "a:443"}, {"origin", "https://a"}}), own));
    CHECK_FALSE(is_cross_site(from({{"host", "a"}, {"origin", "https://a"}}), own));
    CHECK_FALSE(is_cross_site(from({{"sec-fetch-site", "same-origin"}, {"origin", "null"}}), own));
    CHECK_FALSE(is_cross_site(from({{"sec-fetch-site", "none"}}), own));
    for (const char* site : {"cross-site", "same-site", "anything"})
        CHECK(is_cross_site(
            from(
                {{"host", host}, {"origin", "http://192.168.1.20:8017"}, {"sec-fetch-site", site}}),
            own));
    for (const char* origin : {"null", "http://192.168.1.20", "http://192.168.1.20:80",
                               "http://evil", "http://192.168.1.20:8017.evil", "file://", "x"})
        CHECK(is_cross_site(from({{"host", host}, {"origin", origin}}), own));
}

TEST_CASE("hosts: of addresses, without what goes without saying") {
    CHECK(host_of("http://192.168.1.20:8017/x") == "192.168.1.20:8017");
    CHECK(host_of("HTTPS://Example.org:443") == "example.org");
    CHECK(host_of("https://example.org:80/") == "example.org:80");
    CHECK(host_of("ftp://a").empty());
    CHECK(host_of("").empty());
}

TEST_CASE("hosts: as --listen has them") {
    CHECK(parse_host("0.0.0.0:8017").host == "0.0.0.0");
    CHECK(parse_host("0.0.0.0:8017").port == 8017);
    CHECK(parse_host("localhost").port == -1);
    CHECK(parse_host("[::1]:80").host == "::1");
    CHECK(parse_host("[::1]:80").port == 80);
    for (const char* bad : {"", ":80", "a:", "a:x", "a:65536", "a:-1", "[::1", "::1:80"}) {
        INFO(bad);
        CHECK(parse_host(bad).host.empty());
    }
    for (const std::string& address : own_addresses()) {
        CHECK_FALSE(is_loopback_host(address));
        CHECK(address.find("fe80") == std::string::npos);
    }
}

TEST_CASE("refusals: a line each, without keys, and not too many") {
    std::vector<std::string> lines;
    const log::Instant noon{12h};
    Refusals refusals([&](const std::string& line) { lines.push_back(line); },
                      [&] { return noon; });
    refusals.refused("192.168.1.7", "wrong key", "/S/K1/7Q2MX4KD9A/SAVED/1");
    refusals.refused("192.168.1.7", "wrong key", "/ALL/7Q2MX4KD9A");
    refusals.refused("192.168.1.7", "no such page", "/\x1B[31m" + std::string(100, 'a'));
    refusals.failed("the disk is full");
    CHECK(lines ==
          std::vector<std::string>{"1970-01-01T12:00:00Z refused 192.168.1.7: wrong key /S/K1/...",
                                   "1970-01-01T12:00:00Z refused 192.168.1.7: wrong key /ALL/...",
                                   "1970-01-01T12:00:00Z refused 192.168.1.7: no such page /?[31m" +
                                       std::string(34, 'a') + "...",
                                   "1970-01-01T12:00:00Z failed: the disk is full"});
    for (int i = 0; i < 1000; ++i) refusals.refused("192.168.1.7", "wrong key");
    CHECK(lines.size() < 100);
}

}  // namespace
}  // namespace gallipot::web
