#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <string>

#include "web/refusals.hpp"

/// Between the network and whoever answers: takes connections, waits for whole requests, and hands
/// them over one at a time a worker. A connection that is slow, stalled or too talkative costs a
/// place in a table and nothing else, however many there are.
namespace gallipot::web {

struct GateLimits {
    std::size_t head = 8192;            ///< bytes
    std::size_t body = 16384;           ///< bytes; a visit's form with its longest note takes 13 kB
    std::size_t connections = 1000;     ///< at one time; beyond, the longest waiting one is dropped
    std::size_t from_one_address = 64;  ///< not of this machine's own
    std::chrono::milliseconds request_within{10'000};  ///< from connecting to the last byte
    std::chrono::milliseconds progress_within{
        10'000};  ///< the other end takes a piece of the answer
    std::size_t workers = 4;
};

/// Sends a piece of an answer; false when the other end is gone or too slow.
using Send = std::function<bool(const char* bytes, std::size_t count)>;

/// Answers one whole request (head and body). Called by several threads at once.
using Answerer =
    std::function<void(const std::string& request, const std::string& peer, const Send& send)>;

class Gate {
  public:
    /// Listens at `host` (a name or a number; port 0: any that is free). Throws
    /// system::SystemError when it cannot.
    Gate(const std::string& host, int port, const GateLimits& limits, Answerer answerer,
         Refusals& refusals);
    ~Gate();

    [[nodiscard]] int port() const;
    /// Serves until stop(). Requests that were complete are answered before it returns.
    void run();
    /// From any thread, and from a signal handler.
    void stop();

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace gallipot::web
