#include "web/gate.hpp"

#include <atomic>
#include <condition_variable>
#include <cstring>
#include <deque>
#include <fmt/format.h>
#include <map>
#include <mutex>
#include <netdb.h>
#include <poll.h>
#include <sys/epoll.h>
#include <sys/eventfd.h>
#include <sys/socket.h>
#include <thread>
#include <unistd.h>
#include <utility>
#include <vector>

#include "base/system/files.hpp"
#include "web/addresses.hpp"
#include "web/head.hpp"

namespace gallipot::web {
namespace {

using Clock = std::chrono::steady_clock;

/// How long and how much of a refused request is still read, so that the other end gets to see the
/// answer before the connection breaks.
constexpr std::chrono::milliseconds drain_within{2000};
constexpr std::size_t most_drained = 32u << 20;

/// Larger than any page, so that a worker never waits for a reader of one.
constexpr int send_buffer = 256 << 10;

class Descriptor {
  public:
    explicit Descriptor(int fd = -1) : fd_(fd) {}
    ~Descriptor() {
        if (fd_ >= 0) ::close(fd_);
    }
    Descriptor(Descriptor&& other) noexcept : fd_(std::exchange(other.fd_, -1)) {}
    Descriptor& operator=(Descriptor&& other) noexcept {
        std::swap(fd_, other.fd_);
        return *this;
    }
    [[nodiscard]] int get() const { return fd_; }

  private:
    int fd_;
};

struct Connection {
    Descriptor socket;
    std::string peer;
    Clock::time_point deadline;
    std::string received;
    std::size_t head_end = 0;  ///< 0: the head is not complete yet
    std::size_t whole = 0;     ///< bytes of head and body
    bool refused = false;      ///< answered; what still comes is thrown away
    std::size_t drained = 0;
};

std::string address_of(const sockaddr_storage& address, socklen_t length) {
    char host[NI_MAXHOST] = "";
    ::getnameinfo(reinterpret_cast<const sockaddr*>(&address), length, host, sizeof host, nullptr,
                  0, NI_NUMERICHOST);
    return host;
}

[[noreturn]] void cannot_listen(const std::string& where, const std::string& reason) {
    throw system::SystemError{"cannot listen at " + where + ": " + reason +
                              "; is another program using it? Choose another with --listen"};
}

Descriptor listen_at(const std::string& host, int port) {
    const std::string where = host + ":" + std::to_string(port);
    addrinfo wanted{};
    wanted.ai_socktype = SOCK_STREAM;
    wanted.ai_flags = AI_PASSIVE | AI_NUMERICSERV;
    addrinfo* found = nullptr;
    const int error = ::getaddrinfo(host.c_str(), std::to_string(port).c_str(), &wanted, &found);
    if (error != 0) cannot_listen(where, ::gai_strerror(error));
    const std::unique_ptr<addrinfo, decltype(&::freeaddrinfo)> all(found, &::freeaddrinfo);
    int why = 0;
    for (const addrinfo* one = found; one != nullptr; one = one->ai_next) {
        Descriptor socket(
            ::socket(one->ai_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, one->ai_protocol));
        const int yes = 1;
        if (socket.get() >= 0) {
            ::setsockopt(socket.get(), SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
            if (::bind(socket.get(), one->ai_addr, one->ai_addrlen) == 0 &&
                ::listen(socket.get(), SOMAXCONN) == 0)
                return socket;
        }
        why = errno;
    }
    cannot_listen(where, std::strerror(why));
}

std::string refusal(int status, std::string_view why) {
    const std::string text = fmt::format("Refused: {}\n", why);
    return fmt::format(
        "HTTP/1.1 {} Refused\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Length: {}\r\n"
        "Connection: close\r\nContent-Security-Policy: default-src 'none'\r\n"
        "X-Content-Type-Options: nosniff\r\nReferrer-Policy: no-referrer\r\n"
        "Cache-Control: no-store\r\n\r\n{}",
        status, text.size(), text);
}

/// Sends all of it, waiting for the other end as long as it makes progress.
bool send_all(int socket, const char* bytes, std::size_t count,
              std::chrono::milliseconds patience) {
    while (count > 0) {
        const ssize_t sent = ::send(socket, bytes, count, MSG_NOSIGNAL);
        if (sent >= 0) {
            bytes += sent;
            count -= static_cast<std::size_t>(sent);
            continue;
        }
        if (errno == EINTR) continue;
        if (errno != EAGAIN) return false;
        pollfd writable{socket, POLLOUT, 0};
        if (::poll(&writable, 1, static_cast<int>(patience.count())) <= 0) return false;
    }
    return true;
}

}  // namespace

struct Gate::Impl {
    Impl(const std::string& host, int port, const GateLimits& given, Answerer answers,
         Refusals& refused)
        : limits(given),
          answerer(std::move(answers)),
          refusals(refused),
          listener(listen_at(host, port)),
          poller(::epoll_create1(EPOLL_CLOEXEC)),
          wake(::eventfd(0, EFD_NONBLOCK | EFD_CLOEXEC)) {
        if (poller.get() < 0 || wake.get() < 0)
            throw system::SystemError{std::string("cannot wait for connections: ") +
                                      std::strerror(errno)};
        watch(listener.get(), EPOLLIN);
        watch(wake.get(), EPOLLIN);
    }

