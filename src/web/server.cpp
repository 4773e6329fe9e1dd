#include "web/server.hpp"

#include <atomic>
#include <condition_variable>
#include <cstring>
#include <exception>
#include <fmt/format.h>
#include <microhttpd.h>
#include <mutex>
#include <netdb.h>
#include <sys/resource.h>
#include <sys/socket.h>
#include <thread>
#include <unistd.h>
#include <utility>

#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"
#include "web/addresses.hpp"
#include "web/form.hpp"
#include "web/head.hpp"

namespace gallipot::web {
namespace {

/// Larger than any page, so that the system takes a whole one however slowly it is read.
constexpr int send_buffer = 256 << 10;
/// How often late connections are looked for.
constexpr std::chrono::milliseconds tick{100};

[[noreturn]] void no_host(const std::string& host, int port) {
    throw system::UsageError(
        fmt::format("no host called '{0}'; --listen 0.0.0.0:{1} is for phones on the same network, "
                    "--listen 127.0.0.1:{1} for this machine alone",
                    host, port));
}

[[noreturn]] void cannot_listen(const std::string& host, int port, int why) {
    const std::string where = fmt::format("cannot listen at {}:{}: ", host, port);
    if (why == EADDRINUSE)
        throw system::SystemError(where +
                                  "another program uses that port, perhaps gallipot serve "
                                  "itself; end it, or choose another with --listen");
    if (why == EADDRNOTAVAIL)
        throw system::UsageError(where + "this machine has no such address; --listen 0.0.0.0:" +
                                 std::to_string(port) + " takes all that it has");
    throw system::SystemError(where + std::strerror(why) + "; choose another with --listen");
}

/// A socket that listens there. Whoever calls owns it.
int listen_at(const std::string& host, int port) {
    addrinfo wanted{};
    wanted.ai_socktype = SOCK_STREAM;
    wanted.ai_flags = AI_PASSIVE | AI_NUMERICSERV;
    addrinfo* found = nullptr;
    const int error = ::getaddrinfo(host.c_str(), std::to_string(port).c_str(), &wanted, &found);
    if (error != 0) no_host(host, port);
    const std::unique_ptr<addrinfo, decltype(&::freeaddrinfo)> all(found, &::freeaddrinfo);
    int why = 0;
    for (const addrinfo* one = found; one != nullptr; one = one->ai_next) {
        const int socket =
            ::socket(one->ai_family, SOCK_STREAM | SOCK_NONBLOCK | SOCK_CLOEXEC, one->ai_protocol);
        const int yes = 1;
        if (socket >= 0) {
            ::setsockopt(socket, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
            if (::bind(socket, one->ai_addr, one->ai_addrlen) == 0 &&
                ::listen(socket, SOMAXCONN) == 0)
                return socket;
        }
        why = errno;
        if (socket >= 0) ::close(socket);
    }
    cannot_listen(host, port, why);
}

}  // namespace

void check_listening(const std::string& host, int port) {
    ::close(listen_at(host, port));
}

namespace {

std::string address_of(const sockaddr* address) {
    char host[NI_MAXHOST] = "";
    const socklen_t length =
        address->sa_family == AF_INET6 ? sizeof(sockaddr_in6) : sizeof(sockaddr_in);
    ::getnameinfo(address, length, host, sizeof host, nullptr, 0, NI_NUMERICHOST);
    return host;
}

/// As many connections as the system lets us have, with some descriptors left for the log.
ConnectionLimits possible(ConnectionLimits limits) {
    rlimit files{};
    if (::getrlimit(RLIMIT_NOFILE, &files) == 0 && files.rlim_cur < 2 * limits.total)
        limits.total = std::max<std::size_t>(files.rlim_cur / 2, 1);
    return limits;
}

Response refusal(const HeadError& error) {
    Response response;
    response.status = error.status;
    response.type = "text/plain; charset=utf-8";
    response.body = fmt::format("Refused: {}\n", error.why);
    add_safety_headers(response, "default-src 'none'");
    return response;
}

/// The other end has closed the connection and nothing of it is left to be read. The library misses
/// that where it comes with the last bytes, and would hold the place of an upload until it times
/// out.
bool has_left(int socket) {
    char byte = 0;
    return ::recv(socket, &byte, 1, MSG_PEEK | MSG_DONTWAIT) == 0;
}

/// A request on its way in and its answer on its way out.
struct Exchange {
    std::string target;
    Request request;
    bool head_read = false;
    bool may_upload = false;
    bool uploading = false;  ///< it has one of the places for uploads
    std::size_t thrown_away = 0;
    std::shared_ptr<const system::ScratchFile>
        file;  ///< of the answer, as long as it is being sent
};

int socket_of(MHD_Connection* connection) {
    return MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD)->connect_fd;
}
std::string peer_of(MHD_Connection* connection) {
    return address_of(
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CLIENT_ADDRESS)->client_addr);
}

HeaderFields fields_of(MHD_Connection* connection) {
    HeaderFields fields;
    const auto add = [](void* to, MHD_ValueKind, const char* name, std::size_t name_size,
                        const char* value, std::size_t value_size) {
        static_cast<HeaderFields*>(to)->emplace_back(std::string(name, name_size),
                                                     std::string(value, value_size));
        return MHD_YES;
    };
    MHD_get_connection_values_n(connection, MHD_HEADER_KIND, add, &fields);
    return fields;
}

using LibraryResponse = std::unique_ptr<MHD_Response, decltype(&MHD_destroy_response)>;

LibraryResponse translate(const Response& from) {
    MHD_Response* made = nullptr;
    if (from.file) {
        std::size_t size = 0;
        const int file = from.file->open_again(size);
        made = MHD_create_response_from_fd(size, file);  // closes it when it is done
        if (made == nullptr) ::close(file);
    } else {
        made = MHD_create_response_from_buffer(
            from.body.size(), const_cast<char*>(from.body.data()), MHD_RESPMEM_MUST_COPY);
    }
    LibraryResponse response(made, &MHD_destroy_response);
    if (!response) throw system::SystemError{"no memory or no file for an answer"};
    MHD_add_response_header(made, "Connection", "close");
    MHD_add_response_header(made, "Content-Type", from.type.c_str());
    for (const auto& [name, value] : from.headers)
        MHD_add_response_header(made, name.c_str(), value.c_str());
    return response;
}

}  // namespace

