#include "web/connections.hpp"

#include <algorithm>
#include <utility>

namespace gallipot::web {

Connections::Connections(const ConnectionLimits& limits, Close close)
    : limits_(limits), close_(std::move(close)) {}

bool Connections::accepts(const std::string& network) {
    const std::lock_guard lock(mutex_);
    const auto at = from_.find(network);
    return network == this_machine || at == from_.end() || at->second < limits_.from_one_network;
}

void Connections::add(int socket, const std::string& network, Steady::time_point now,
                      const Told& told) {
    const std::lock_guard lock(mutex_);
    open_[socket] = Connection{network, now};
    ++from_[network];
    if (++held_ > limits_.total) close_one(told);
}

void Connections::begun(int socket) {
    set(socket, Stage::asking);
}
void Connections::received(int socket, std::size_t bytes) {
    const std::lock_guard lock(mutex_);
    const auto at = open_.find(socket);
    if (at != open_.end()) at->second.uploaded += bytes;
}
void Connections::complete(int socket) {
    set(socket, Stage::working);
}
void Connections::answered(int socket) {
    set(socket, Stage::answering);
}

void Connections::remove(int socket) {
    const std::lock_guard lock(mutex_);
    const auto at = open_.find(socket);
    if (at == open_.end()) return;
    if (!at->second.closing) release(at->second.network);
    open_.erase(at);
}

void Connections::close_late(Steady::time_point now, const Told& told) {
    const std::lock_guard lock(mutex_);
    for (auto& [socket, connection] : open_) {
        const bool asking = connection.stage == Stage::silent || connection.stage == Stage::asking;
        if (!asking || connection.closing || !is_late(connection, now)) continue;
        if (connection.stage == Stage::asking) told(connection.network);
        close(socket, connection);
    }
}

void Connections::close_left(const std::function<bool(int socket)>& has_left) {
    const std::lock_guard lock(mutex_);
    for (auto& [socket, connection] : open_) {
        if (connection.stage != Stage::asking || connection.uploaded == 0 || connection.closing)
            continue;
        if (!has_left(socket))
            connection.left = false;
        else if (!std::exchange(connection.left, true))
            continue;  // its last bytes may just be on their way to us
        else
            close(socket, connection);
    }
}

std::size_t Connections::being_answered() {
    const std::lock_guard lock(mutex_);
    return static_cast<std::size_t>(std::count_if(open_.begin(), open_.end(), [](const auto& one) {
        return !one.second.closing &&
               (one.second.stage == Stage::working || one.second.stage == Stage::answering);
    }));
}

bool Connections::is_late(const Connection& connection, Steady::time_point now) const {
    const std::chrono::milliseconds earned(connection.uploaded * 1000 / limits_.slowest_upload);
    return now - connection.since >= limits_.request_within + earned;
}

void Connections::set(int socket, Stage stage) {
    const std::lock_guard lock(mutex_);
    const auto at = open_.find(socket);
    if (at != open_.end()) at->second.stage = stage;
}

void Connections::close_one(const Told& told) {
    const auto maximum =
        std::max_element(from_.begin(), from_.end(),
                         [](const auto& a, const auto& b) { return a.second < b.second; });
    // Not asked yet before being answered, and older before younger.
    const auto order = [](const Connection& connection) {
        return std::pair(connection.stage == Stage::answering, connection.since);
    };
    auto chosen = open_.end();
    for (auto at = open_.begin(); at != open_.end(); ++at) {
        const Connection& connection = at->second;
        if (connection.network != maximum->first || connection.closing ||
            connection.stage == Stage::working)
            continue;
        if (chosen == open_.end() || order(connection) < order(chosen->second)) chosen = at;
    }
    if (chosen == open_.end()) return;
    told(chosen->second.network);
    close(chosen->first, chosen->second);
}

void Connections::close(int socket, Connection& connection) {
    connection.closing = true;
    release(connection.network);
    close_(socket);
}

void Connections::release(const std::string& network) {
    const auto at = from_.find(network);
    if (--at->second == 0) from_.erase(at);
    --held_;
}

}  // namespace gallipot::web
