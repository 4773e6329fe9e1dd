#include "web/limits.hpp"

#include "catch_all.hpp"

#include "web/access_log.hpp"
#include "web/addresses.hpp"
#include "web/cross_site.hpp"
#include "web/hosts.hpp"

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
    for (std::size_t i = 0; i < RateLimit::maximum_names * 2; ++i) {
        const auto now = start + std::chrono::milliseconds(i);
        limit.take(std::to_string(i), now);
        CHECK(limit.take("a", now) == (i == 0));
    }
}

TEST_CASE("limits: what is given back was never taken") {
    RateLimit limit({2, 1h});
    const Steady::time_point start{};
    for (int i = 0; i < 100; ++i) {
        CHECK(limit.take("a", start));
        limit.give_back("a");
    }
    limit.give_back("a");
    CHECK(limit.take("a", start));
    CHECK(limit.take("a", start));
    CHECK_FALSE(limit.take("a", start));
}

// RFC 4291, 2.5.1 (64 bits of interface) and 2.5.5.2 (IPv4-mapped).
TEST_CASE("networks: IPv6 by its first 64 bits, IPv4 by itself however it is written") {
    CHECK(network_of("192.168.1.7") == "192.168.1.7");
    CHECK(network_of("::ffff:192.168.1.7") == "192.168.1.7");
    CHECK(network_of("2001:db8:0:7:1:2:3:4") == "2001:db8:0:7::/64");
    CHECK(network_of("2001:db8:0:7::1") == network_of("2001:db8:0:7:ffff:ffff:ffff:ffff"));
    CHECK(network_of("2001:db8:0:7::1") != network_of("2001:db8:0:8::1"));
    CHECK(network_of("fe80::1%eth0") == network_of("fe80::2%wlan0"));
    for (const char* own : {"127.0.0.1", "127.9.9.9", "::1", "::ffff:127.0.0.1"})
        CHECK(network_of(own) == this_machine);
}

TEST_CASE("hosts: where it listens, what the job says, and what was added") {
    const OwnHosts one("192.168.1.20", {"Log.Example.org:8443", "", "[2001:db8::7]:80"});
    for (const char* own : {"192.168.1.20", "localhost", "log.example.org", "2001:db8::7"})
        CHECK(one.has(own));
    for (const char* other :
         {"192.168.1.21", "127.0.0.1", "evil.example", "", "example.org", "localhost.evil.example"})
        CHECK_FALSE(one.has(other));
    const OwnHosts all("0.0.0.0", {});
    CHECK(all.has("127.0.0.1"));
    CHECK(all.has("::1"));
    for (const std::string& address : own_addresses()) CHECK(all.has(host_name(address)));
    CHECK_FALSE(all.has("192.0.2.77"));
    CHECK_FALSE(all.has("raspberrypi.local"));
}

TEST_CASE("hosts: of a Host field") {
    CHECK(host_name("Log.Example.org:8017") == "log.example.org");
    CHECK(host_name("[2001:DB8::7]:8017") == "2001:db8::7");
    CHECK(host_name("127.0.0.1") == "127.0.0.1");
    for (const char* bad : {"", ":80", "a b", "a:", "a:x", "a:99999", "a,b", "user@a", "a/b", "[a]",
                            "[1.2.3.4]", "[::1", "[::1]x", "[::1]x80", "::1", "a\"b", "ä"}) {
        INFO(bad);
        CHECK(host_name(bad).empty());
    }
    CHECK(host_name(std::string_view("[::\0\0[::]", 9)).empty());  // found by fuzzing
    CHECK_FALSE(is_address(std::string_view("::1\0", 4)));
    CHECK(network_of(std::string_view("::\0", 3)) == std::string("::\0", 3));
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
    for (const char* bad :
         {"", ":80", "a:", "a:x", "a:65536", "a:-1", "[::1", "::1:80", "[::1]x80"}) {
        INFO(bad);
        CHECK(parse_host(bad).host.empty());
    }
    for (const std::string& address : own_addresses()) {
        CHECK_FALSE(is_loopback_host(address));
        CHECK(address.find("fe80") == std::string::npos);
    }
}

TEST_CASE("access log: a line each, without keys, and not too many") {
    std::vector<std::string> lines;
    const log::Instant noon{12h};
    AccessLog access_log([&](const std::string& line) { lines.push_back(line); },
                         [&] { return noon; });
    access_log.refused("192.168.1.7", "wrong key", "/S/K1/7Q2MX4KD9A/SAVED/1");
    access_log.refused("192.168.1.7", "wrong key", "/ALL/7Q2MX4KD9A");
    access_log.refused("192.168.1.7", "no such page", "/\x1B[31m" + std::string(100, 'a'));
    access_log.failed("the disk is full");
    CHECK(lines ==
          std::vector<std::string>{"1970-01-01T12:00:00Z refused 192.168.1.7: wrong key /S/K1/...",
                                   "1970-01-01T12:00:00Z refused 192.168.1.7: wrong key /ALL/...",
                                   "1970-01-01T12:00:00Z refused 192.168.1.7: no such page /?[31m" +
                                       std::string(34, 'a') + "...",
                                   "1970-01-01T12:00:00Z failed: the disk is full"});
    for (int i = 0; i < 1000; ++i) access_log.refused("192.168.1.7", "wrong key");
    CHECK(lines.size() < 100);
}

}  // namespace
}  // namespace gallipot::web
