#include <chrono>
#include <thread>

#include "catch_all.hpp"

#include "base/image/pictures.hpp"
#include "multipart.hpp"
#include "served.hpp"

/// Photos over a socket: who may send as much, how slowly, and how many at once.
namespace gallipot::web {
namespace {

using tests::Served;
using tests::status;
using tests::Wire;
using namespace std::chrono_literals;

/// A form with a photo of about so many bytes: what stands after a JPEG's end is no part of it.
std::string form_of(std::size_t bytes, const std::string& token) {
    std::string photo = tests::jpeg_file(tests::corners(64, 48));
    photo.resize(std::max(photo.size(), bytes), 'x');
    return tests::multipart({{"token", token}, {"seen", "4"}, {"note", "as typed"}}, {photo});
}

std::string upload(const Served& served, const std::string& body,
                   const std::string& cookie = Served::cookie()) {
    return served.ask(Served::upload_head(served.house.station("K1"), body.size(), cookie) + body);
}

/// How many of these pieces were taken before the connection was closed.
int send_slowly(const Wire& wire, const std::string& bytes, std::size_t piece,
                std::chrono::milliseconds pause) {
    int taken = 0;
    for (std::size_t at = 0; at < bytes.size(); at += piece, ++taken) {
        if (!wire.send(bytes.substr(at, piece))) return taken;
        std::this_thread::sleep_for(pause);
    }
    return taken;
}

}  // namespace

TEST_CASE("upload: five megabytes from the caretaker's phone, not from any other") {
    Served served;
    CHECK(status(upload(served, form_of(5'000'000, "a"))) == "HTTP/1.1 303");
    CHECK(served.house.recorded("K1").at(0).photos.size() == 1);
    const std::string refused = upload(served, form_of(5'000'000, "b"), "caretaker-x=y");
    CHECK(status(refused) == "HTTP/1.1 403");
    CHECK(served.house.recorded("K1").size() == 1);
}

TEST_CASE("upload: what is too much altogether comes back with what was typed") {
    ServerLimits limits;
    limits.upload = 1'000'000;
    Served served(limits);
    const std::string answer = upload(served, form_of(2'000'000, "a"));
    CHECK(status(answer) == "HTTP/1.1 413");
    CHECK(answer.find("too large together") != std::string::npos);
    CHECK(answer.find("as typed") != std::string::npos);
    CHECK(tests::hidden_value(answer, "token") == "a");
    CHECK(served.house.recorded("K1").empty());
}

TEST_CASE("upload: slow and steady arrives, slow and standing still is dropped") {
    ServerLimits limits;
    limits.connections.request_within = 500ms;
    limits.connections.slowest_upload = 100'000;
    Served served(limits);
    const std::string path = served.house.station("K1");
    const std::string body = form_of(300'000, "steady");
    const std::string head = Served::upload_head(path, body.size());

    // Twice as fast as the slowest, and for three times as long as any other request may take.
    const Wire steady(served.server.port());
    const auto start = std::chrono::steady_clock::now();
    send_slowly(steady, head + body, 10'000, 50ms);
    CHECK(status(steady.rest()) == "HTTP/1.1 303");
    CHECK(std::chrono::steady_clock::now() - start > 3 * limits.connections.request_within);

    // A few bytes at a time: dropped soon, of whatever kind.
    for (const std::string& request :
         {head + body, Served::upload_head(path, body.size(), "none=1") + body}) {
        const Wire drip(served.server.port());
        const auto begun = std::chrono::steady_clock::now();
        send_slowly(drip, request.substr(0, 1000), 20, 50ms);
        CHECK(drip.rest().empty());
        CHECK(std::chrono::steady_clock::now() - begun < 4s);
    }
    // Another phone at the steady one's pace has no more time than any request.
    const Wire other(served.server.port());
    send_slowly(other, Served::upload_head(path, body.size(), "none=1") + body, 10'000, 50ms);
    CHECK(other.rest().empty());
    CHECK(served.house.recorded("K1").size() == 1);
}

TEST_CASE("upload: two phones at once, and one too many") {
    ServerLimits limits;
    limits.uploads = 2;
    Served served(limits);
    const std::string path = served.house.station("K1");
    const auto begin = [&](const Wire& wire, const std::string& body) {
        wire.send(Served::upload_head(path, body.size()) + body.substr(0, body.size() - 10));
    };
    const std::string a = form_of(400'000, "a");
    const std::string b = form_of(400'001, "b");
    {
        const Wire first(served.server.port());
        const Wire second(served.server.port());
        begin(first, a);
        begin(second, b);
        std::this_thread::sleep_for(300ms);
        const std::string third = upload(served, form_of(400'000, "c"));
        CHECK(status(third) == "HTTP/1.1 413");
        CHECK(third.find("Photos of other phones") != std::string::npos);
        CHECK(third.find("as typed") != std::string::npos);
        // A visit with a small photo needs no place.
        CHECK(status(upload(served, form_of(20'000, "d"))) == "HTTP/1.1 303");
        first.send(a.substr(a.size() - 10));
        second.send(b.substr(b.size() - 10));
        CHECK(status(first.rest()) == "HTTP/1.1 303");
        CHECK(status(second.rest()) == "HTTP/1.1 303");
    }
    // The places are free again, those of phones that went away too.
    for (int i = 0; i < 3; ++i) {
        const Wire gone(served.server.port());
        begin(gone, form_of(400'000, "gone"));
    }
    std::string answer;
    for (int tries = 0; tries < 50 && status(answer) != "HTTP/1.1 303"; ++tries) {
        std::this_thread::sleep_for(100ms);
        answer = upload(served, form_of(400'000, "c"));
    }
    CHECK(status(answer) == "HTTP/1.1 303");
    CHECK(served.house.recorded("K1").size() == 4);
}

}  // namespace gallipot::web