struct Server::Impl {
    Impl(const std::string& host, int port, Answerer answers, AccessLog& to,
         const ServerLimits& given, UploadCheck check)
        : limits(given),
          answerer(std::move(answers)),
          may_upload(std::move(check)),
          log(to),
          connections(possible(given.connections),
                      [](int socket) { ::shutdown(socket, SHUT_RDWR); }) {
        const int listener = listen_at(host, port);
        // The library's own limit on connections only guards against a fault of ours; it counts a
        // thread.
        const auto maximum =
            static_cast<unsigned>(limits.threads * (limits.connections.total + 64));
        // The head and the fields of the answer share this memory.
        const std::size_t memory = limits.head + 8192;
        daemon = MHD_start_daemon(
            MHD_USE_EPOLL_INTERNAL_THREAD | MHD_USE_ITC, 0, &accept, this, &handle, this,
            MHD_OPTION_LISTEN_SOCKET, listener, MHD_OPTION_THREAD_POOL_SIZE, limits.threads,
            MHD_OPTION_CONNECTION_LIMIT, maximum, MHD_OPTION_CONNECTION_MEMORY_LIMIT, memory,
            MHD_OPTION_CONNECTION_TIMEOUT, static_cast<unsigned>(limits.progress_within.count()),
            MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_NOTIFY_CONNECTION, &notify, this,
            MHD_OPTION_URI_LOG_CALLBACK, &begin, this, MHD_OPTION_NOTIFY_COMPLETED, &complete, this,
            MHD_OPTION_UNESCAPE_CALLBACK, &leave_escaped, nullptr, MHD_OPTION_END);
        if (daemon == nullptr) {
            ::close(listener);
            cannot_listen(host, port, errno);
        }
        bound = MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_BIND_PORT)->port;
    }
    ~Impl() {
        if (daemon != nullptr) MHD_stop_daemon(daemon);
    }
    Impl(const Impl&) = delete;
    Impl& operator=(const Impl&) = delete;

    const ServerLimits limits;
    const Answerer answerer;
    const UploadCheck may_upload;
    AccessLog& log;
    Connections connections;
    MHD_Daemon* daemon = nullptr;
    int bound = 0;  ///< the port
    std::atomic<std::size_t> uploads{0};

    std::mutex mutex;
    std::condition_variable wake;
    bool stopping = false;

    // What the library calls, from several threads. An exception must not reach it.

    static MHD_Result accept(void* self, const sockaddr* address, socklen_t) {
        return guarded(self, MHD_NO, [&](Impl& server) {
            const std::string peer = address_of(address);
            if (server.connections.accepts(network_of(peer))) return MHD_YES;
            server.log.refused(peer, "too many connections");
            return MHD_NO;
        });
    }

    static void notify(void* self, MHD_Connection* connection, void**,
                       MHD_ConnectionNotificationCode code) {
        guarded(self, 0, [&](Impl& server) {
            const int socket = socket_of(connection);
            if (code == MHD_CONNECTION_NOTIFY_CLOSED) {
                server.connections.remove(socket);
                return 0;
            }
            ::setsockopt(socket, SOL_SOCKET, SO_SNDBUF, &send_buffer, sizeof send_buffer);
            server.connections.add(socket, network_of(peer_of(connection)), Steady::now(),
                                   [&](const std::string& network) {
                                       server.log.refused(network, "made room for others");
                                   });
            return 0;
        });
    }

    static void* begin(void* self, const char* target, MHD_Connection* connection) {
        return guarded(self, static_cast<Exchange*>(nullptr), [&](Impl& server) {
            server.connections.begun(socket_of(connection));
            auto exchange = std::make_unique<Exchange>();
            exchange->target = target;
            return exchange.release();
        });
    }

    static void complete(void* self, MHD_Connection*, void** state, MHD_RequestTerminationCode) {
        const std::unique_ptr<Exchange> exchange(
            static_cast<Exchange*>(std::exchange(*state, nullptr)));
        if (exchange && exchange->uploading) --static_cast<Impl*>(self)->uploads;
    }

    /// The library leaves %XX as it is: Form and percent_decoded() see to it.
    static std::size_t leave_escaped(void*, MHD_Connection*, char* text) {
        return std::strlen(text);
    }

    /// Called with the head; with each piece of the body; and when all of it is here.
    static MHD_Result handle(void* self, MHD_Connection* connection, const char*,
                             const char* method, const char*, const char* piece, std::size_t* size,
                             void** state) {
        return guarded(self, MHD_NO, [&](Impl& server) {
            if (*state == nullptr) return MHD_NO;
            auto& exchange = *static_cast<Exchange*>(*state);
            if (!std::exchange(exchange.head_read, true))
                return server.read_head(connection, exchange, method);
            if (*size > 0)
                return server.read_body(connection, exchange, piece, std::exchange(*size, 0));
            server.connections.complete(socket_of(connection));
            return server.send(connection, exchange, server.answer(exchange.request));
        });
    }

    /// What `call` returns, or `failed` when it throws: then the connection is closed.
    template <class Result, class Call>
    static Result guarded(void* self, Result failed, Call call) noexcept {
        try {
            return call(*static_cast<Impl*>(self));
        } catch (...) {
            return failed;
        }
    }

    MHD_Result read_head(MHD_Connection* connection, Exchange& exchange, const char* method) {
        const HeaderFields fields = fields_of(connection);
        Request& request = exchange.request;
        request.peer = peer_of(connection);
        if (const auto error = check_head(method, exchange.target, fields, limits.head)) {
            log.refused(request.peer, error->why);
            return send(connection, exchange, refusal(*error));
        }
        request.method = method;
        const auto query = std::min(exchange.target.find('?'), exchange.target.size());
        request.path = percent_decoded(std::string_view(exchange.target).substr(0, query), false);
        const Form parts(
            std::string_view(exchange.target).substr(std::min(query + 1, exchange.target.size())));
        for (const auto& [name, value] : parts.fields()) request.query.emplace(name, value);
        for (const auto& [name, value] : fields)
            request.headers.emplace(strings::to_lower(name), value);
        exchange.may_upload = may_upload && may_upload(request);
        if (exchange.may_upload)
            MHD_set_connection_option(connection, MHD_CONNECTION_OPTION_TIMEOUT,
                                      static_cast<unsigned>(limits.upload_pause.count()));
        return MHD_YES;
    }

    /// Takes one of the places for uploads, if there is one.
    bool begin_upload() {
        if (++uploads <= limits.uploads) return true;
        --uploads;
        return false;
    }

    MHD_Result read_body(MHD_Connection* connection, Exchange& exchange, const char* piece,
                         std::size_t size) {
        std::string& body = exchange.request.body;
        if (exchange.may_upload) connections.received(socket_of(connection), size);
        if (exchange.may_upload && !exchange.uploading && !exchange.request.body_cut &&
            body.size() + size > limits.body) {
            exchange.uploading = begin_upload();
            exchange.request.uploads_busy = !exchange.uploading;
        }
        const std::size_t most = exchange.uploading ? limits.upload : limits.body;
        const std::size_t taken = std::min(size, most - body.size());
        body.append(piece, taken);
        // What is too much is read all the same, so that the other end gets to see the answer.
        exchange.request.body_cut = exchange.request.body_cut || taken < size;
        exchange.thrown_away += size - taken;
        return exchange.thrown_away > limits.maximum_thrown_away ? MHD_NO : MHD_YES;
    }

    Response answer(const Request& request) {
        try {
            return answerer(request);
        } catch (const std::exception& error) {
            log.failed(std::string("a fault of ours: ") + error.what());
        } catch (...) {
            log.failed("a fault of ours");
        }
        Response response;
        response.status = 500;
        response.type = "text/plain; charset=utf-8";
        response.body = "Something went wrong. What was not confirmed was not saved.\n";
        add_safety_headers(response, "default-src 'none'");
        return response;
    }

    MHD_Result send(MHD_Connection* connection, Exchange& exchange, const Response& response) {
        connections.answered(socket_of(connection));
        exchange.file = response.file;
        const LibraryResponse translated = translate(response);
        return MHD_queue_response(connection, static_cast<unsigned>(response.status),
                                  translated.get());
    }

    void run() {
        std::unique_lock lock(mutex);
        while (!wake.wait_for(lock, tick, [&] { return stopping; })) close_late();
        lock.unlock();
        const MHD_socket listener = MHD_quiesce_daemon(daemon);
        // Whoever is being answered gets the rest, as long as they take it.
        const auto end = Steady::now() + limits.progress_within;
        while (connections.being_answered() > 0 && Steady::now() < end) {
            close_late();
            std::this_thread::sleep_for(std::chrono::milliseconds(5));
        }
        MHD_stop_daemon(std::exchange(daemon, nullptr));
        ::close(listener);
    }

    void close_late() {
        connections.close_late(Steady::now(), [&](const std::string& network) {
            log.refused(network, "took too long to ask");
        });
        connections.close_left(has_left);
    }
};

Server::Server(const std::string& host, int port, Answerer answerer, AccessLog& log,
               const ServerLimits& limits, UploadCheck may_upload)
    : impl_(std::make_unique<Impl>(host, port, std::move(answerer), log, limits,
                                   std::move(may_upload))) {}
Server::~Server() = default;

int Server::port() const {
    return impl_->bound;
}
void Server::run() {
    impl_->run();
}
void Server::stop() {
    {
        const std::lock_guard lock(impl_->mutex);
        impl_->stopping = true;
    }
    impl_->wake.notify_all();
}

}  // namespace gallipot::web