    const GateLimits limits;
    Answerer answerer;
    Refusals& refusals;
    Descriptor listener;
    Descriptor poller;
    Descriptor wake;
    std::atomic<bool> stopping{false};

    std::map<int, Connection> waiting;  // by socket; only the loop's thread touches it

    std::mutex mutex;
    std::condition_variable ready;
    std::deque<Connection> whole;  // requests for the workers
    bool closed = false;           // no more will come
    std::size_t in_work = 0;
    std::map<std::string, std::size_t> from;  // connections by address

    void watch(int fd, std::uint32_t events) const {
        epoll_event event{};
        event.events = events;
        event.data.fd = fd;
        ::epoll_ctl(poller.get(), EPOLL_CTL_ADD, fd, &event);
    }

    void loop() {
        std::vector<epoll_event> events(256);
        while (!stopping) {
            const int count =
                ::epoll_wait(poller.get(), events.data(), static_cast<int>(events.size()), 250);
            for (int i = 0; i < count; ++i) {
                const int fd = events.at(static_cast<std::size_t>(i)).data.fd;
                if (fd == listener.get())
                    accept_all();
                else if (fd != wake.get())
                    read(fd);
            }
            drop_late(Clock::now());
        }
    }

    void accept_all() {
        for (;;) {
            sockaddr_storage address{};
            socklen_t length = sizeof address;
            Descriptor socket(::accept4(listener.get(), reinterpret_cast<sockaddr*>(&address),
                                        &length, SOCK_NONBLOCK | SOCK_CLOEXEC));
            if (socket.get() < 0) {
                // Out of descriptors: those that only wait make room for those that ask.
                if ((errno == EMFILE || errno == ENFILE) && drop_oldest()) continue;
                return;
            }
            const std::string peer = address_of(address, length);
            if (!count_in(peer)) {
                refusals.refused(peer, "too many connections");
                continue;
            }
            if (connections() > limits.connections && !drop_oldest()) {
                refusals.refused(peer, "all places taken");
                count_out(peer);
                continue;
            }
            ::setsockopt(socket.get(), SOL_SOCKET, SO_SNDBUF, &send_buffer, sizeof send_buffer);
            const int fd = socket.get();
            Connection connection;
            connection.socket = std::move(socket);
            connection.peer = peer;
            connection.deadline = Clock::now() + limits.request_within;
            waiting.emplace(fd, std::move(connection));
            watch(fd, EPOLLIN | EPOLLRDHUP);
        }
    }

    bool count_in(const std::string& peer) {
        const std::lock_guard lock(mutex);
        std::size_t& count = from[peer];
        if (!is_loopback_host(peer) && count >= limits.from_one_address) return false;
        ++count;
        return true;
    }
    void count_out(const std::string& peer) {
        const std::lock_guard lock(mutex);
        const auto at = from.find(peer);
        if (--at->second == 0) from.erase(at);
    }
    std::size_t connections() {
        const std::lock_guard lock(mutex);
        return waiting.size() + whole.size() + in_work;
    }

    void drop(std::map<int, Connection>::iterator at) {
        count_out(at->second.peer);
        waiting.erase(at);  // closing takes it out of the poller
    }

    bool drop_oldest() {
        if (waiting.empty()) return false;
        auto oldest = waiting.begin();
        for (auto at = waiting.begin(); at != waiting.end(); ++at)
            if (at->second.deadline < oldest->second.deadline) oldest = at;
        refusals.refused(oldest->second.peer, "made room for others");
        drop(oldest);
        return true;
    }

    void drop_late(Clock::time_point now) {
        for (auto at = waiting.begin(); at != waiting.end();) {
            const auto here = at++;
            if (here->second.deadline > now) continue;
            // Browsers open connections ahead and may not use them: that is nothing to tell.
            if (!here->second.refused && !here->second.received.empty())
                refusals.refused(here->second.peer, "took too long to ask");
            drop(here);
        }
    }

