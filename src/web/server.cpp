#include "web/server.hpp"

#include <httplib.h>

#include "web/letters.hpp"

namespace gallipot::web {
namespace {

/// A request that has arrived whole, as the library's stream to read from, and the way back.
class Arrived : public httplib::Stream {
  public:
    Arrived(const std::string& request, std::string peer, const Send& send)
        : rest_(request), peer_(std::move(peer)), send_(send) {}

    [[nodiscard]] bool is_readable() const override { return true; }
    [[nodiscard]] bool is_writable() const override { return good_; }
    ssize_t read(char* to, std::size_t size) override {
        const std::size_t count = std::min(size, rest_.size());
        std::copy_n(rest_.data(), count, to);
        rest_.remove_prefix(count);
        return static_cast<ssize_t>(count);
    }
    ssize_t write(const char* from, std::size_t size) override {
        good_ = good_ && send_(from, size);
        return good_ ? static_cast<ssize_t>(size) : -1;
    }
    void get_remote_ip_and_port(std::string& ip, int& port) const override {
        ip = peer_;
        port = 0;
    }
    void get_local_ip_and_port(std::string& ip, int& port) const override {
        ip.clear();
        port = 0;
    }
    [[nodiscard]] socket_t socket() const override { return INVALID_SOCKET; }

    /// What follows the head.
    [[nodiscard]] std::string body() const { return std::string(rest_); }

  private:
    std::string_view rest_;
    std::string peer_;
    const Send& send_;
    bool good_ = true;
};

Request translate(const httplib::Request& from) {
    Request request;
    request.method = from.method;
    request.path = from.path;
    request.query = from.params;
    for (const auto& [name, value] : from.headers) request.headers.emplace(small(name), value);
    request.body = from.body;
    request.peer = from.remote_addr;
    return request;
}

void translate(const Response& from, httplib::Response& to) {
    to.status = from.status;
    for (const auto& [name, value] : from.headers) to.set_header(name, value);
    if (!from.stream) {
        to.set_content(from.body, from.type);
        return;
    }
    to.set_chunked_content_provider(from.type,
                                    [stream = from.stream](std::size_t, httplib::DataSink& sink) {
                                        bool there = true;
                                        stream([&](const std::string& piece) {
                                            there = sink.write(piece.data(), piece.size());
                                            return there;
                                        });
                                        if (there) sink.done();
                                        return there;
                                    });
}

/// The library's parser and writer without its sockets and threads.
class Http : public httplib::Server {
  public:
    explicit Http(App& app) {
        // The library takes a server without a socket of its own for one that is shutting down.
        svr_sock_ = 0;
        // Everything is answered here, before the library would look for a file or a route.
        set_pre_routing_handler([&app](const httplib::Request& asked, httplib::Response& answered) {
            translate(app.answer(translate(asked)), answered);
            return HandlerResponse::Handled;
        });
    }

    void answer(const std::string& request, const std::string& peer, const Send& send) {
        Arrived arrived(request, peer, send);
        bool closed = false;
        process(arrived, closed, [&](httplib::Request& parsed) {
            parsed.body = arrived.body();
            // Never compressed: pages are small, and what is secret in them keeps its length.
            parsed.headers.erase("Accept-Encoding");
            // Nor in parts.
            parsed.ranges.clear();
            parsed.headers.erase("Range");
        });
    }

  private:
    /// Newer versions of the library (Debian 13's 0.18) also ask for the addresses of both ends,
    /// which nothing here reads.
    template <class Setup>
    void process(Arrived& arrived, bool& closed, Setup setup) {
        const std::string nobody;
        if constexpr (requires {
                          this->process_request(arrived, nobody, 0, nobody, 0, true, closed, setup);
                      }) {
            this->process_request(arrived, nobody, 0, nobody, 0, true, closed, setup);
        } else {
            this->process_request(arrived, true, closed, setup);
        }
    }
};

}  // namespace

struct Server::Impl {
    Impl(const std::string& host, int port, App& app, Refusals& refusals, const GateLimits& limits)
        : http(app),
          gate(
              host, port, limits,
              [this](const std::string& request, const std::string& peer, const Send& send) {
                  http.answer(request, peer, send);
              },
              refusals) {}

    Http http;
    Gate gate;
};

Server::Server(const std::string& host, int port, App& app, Refusals& refusals,
               const GateLimits& limits)
    : impl_(std::make_unique<Impl>(host, port, app, refusals, limits)) {}
Server::~Server() = default;

int Server::port() const {
    return impl_->gate.port();
}
void Server::run() {
    impl_->gate.run();
}
void Server::stop() {
    impl_->gate.stop();
}

}  // namespace gallipot::web
