#pragma once

#include <arpa/inet.h>
#include <functional>
#include <netinet/in.h>
#include <stdexcept>
#include <sys/socket.h>
#include <sys/time.h>
#include <thread>
#include <unistd.h>

#include "house.hpp"
#include "multipart.hpp"
#include "web/server.hpp"

namespace gallipot::tests {

/// A plain socket: what is sent is what is written in the test.
class Wire {
  public:
    explicit Wire(int port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(static_cast<std::uint16_t>(port));
        to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
        const timeval patience{10, 0};
        ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        if (::connect(socket_, reinterpret_cast<sockaddr*>(&to), sizeof to) != 0)
            throw std::runtime_error("no connection");
    }
    ~Wire() { ::close(socket_); }
    Wire(const Wire&) = delete;
    Wire& operator=(const Wire&) = delete;

    bool send(const std::string& bytes) const {
        for (std::size_t sent = 0; sent < bytes.size();) {
            const ssize_t count =
                ::send(socket_, bytes.data() + sent, bytes.size() - sent, MSG_NOSIGNAL);
            if (count <= 0) return false;
            sent += static_cast<std::size_t>(count);
        }
        return true;
    }
    [[nodiscard]] std::string rest() const {
        std::string all;
        char piece[16384];
        for (;;) {
            const ssize_t count = ::recv(socket_, piece, sizeof piece, 0);
            if (count <= 0) return all;
            all.append(piece, static_cast<std::size_t>(count));
        }
    }

  private:
    int socket_;
};

/// The House's pages on a port of this machine.
class Served {
  public:
    explicit Served(const web::ServerLimits& limits = {}, const web::Rates& rates = {})
        : house(rates),
          server(
              "127.0.0.1", 0, [this](const web::Request& request) { return answer(request); },
              house.access_log, limits,
              [this](const web::Request& head) { return house.app().may_send_photos(head); }) {
        thread_ = std::thread([this] { server.run(); });
    }
    ~Served() { stop(); }
    Served(const Served&) = delete;
    Served& operator=(const Served&) = delete;
    void stop() {
        server.stop();
        if (thread_.joinable()) thread_.join();
    }

    [[nodiscard]] std::string ask(const std::string& bytes) const {
        const Wire wire(server.port());
        wire.send(bytes);
        return wire.rest();
    }
    [[nodiscard]] std::string get(const std::string& path) const {
        return ask("GET " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + cookie() +
                   "\r\n\r\n");
    }
    [[nodiscard]] std::string post(const std::string& path, const std::string& body) const {
        return ask("POST " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + cookie() +
                   "\r\nContent-Type: "
                   "application/x-www-form-urlencoded\r\nContent-Length: " +
                   std::to_string(body.size()) + "\r\n\r\n" + body);
    }

    /// The head of a form with photos of the caretaker's phone, up to its empty line.
    [[nodiscard]] static std::string upload_head(const std::string& path, std::size_t size,
                                                 const std::string& by = cookie()) {
        return "POST " + path + " HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: " + by +
               "\r\nContent-Type: " + multipart_type +
               "\r\nContent-Length: " + std::to_string(size) + "\r\n\r\n";
    }

    /// Of a phone of the caretaker.
    [[nodiscard]] static std::string cookie() {
        return House::caretaker(House::first_secret(), House::phone);
    }

    House house;
    std::function<web::Response(const web::Request&)> answer = [this](const web::Request& request) {
        return house.app().answer(request);
    };
    web::Server server;

  private:
    std::thread thread_;
};

inline std::string status(const std::string& answer) {
    return answer.substr(0, 12);
}

}  // namespace gallipot::tests
