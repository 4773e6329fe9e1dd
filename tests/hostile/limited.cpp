#include "limited.hpp"

#include <algorithm>
#include <csignal>
#include <fcntl.h>
#include <fmt/format.h>
#include <fstream>
#include <set>
#include <stdexcept>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/diag/utf8.hpp"
#include "golden.hpp"

namespace gallipot::tests {
namespace {

#if !defined(__has_feature)
#define __has_feature(name) 0  // clang's way to tell
#endif
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__) || !defined(__OPTIMIZE__) || \
    __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
constexpr bool as_shipped = false;
#else
constexpr bool as_shipped = true;
#endif
constexpr int maximum_read = 200'000;  // bytes of errors; they show a hundred at most

std::set<std::string> files_in(const std::filesystem::path& folder) {
    std::set<std::string> names;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(folder))
        if (!entry.is_directory()) names.insert(entry.path().lexically_relative(folder).string());
    return names;
}

/// In the child, between fork and exec.
[[noreturn]] void become(const std::filesystem::path& folder, const std::string& log,
                         const std::vector<std::string>& arguments) {
    const auto limit = [](int what, rlim_t maximum) {
        const rlimit both{maximum, maximum};
        if (setrlimit(static_cast<__rlimit_resource>(what), &both) != 0) _exit(126);
    };
    if (as_shipped) limit(RLIMIT_CPU, maximum_seconds);
    limit(RLIMIT_CORE, 0);
    const int out = open((log + ".out").c_str(), O_CREAT | O_WRONLY, 0600);
    const int err = open((log + ".err").c_str(), O_CREAT | O_WRONLY, 0600);
    if (out < 0 || err < 0 || dup2(out, 1) < 0 || dup2(err, 2) < 0 || chdir(folder.c_str()) != 0)
        _exit(126);
    std::vector<char*> argv{const_cast<char*>("gallipot")};
    for (const std::string& argument : arguments)
        argv.push_back(const_cast<char*>(argument.c_str()));
    argv.push_back(nullptr);
    execv(GALLIPOT_PROGRAM, argv.data());
    _exit(127);
}

}  // namespace

bool Ended::tells(const std::string& file, const std::string& place,
                  const std::string& code) const {
    const std::string told = ": error: ", ends = "[" + code + "]";
    for (std::size_t from = 0; from < err.size();) {
        const auto to = std::min(err.find('\n', from), err.size());
        const std::string line = err.substr(from, to - from);
        from = to + 1;
        if (!line.starts_with(file) || !line.ends_with(ends)) continue;
        const std::string where = line.substr(file.size(), line.find(told) - file.size());
        const bool anywhere = where.size() >= 4 && where.front() == ':' &&
                              where.find_first_not_of(":0123456789") == std::string::npos &&
                              std::count(where.begin(), where.end(), ':') == 2;
        if (place == "?" ? anywhere : where == (place.empty() ? "" : ":" + place)) return true;
    }
    return false;
}

bool Ended::is_fit_to_be_read() const {
    if (err.size() > maximum_read) return false;
    for (std::size_t at = 0; at < err.size();) {
        const auto character = diag::character_at(err, at);
        if (!character.valid || (diag::is_control(character.code) && character.code != '\n') ||
            diag::is_direction_control(character.code))
            return false;
        at += character.bytes;
    }
    return true;
}

std::string Ended::fault() const {
    std::string wrong;
    if (exit != 1) wrong += fmt::format("exit {}, signal {}; ", exit, signal);
    if (!out.empty()) wrong += "there are results; ";
    if (!left.empty()) wrong += "written: " + left.front() + "; ";
    if (!is_fit_to_be_read()) wrong += "its errors are not fit to be read; ";
    if (as_shipped && megabytes > maximum_megabytes) wrong += fmt::format("{} MB; ", megabytes);
    return wrong;
}

Ended run_limited(const std::filesystem::path& folder, const std::vector<std::string>& arguments) {
    const Folder logs;
    const std::string log = (logs / "said").string();
    const auto before = files_in(folder);
    const pid_t child = fork();
    if (child < 0) throw std::runtime_error("cannot fork");
    if (child == 0) become(folder, log, arguments);
    int status = 0;
    rusage used{};
    if (wait4(child, &status, 0, &used) != child) throw std::runtime_error("cannot wait");

    Ended ended;
    ended.exit = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    ended.signal = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    ended.out = slurp(log + ".out");
    ended.err = slurp(log + ".err");
    const auto seconds = [](const timeval& time) {
        return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
    };
    ended.seconds = seconds(used.ru_utime) + seconds(used.ru_stime);
    ended.megabytes = static_cast<double>(used.ru_maxrss) * 1024 / 1e6;
    for (const auto& name : files_in(folder))
        if (before.count(name) == 0) ended.left.push_back(name);
    return ended;
}

std::string repeated(const std::string& text, std::size_t times) {
    std::string all;
    all.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i) all += text;
    return all;
}

std::string flat(const std::string& from, const std::string& to) {
    std::string text =
        slurp(std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/hostile/flat.yaml");
    const auto at = text.find(from);
    if (at == std::string::npos) throw std::logic_error("not in the flat: " + from);
    return text.replace(at, from.size(), to);
}

void write(const std::filesystem::path& path, const std::string& bytes) {
    std::filesystem::create_directories(path.parent_path());
    std::ofstream out(path, std::ios::binary);
    out << bytes;
    if (!out.flush()) throw std::runtime_error("cannot write " + path.string());
}

}  // namespace gallipot::tests
