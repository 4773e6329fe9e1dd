#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <map>
#include <mutex>
#include <string>

#include "web/addresses.hpp"
#include "web/limits.hpp"

/// Which connections are open, from where and since when; and which of them has to go when there
/// are too many, or when a request takes too long.
namespace gallipot::web {

struct ConnectionLimits {
    std::size_t total = 1000;           ///< beyond, one of the network that holds most is closed
    std::size_t from_one_network = 64;  ///< not of this machine's own; beyond, none is accepted
    std::chrono::milliseconds request_within{10'000};  ///< from connecting to the last byte
    /// An upload that is allowed gets more time the more of it has come, so that it may take long
    /// and may not stall: as much as at this pace. Slower than any phone with a signal.
    std::size_t slowest_upload = 8'000;  ///< bytes a second
};

/// May be shared between threads. A network is what network_of() gives for an address.
class Connections {
  public:
    using Close = std::function<void(int socket)>;
    using Told = std::function<void(const std::string& network)>;

    /// `close` ends a connection. It is called between add() and remove() of that socket only, so
    /// the number cannot belong to another connection by then.
    Connections(const ConnectionLimits& limits, Close close);

    /// Whether one more is accepted from this network.
    [[nodiscard]] bool accepts(const std::string& network);
    /// A new connection. If it is one too many, the network that holds most of them loses its
    /// oldest that has not asked yet, else the oldest that is being answered; `told` says which.
    void add(int socket, const std::string& network, Steady::time_point now, const Told& told);
    void begun(int socket);                        ///< the first line of the request is here
    void received(int socket, std::size_t bytes);  ///< of an upload that is allowed: so many more
    void complete(int socket);  ///< all of it is here: no longer late, nor closed for others
    void answered(int socket);  ///< the answer is on its way: may be closed for others again
    void remove(int socket);    ///< before the socket is closed

    /// Closes those whose request has taken too long. Those that had not begun one are not told:
    /// browsers open connections ahead.
    void close_late(Steady::time_point now, const Told& told);

    /// Closes uploads that will never end: whose other end `has_left` twice in a row.
    void close_left(const std::function<bool(int socket)>& has_left);

    /// How many have asked and are still there.
    [[nodiscard]] std::size_t being_answered();

  private:
    enum class Stage { silent, asking, working, answering };
    struct Connection {
        std::string network;
        Steady::time_point since;
        Stage stage = Stage::silent;
        std::size_t uploaded = 0;  ///< bytes
        bool left = false;         ///< the other end was gone when it was last looked at
        bool closing = false;
    };

    void set(int socket, Stage stage);
    [[nodiscard]] bool is_late(const Connection& connection, Steady::time_point now) const;
    void close_one(const Told& told);
    void close(int socket, Connection& connection);
    void release(const std::string& network);

    const ConnectionLimits limits_;
    const Close close_;
    std::mutex mutex_;
    std::map<int, Connection> open_;           // by socket
    std::map<std::string, std::size_t> from_;  // not closing, by network
    std::size_t held_ = 0;                     // not closing
};

}  // namespace gallipot::web
