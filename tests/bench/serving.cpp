// What the real program does over loopback with a long log: pages and posts a second, how long the
// slowest in a hundred takes, and how much memory it holds.
//   bench_serving PROGRAM [visits in the log] [seconds a row]
// The first row of the table is of a log with 20,000 visits (a hundred a station), to compare with.

#include <algorithm>
#include <arpa/inet.h>
#include <array>
#include <atomic>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fmt/format.h>
#include <fstream>
#include <functional>
#include <netinet/in.h>
#include <nlohmann/json.hpp>
#include <string>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

namespace fs = std::filesystem;

namespace {

using Clock = std::chrono::steady_clock;
constexpr int stations = 200;
constexpr int clients = 4;

[[noreturn]] void give_up(const std::string& why) {
    std::fprintf(stderr, "bench_serving: %s\n", why.c_str());
    std::exit(1);
}

double since(Clock::time_point start) {
    return std::chrono::duration<double>(Clock::now() - start).count();
}

std::string output_of(const std::string& command) {
    std::string out;
    FILE* pipe = ::popen(command.c_str(), "r");
    std::array<char, 65536> piece{};
    while (const std::size_t count = std::fread(piece.data(), 1, piece.size(), pipe))
        out.append(piece.data(), count);
    if (::pclose(pipe) != 0) give_up("failed: " + command);
    return out;
}

void write_job(const fs::path& file) {
    std::ofstream job(file);
    job << "title: A large house\nprepared: 2026-03-02\nby: Caretaker\nlanguages: [en]\n"
           "help: { region: AU }\nlog: { address: \"http://127.0.0.1:8017\" }\n"
           "measures: [ 1 tsp, { scale: 2 kg, marks: 1 g } ]\n"
           "mixes:\n  syrup: { title: Syrup, against: ants, form: liquid, basis: percent w/w, "
           "ingredients: { borax: 1, sugar: 20, water: rest } }\n"
           "containers:\n  cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }\n"
           "stations:\n";
    for (int i = 0; i < stations; ++i)
        job << fmt::format(
            "  - {{ id: T{}, place: Room {}, mix: syrup, container: cup, placed: 2026-03-02 19:30 "
            "}}\n",
            i, i);
}

void write_visits(const fs::path& file, int from, int to) {
    std::ofstream csv(file);
    csv << "station,time,by,seen,dead,level_percent,state,did,note\r\n";
    for (int i = from; i < to; ++i) {
        // Spread over thirty years, so that no two are alike.
        const long minute = static_cast<long>(i) * 15;
        const std::chrono::sys_days day = std::chrono::sys_days{std::chrono::year(1996) / 3 / 2} +
                                          std::chrono::days(minute / 1440);
        const std::chrono::year_month_day date{day};
        csv << fmt::format(
            "T{},{:04}-{:02}-{:02} {:02}:{:02},Caretaker,{},{},{},,,a note of some length\r\n",
            i % stations, static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
            static_cast<unsigned>(date.day()), minute % 1440 / 60, minute % 60, i % 50, i % 7,
            100 - i % 100);
    }
}

/// The program, serving until it goes out of scope.
class Served {
  public:
    Served(const std::string& program, const fs::path& job) {
        std::array<int, 2> pipe{};
        if (::pipe(pipe.data()) != 0) give_up("no pipe");
        const auto start = Clock::now();
        process_ = ::fork();
        if (process_ == 0) {
            ::prctl(PR_SET_PDEATHSIG, SIGTERM);  // however the bench ends
            ::dup2(pipe[1], 1);
            ::close(2);
            ::execl(program.c_str(), program.c_str(), "serve", job.c_str(), "--listen",
                    "127.0.0.1:0", nullptr);
            ::_exit(127);
        }
        ::close(pipe[1]);
        FILE* told = ::fdopen(pipe[0], "r");
        std::array<char, 4096> line{};
        while (std::fgets(line.data(), line.size(), told) != nullptr) {
            std::sscanf(line.data(), " http://127.0.0.1:%d", &port);
            const std::string text = line.data();
            if (const auto all = text.find("/ALL/"); all != std::string::npos)
                code = text.substr(all, text.find('\n') - all);
            if (text.starts_with("Stop with")) {
                started = since(start);
                return;
            }
        }
        give_up("the server did not start");
    }
    ~Served() {
        ::kill(process_, SIGTERM);
        ::waitpid(process_, nullptr, 0);
    }
    Served(const Served&) = delete;
    Served& operator=(const Served&) = delete;

    /// MiB: the most that was held at once, the file pages that SQLite maps included.
    [[nodiscard]] double memory() const {
        std::ifstream status(fmt::format("/proc/{}/status", process_));
        std::string word;
        double kib = 0;
        while (status >> word)
            if (word == "VmHWM:") status >> kib;
        return kib / 1024;
    }

    int port = 0;
    std::string code;  ///< path that the caretaker's code opens
    double started = 0;

