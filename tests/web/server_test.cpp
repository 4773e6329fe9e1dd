#include "web/server.hpp"

#include <chrono>
#include <thread>

#include "catch_all.hpp"

#include "served.hpp"

namespace gallipot::web {
namespace {

using tests::House;
using tests::Served;
using tests::status;
using tests::Wire;
using namespace std::chrono_literals;

TEST_CASE("server: a page, a form and a redirect over a socket") {
    const Served served;
    const std::string path = served.house.station("K1");
    const std::string page = served.get(path + "?lang=es");
    CHECK(status(page) == "HTTP/1.1 200");
    CHECK(page.find("Connection: close") != std::string::npos);
    CHECK(page.find("Content-Security-Policy: default-src 'none'") != std::string::npos);
    CHECK(page.find("Cebo venenoso") != std::string::npos);
    CHECK(page.ends_with("</html>\n"));
    const std::string sent = served.post(path, "token=a&seen=9&note=%C3%BC+%26");
    CHECK(status(sent) == "HTTP/1.1 303");
    CHECK(sent.find("Location: ") != std::string::npos);
    CHECK(served.house.context().log.last("K1", 1).at(0).visit.note == "ü &");
    const std::string head = served.ask("HEAD " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
    CHECK(status(head) == "HTTP/1.1 200");
    CHECK(head.ends_with("\r\n\r\n"));
    // Asked for in part, or in a coding that is not ours: whole and plain all the same.
    const std::string plain =
        served.ask("GET " + path +
                   " HTTP/1.1\r\nHost: 127.0.0.1\r\nAccept-Encoding: zstd, br\r\n"
                   "Range: bytes=0-9\r\n\r\n");
    CHECK(status(plain) == "HTTP/1.1 200");
    CHECK(plain.ends_with("</html>\n"));
}

TEST_CASE("server: a request in pieces, and a second one behind the first") {
    const Served served;
    const std::string path = served.house.station("K1");
    const Wire wire(served.server.port());
    const std::string request = "GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n";
    for (const char c : request) REQUIRE(wire.send(std::string(1, c)));
    CHECK(status(wire.rest()) == "HTTP/1.1 200");
    // What follows on the same connection is never read.
    const std::string both = served.ask(request + "POST " + path + " HTTP/1.1\r\n\r\n");
    CHECK(tests::times(both, "HTTP/1.1 ") <= 1);
}

TEST_CASE("server: what is too large is refused at once, and the answer arrives") {
    const Served served;
    const std::string path = served.house.station("K1");
    const std::string large =
        served.post(path, "token=big&note=as+typed&seen=9&by=" + std::string(5'000'000, 'a'));
    CHECK(status(large) == "HTTP/1.1 413");
    CHECK(large.find("as typed") != std::string::npos);
    CHECK(tests::hidden_value(large, "token") == "big");
    CHECK(status(served.ask("GET /" + std::string(90'000, 'a'))) == "HTTP/1.1 414");
    CHECK(status(served.get("/" + std::string(9000, 'a'))) == "HTTP/1.1 431");
    CHECK(status(served.ask("GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nA: " +
                            std::string(100'000, 'a'))) == "HTTP/1.1 431");
    CHECK(status(served.ask("\x16\x03\x01 hello TLS\r\n\r\n")) == "HTTP/1.1 400");
    CHECK(status(served.ask("POST " + path +
                            " HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: "
                            "chunked\r\n\r\n")) == "HTTP/1.1 501");
    CHECK(status(served.get(path)) == "HTTP/1.1 200");
}

TEST_CASE("server: paths with tricks in them") {
    Served served;
    const std::string key = served.house.station("K1").substr(6);
    CHECK(status(served.get("/S/%4B1/" + key)) == "HTTP/1.1 200");
    for (const std::string& path :
         {std::string("/../../etc/passwd"), std::string("/%2e%2e/%2e%2e/etc/passwd"),
          "/S/K1%00/" + key, "/S/K1/" + key + "%00", "/S/K1/" + key + "%2FSAVED%2F1",
          std::string("/S/..%2f..%2fhall.secret/x"), std::string("/hall.secret"),
          "/S/K1/" + key + "/../../../hall.secret", std::string("/%")}) {
        INFO(path);
        CHECK(status(served.get(path)) == "HTTP/1.1 404");
    }
}

TEST_CASE("server: 300 stalled connections, and a page still comes within a second") {
    const Served served;
    const std::string path = served.house.station("K1");
    std::vector<std::unique_ptr<Wire>> stalled;
    for (int i = 0; i < 300; ++i) {
        stalled.push_back(std::make_unique<Wire>(served.server.port()));
        if (i % 3 == 1) stalled.back()->send("GET /S/K1/");
        if (i % 3 == 2)
            stalled.back()->send(
                "POST " + path +
                " HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 100\r\n\r\nseen=");
    }
    const auto start = std::chrono::steady_clock::now();
    CHECK(status(served.get(path)) == "HTTP/1.1 200");
    CHECK(std::chrono::steady_clock::now() - start < 1s);
}

TEST_CASE("server: more connections than places push the longest waiting one out") {
    ServerLimits limits;
    limits.connections.total = 20;
    const Served served(limits);
    const std::string path = served.house.station("K1");
    std::vector<std::unique_ptr<Wire>> stalled;
    for (int i = 0; i < 60; ++i) stalled.push_back(std::make_unique<Wire>(served.server.port()));
    CHECK(status(served.get(path)) == "HTTP/1.1 200");
}

TEST_CASE("server: whoever drips a request is cut off in the end") {
    ServerLimits limits;
    limits.connections.request_within = 300ms;
    const Served served(limits);
    const Wire wire(served.server.port());
    const auto start = std::chrono::steady_clock::now();
    bool open = true;
    while (open && std::chrono::steady_clock::now() - start < 5s) {
        open = wire.send("a");
        std::this_thread::sleep_for(50ms);
    }
    CHECK_FALSE(open);
}

TEST_CASE("server: whoever does not take the answer keeps no worker") {
    ServerLimits limits;
    limits.threads = 2;
    const Served served(limits);
    const std::string path = served.house.station("K1");
    std::vector<std::unique_ptr<Wire>> deaf;
    for (int i = 0; i < 50; ++i) {
        deaf.push_back(std::make_unique<Wire>(served.server.port()));
        deaf.back()->send("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n");
    }
    CHECK(status(served.get(path)) == "HTTP/1.1 200");
}

// RFC 9112, 3.2.
TEST_CASE("server: two hosts, none, or one that is not ours") {
    const Served served;
    const auto ask = [&](const std::string& fields) {
        return status(
            served.ask("GET " + served.house.station("K1") + " HTTP/1.1\r\n" + fields + "\r\n"));
    };
    CHECK(ask("Host: 127.0.0.1:8017\r\n") == "HTTP/1.1 200");
    CHECK(ask("") == "HTTP/1.1 400");
    CHECK(ask("Host: 127.0.0.1\r\nHost: 127.0.0.1\r\n") == "HTTP/1.1 400");
    CHECK(ask("Host:\r\n") == "HTTP/1.1 400");
    CHECK(ask("Host: a b\r\n") == "HTTP/1.1 400");
    CHECK(ask("Host: evil.example\r\n") == "HTTP/1.1 421");
    CHECK(status(served.ask("GET / HTTP/1.0\r\n\r\n")) == "HTTP/1.1 400");
}

TEST_CASE("server: what has two meanings") {
    const Served served;
    const std::string start = "POST " + served.house.station("K1") +
                              " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + Served::cookie() +
                              "\r\n";
    for (const char* fields :
         {"Content-Length: 1\r\nContent-Length: 2", "Content-Length: -1", "Content-Length: +1",
          "Content-Length: 0x1", "Content-Length : 1", "no colon", "A: \x01"}) {
        INFO(fields);
        CHECK(status(served.ask(start + fields + "\r\n\r\na")) == "HTTP/1.1 400");
    }
    CHECK(status(served.ask(start + "Content-Length: 3\r\nTransfer-Encoding: chunked\r\n\r\n0")) ==
          "HTTP/1.1 501");
    CHECK(status(served.ask(start + "Content-Length: 99999999999999999999999\r\n\r\n")) ==
          "HTTP/1.1 413");
    CHECK(status(served.ask("GET / HTTP/2.0\r\nHost: 127.0.0.1\r\n\r\n")) == "HTTP/1.1 505");
    // A whole form that waits to be asked for (RFC 9110, 10.1.1) is asked for.
    CHECK(served
              .ask(start + "Expect: 100-continue\r\nContent-Length: 6\r\n"
                           "Content-Type: application/x-www-form-urlencoded\r\n\r\nseen=9")
              .find("HTTP/1.1 303") != std::string::npos);
}

TEST_CASE("server: whatever an answer throws, the next one comes") {
    Served served;
    const std::string path = served.house.station("K1");
    const auto good = served.answer;
    for (int kind = 0; kind < 3; ++kind) {
        served.answer = [kind](const Request&) -> Response {
            if (kind == 0) throw std::runtime_error("a fault");
            if (kind == 1) throw system::SystemError{"the disk is gone"};
            throw 7;
        };
        const std::string answer = served.post(path, "token=a&seen=9");
        CHECK(status(answer) == "HTTP/1.1 500");
        CHECK(answer.find("Content-Security-Policy") != std::string::npos);
        CHECK(served.house.told.back().find("a fault of ours") != std::string::npos);
    }
    served.answer = good;
    CHECK(status(served.get(path)) == "HTTP/1.1 200");
}

TEST_CASE("server: stopping answers what was asked") {
    Served served;
    const std::string path = served.house.station("K1");
    for (int i = 0; i < 20; ++i) CHECK(status(served.get(path)) == "HTTP/1.1 200");
    const auto start = std::chrono::steady_clock::now();
    served.stop();
    CHECK(std::chrono::steady_clock::now() - start < 2s);
}

TEST_CASE("server: a place that is taken is told as one") {
    const Served served;
    House other;
    try {
        const Server second(
            "127.0.0.1", served.server.port(),
            [&](const Request& request) { return other.app().answer(request); }, other.access_log);
        FAIL("it listened all the same");
    } catch (const system::SystemError& error) {
        CHECK(std::string(error.what()).find("another program") != std::string::npos);
    }
}

TEST_CASE("server: visits from many phones at once are all there, once each") {
    const Served served({}, Rates{.posts = {10'000, 1ms}});
    const std::vector<std::string> stations{"K1", "K2", "E1", "R1"};
    std::vector<std::thread> phones;
    std::atomic<int> confirmed{0};
    for (std::size_t p = 0; p < 8; ++p)
        phones.emplace_back([&, p] {
            for (int i = 0; i < 10; ++i) {
                const std::string body = "token=" + std::to_string(p) + "-" + std::to_string(i) +
                                         "&seen=" + std::to_string(i);
                const std::string path = served.house.station(stations[p % stations.size()]);
                // A double tap of each.
                for (int tap = 0; tap < 2; ++tap)
                    if (status(served.post(path, body)) == "HTTP/1.1 303") ++confirmed;
            }
        });
    for (std::thread& phone : phones) phone.join();
    CHECK(confirmed == 160);
    std::size_t kept = 0;
    for (const std::string& station : stations)
        kept += served.house.context().log.last(station, 1000).size();
    CHECK(kept == 80);
}

}  // namespace
}  // namespace gallipot::web
