#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <string>

#include "web/access_log.hpp"
#include "web/connections.hpp"
#include "web/message.hpp"

/// The pages over HTTP/1.1: libmicrohttpd reads requests and writes answers; who may connect, and
/// what is too much or too slow, is decided here.
namespace gallipot::web {

struct ServerLimits {
    ConnectionLimits connections;
    std::size_t head = 8192;                      ///< bytes
    std::size_t body = 131'072;                   ///< bytes; what comes after is thrown away
    std::size_t upload = 20u << 20;               ///< bytes; the body where photos may be sent
    std::size_t uploads = 4;                      ///< of more than `body` at a time
    std::chrono::seconds upload_pause{30};        ///< an upload may stand still for so long
    std::size_t maximum_thrown_away = 32u << 20;  ///< bytes; beyond, the connection is closed
    std::chrono::seconds progress_within{10};     ///< the other end takes a piece of the answer
    unsigned threads = 4;
};

/// Answers a whole request. Called by several threads at once.
using Answerer = std::function<Response(const Request& request)>;

/// Whether a request of which the head is here may bring photos. Called by several threads at once.
using UploadCheck = std::function<bool(const Request& head)>;

/// Throws as Server does where nothing can listen at `host` and `port`; leaves nothing behind.
void check_listening(const std::string& host, int port);

/// One request a connection: what a second one on the same connection would begin with cannot be
/// mistaken for part of the first.
class Server {
  public:
    /// Listens at `host` (a name or an address; port 0: any that is free). Throws
    /// system::SystemError when it cannot, system::UsageError for a host that is none. `log` must
    /// outlive it.
    Server(const std::string& host, int port, Answerer answerer, AccessLog& log,
           const ServerLimits& limits = {}, UploadCheck may_upload = {});
    ~Server();

    [[nodiscard]] int port() const;
    /// Serves until stop(). Requests that were complete are answered before it returns.
    void run();
    void stop();  ///< from any thread

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace gallipot::web