    void read(int fd) {
        const auto at = waiting.find(fd);
        if (at == waiting.end()) return;
        Connection& connection = at->second;
        char piece[16384];
        const ssize_t count = ::recv(fd, piece, sizeof piece, 0);
        if (count < 0 && (errno == EAGAIN || errno == EINTR)) return;
        if (count <= 0) {
            drop(at);
            return;
        }
        if (connection.refused) {
            connection.drained += static_cast<std::size_t>(count);
            if (connection.drained > most_drained) drop(at);
            return;
        }
        connection.received.append(piece, static_cast<std::size_t>(count));
        if (connection.head_end == 0 && !read_head(connection)) return;
        if (connection.received.size() < connection.whole) return;
        connection.received.resize(connection.whole);
        hand_over(at);
    }

    /// True when the head is complete and good.
    bool read_head(Connection& connection) {
        const auto end = connection.received.find("\r\n\r\n");
        const std::size_t size = end == std::string::npos ? connection.received.size() : end + 4;
        if (size > limits.head) {
            refuse(connection, 431, "too long a head");
            return false;
        }
        if (end == std::string::npos) return false;
        const Head head =
            check_head(std::string_view(connection.received).substr(0, size), limits.body);
        if (head.status != 0) {
            refuse(connection, head.status, head.why);
            return false;
        }
        connection.head_end = size;
        connection.whole = size + head.body;
        return true;
    }

    /// Answers at once, then reads on for a moment: closing on unread bytes would break the
    /// connection before the other end has seen the answer.
    void refuse(Connection& connection, int status, std::string_view why) {
        refusals.refused(connection.peer, why);
        const std::string answer = refusal(status, why);
        ::send(connection.socket.get(), answer.data(), answer.size(), MSG_NOSIGNAL);
        ::shutdown(connection.socket.get(), SHUT_WR);
        connection.refused = true;
        connection.received = {};
        connection.deadline = Clock::now() + drain_within;
    }

    void hand_over(std::map<int, Connection>::iterator at) {
        ::epoll_ctl(poller.get(), EPOLL_CTL_DEL, at->first, nullptr);
        {
            const std::lock_guard lock(mutex);
            whole.push_back(std::move(at->second));
        }
        waiting.erase(at);
        ready.notify_one();
    }

    void work() {
        for (;;) {
            Connection connection;
            {
                std::unique_lock lock(mutex);
                ready.wait(lock, [&] { return closed || !whole.empty(); });
                if (whole.empty()) return;
                connection = std::move(whole.front());
                whole.pop_front();
                ++in_work;
            }
            const int socket = connection.socket.get();
            try {
                answerer(connection.received, connection.peer,
                         [&](const char* bytes, std::size_t count) {
                             return send_all(socket, bytes, count, limits.progress_within);
                         });
            } catch (const std::exception& error) {
                refusals.failed(std::string("a fault of ours: ") + error.what());
            }
            ::shutdown(socket, SHUT_WR);
            {
                const std::lock_guard lock(mutex);
                --in_work;
            }
            count_out(connection.peer);
        }
    }
};

Gate::Gate(const std::string& host, int port, const GateLimits& limits, Answerer answerer,
           Refusals& refusals)
    : impl_(std::make_unique<Impl>(host, port, limits, std::move(answerer), refusals)) {}
Gate::~Gate() = default;

int Gate::port() const {
    sockaddr_storage address{};
    socklen_t length = sizeof address;
    ::getsockname(impl_->listener.get(), reinterpret_cast<sockaddr*>(&address), &length);
    char port[NI_MAXSERV] = "0";
    ::getnameinfo(reinterpret_cast<const sockaddr*>(&address), length, nullptr, 0, port,
                  sizeof port, NI_NUMERICSERV);
    return std::atoi(port);
}

void Gate::run() {
    std::vector<std::thread> workers;
    for (std::size_t i = 0; i < impl_->limits.workers; ++i)
        workers.emplace_back([this] { impl_->work(); });
    impl_->loop();
    {
        const std::lock_guard lock(impl_->mutex);
        impl_->closed = true;
    }
    impl_->ready.notify_all();
    for (std::thread& worker : workers) worker.join();
}

void Gate::stop() {
    impl_->stopping = true;
    const std::uint64_t one = 1;
    // The loop looks every quarter of a second even if this cannot be written.
    if (::write(impl_->wake.get(), &one, sizeof one) < 0) return;
}

}  // namespace gallipot::web
