#include "web/connections.hpp"

#include "catch_all.hpp"

namespace gallipot::web {
namespace {

using namespace std::chrono_literals;

/// Sockets that are numbers only, and a clock that is set by hand.
class Table {
  public:
    explicit Table(const ConnectionLimits& limits)
        : connections(limits, [this](int socket) { closed.push_back(socket); }) {}

    void add(int socket, const std::string& network) {
        now += 1ms;
        connections.add(socket, network, now,
                        [this](const std::string& from) { told.push_back(from); });
    }

    std::vector<int> closed;
    std::vector<std::string> told;
    Steady::time_point now{};
    Connections connections;
};

TEST_CASE("connections: one too many, and the network that holds most loses its oldest") {
    Table table({.total = 10, .from_one_network = 64});
    table.add(1, "192.168.1.7");  // the oldest of all, from a household of one
    for (int socket = 100; socket < 109; ++socket) table.add(socket, "2001:db8::/64");
    CHECK(table.closed.empty());
    for (int socket = 2; socket < 5; ++socket) table.add(socket, "192.168.1.8");
    CHECK(table.closed == std::vector<int>{100, 101, 102});
    CHECK(table.told == std::vector<std::string>(3, "2001:db8::/64"));
    // A flood goes on at its own cost alone.
    for (int socket = 200; socket < 300; ++socket) {
        table.add(socket, "2001:db8::/64");
        CHECK(table.closed.back() >= 100);
    }
    CHECK(table.closed.size() == 103);
    for (const int socket : table.closed) table.connections.remove(socket);
    table.add(5, "192.168.1.9");
    CHECK(table.closed.size() == 104);
}

TEST_CASE("connections: whoever is being answered stays, as long as another can go") {
    Table table({.total = 3, .from_one_network = 64});
    for (int socket = 1; socket <= 3; ++socket) table.add(socket, "192.168.1.7");
    table.connections.complete(1);
    table.connections.complete(2);
    table.connections.answered(2);
    table.connections.begun(3);
    CHECK(table.connections.being_answered() == 2);
    table.add(4, "192.168.1.8");
    CHECK(table.closed == std::vector<int>{3});
    table.add(5, "192.168.1.8");
    // Two against two: the first in order of name; only its answered one may go.
    CHECK(table.closed == std::vector<int>{3, 2});
}

TEST_CASE("connections: so many from one network, but for this machine") {
    Table table({.total = 100, .from_one_network = 2});
    for (int socket = 1; socket <= 2; ++socket) {
        CHECK(table.connections.accepts("192.168.1.7"));
        table.add(socket, "192.168.1.7");
    }
    CHECK_FALSE(table.connections.accepts("192.168.1.7"));
    CHECK(table.connections.accepts("192.168.1.8"));
    table.connections.remove(1);
    CHECK(table.connections.accepts("192.168.1.7"));
    for (int socket = 10; socket < 20; ++socket) {
        CHECK(table.connections.accepts(this_machine));
        table.add(socket, this_machine);
    }
}

TEST_CASE("connections: a request has so long in all, however it drips") {
    Table table({.request_within = 100ms});
    table.add(1, "192.168.1.7");
    table.add(2, "192.168.1.7");
    table.add(3, "192.168.1.7");
    table.connections.begun(1);
    table.connections.begun(3);
    table.connections.complete(3);
    const auto told = [&](const std::string& network) { table.told.push_back(network); };
    table.connections.close_late(table.now + 90ms, told);
    CHECK(table.closed.empty());
    table.connections.close_late(table.now + 110ms, told);
    CHECK(table.closed == std::vector<int>{1, 2});
    CHECK(table.told.size() == 1);  // a browser that had not begun is not told of
    table.connections.close_late(table.now + 120ms, told);
    CHECK(table.closed.size() == 2);  // once each
}

TEST_CASE("connections: an upload earns time by what has come, and loses its place when it left") {
    Table table({.total = 10, .request_within = 10s, .slowest_upload = 1000});
    const auto late = [&] { table.connections.close_late(table.now, [](const std::string&) {}); };
    for (const int socket : {1, 2, 3}) {
        table.add(socket, "192.168.1.7");
        table.connections.begun(socket);
    }
    table.connections.received(1, 5000);
    table.now += 12s;
    late();
    CHECK(table.closed == std::vector<int>{2, 3});
    table.now += 4s;
    late();
    CHECK(table.closed == std::vector<int>{2, 3, 1});

    table.add(4, "192.168.1.7");
    table.add(5, "192.168.1.7");
    table.connections.begun(4);
    table.connections.begun(5);
    table.connections.received(4, 1);
    table.connections.close_left([](int) { return true; });
    table.connections.close_left([](int) { return false; });
    table.connections.close_left([](int) { return true; });
    CHECK(table.closed.size() == 3);
    table.connections.close_left([](int) { return true; });
    CHECK(table.closed.back() == 4);
    table.connections.close_left([](int) { return true; });
    CHECK(table.closed.size() == 4);  // one that is no upload is left to its time
}

}  // namespace
}  // namespace gallipot::web