  private:
    pid_t process_ = -1;
};

/// Sends one request; the answer, whose status must be the one expected.
std::string ask(int port, const std::string& request, const char* status) {
    const int wire = ::socket(AF_INET, SOCK_STREAM, 0);
    sockaddr_in to{};
    to.sin_family = AF_INET;
    to.sin_port = htons(static_cast<std::uint16_t>(port));
    to.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(wire, reinterpret_cast<sockaddr*>(&to), sizeof to) != 0) give_up("no connection");
    if (::send(wire, request.data(), request.size(), MSG_NOSIGNAL) < 0) give_up("not sent");
    std::string answer;
    std::array<char, 65536> piece{};
    for (;;) {
        const ssize_t count = ::recv(wire, piece.data(), piece.size(), 0);
        if (count <= 0) break;
        answer.append(piece.data(), static_cast<std::size_t>(count));
    }
    ::close(wire);
    if (answer.substr(9, 3) != status) give_up("answered " + answer.substr(0, 40));
    return answer;
}

/// `request` makes the n-th request. So many clients at once, each waiting for its answer.
void measure(const char* what, int port, double seconds, const char* status,
             const std::function<std::string(int)>& request) {
    std::atomic<int> next{0};
    std::atomic<std::size_t> bytes{0};
    std::vector<std::vector<double>> times(clients);
    const auto start = Clock::now();
    std::vector<std::thread> threads;
    for (std::vector<double>& mine : times)
        threads.emplace_back([&] {
            while (since(start) < seconds) {
                const std::string text = request(next++);
                const auto begun = Clock::now();
                bytes = ask(port, text, status).size();
                mine.push_back(since(begun) * 1000);
            }
        });
    for (std::thread& thread : threads) thread.join();
    const double took = since(start);
    std::vector<double> all;
    for (const auto& mine : times) all.insert(all.end(), mine.begin(), mine.end());
    std::sort(all.begin(), all.end());
    std::printf("  %-18s %7.0f a second, half within %5.1f ms, 99 %% within %6.1f ms, %zu bytes\n",
                what, static_cast<double>(all.size()) / took, all[all.size() / 2],
                all[all.size() * 99 / 100], bytes.load());
}

}  // namespace

int main(int argc, char** argv) {
    if (argc < 2) give_up("give the program");
    const std::string program = fs::absolute(argv[1]).string();
    const int maximum = argc > 2 ? std::atoi(argv[2]) : 1'000'000;
    const double seconds = argc > 3 ? std::atof(argv[3]) : 10;
    std::string folder = (fs::temp_directory_path() / "gallipot-bench-XXXXXX").string();
    if (::mkdtemp(folder.data()) == nullptr) give_up("no folder");
    const fs::path job = fs::path(folder) / "house.yaml";
    const fs::path csv = fs::path(folder) / "visits.csv";
    write_job(job);
    // Makes the secret, so that the plan has links.
    ::setenv("TERM", "dumb", 1);
    { const Served first(program, job); }
    std::vector<std::string> paths;
    const auto plan =
        nlohmann::json::parse(output_of(program + " plan --json " + job.string() + " 2>/dev/null"));
    for (const auto& station : plan.at("stations")) {
        const std::string link = station.at("link");
        paths.push_back(link.substr(link.find("/S/")));
    }
    int there = 0;
    int token = 0;
    for (const int visits : {std::min(20'000, maximum), maximum}) {
        write_visits(csv, there, visits);
        const auto start = Clock::now();
        output_of(program + " log " + job.string() + " --import " + csv.string());
        std::printf("%d visits in the log (%d imported in %.1f s)\n", visits, visits - there,
                    since(start));
        there = visits;
        const Served served(program, job);
        std::printf("  started in %.2f s, whole file looked over\n", served.started);
        // A phone of the caretaker.
        const std::string code =
            ask(served.port, "GET " + served.code + " HTTP/1.1\r\nHost: localhost\r\n\r\n", "303");
        const auto from = code.find("caretaker-");
        const std::string head = " HTTP/1.1\r\nHost: localhost\r\nCookie: " +
                                 code.substr(from, code.find(';', from) - from) + "\r\n";
        const auto path = [&](int i) { return paths[static_cast<std::size_t>(i) % paths.size()]; };
        measure("station pages", served.port, seconds, "200",
                [&](int i) { return "GET " + path(i) + head + "\r\n"; });
        measure("visits posted", served.port, seconds, "303", [&](int i) {
            const std::string body =
                fmt::format("token=bench-{}-{}&seen=3&note=x", visits, token + i);
            return fmt::format(
                "POST {}{}Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {}"
                "\r\n\r\n{}",
                path(i), head, body.size(), body);
        });
        measure("overviews", served.port, seconds, "200",
                [&](int) { return "GET /ALL" + head + "\r\n"; });
        measure("labels' pages", served.port, seconds, "200",
                [&](int i) { return "GET " + path(i) + " HTTP/1.1\r\nHost: localhost\r\n\r\n"; });
        token += 1'000'000;
        std::printf("  memory: %.0f MiB at most\n", served.memory());
        std::fflush(stdout);
    }
    fs::remove_all(folder);
}
