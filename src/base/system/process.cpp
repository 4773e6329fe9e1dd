#include "base/system/process.hpp"

#include <atomic>
#include <fcntl.h>
#include <unistd.h>

namespace gallipot::system {

/// One name in a list that a signal handler walks. Entries are added and never taken out, so the
/// handler sees a whole list at any moment.
struct TempFile::Entry {
    std::string name;
    std::atomic<bool> there{true};
    Entry* next = nullptr;
};

namespace {

constexpr int ending[] = {SIGINT, SIGTERM, SIGHUP};

std::atomic<TempFile::Entry*> first_entry = nullptr;
static_assert(std::atomic<TempFile::Entry*>::is_always_lock_free);

/// SA_RESETHAND has put the default back, so raising it again ends the program.
void remove_and_end(int signal) {
    for (const auto* entry = first_entry.load(); entry != nullptr; entry = entry->next)
        if (entry->there) ::unlink(entry->name.c_str());
    ::raise(signal);
}

sigset_t ending_signals() {
    sigset_t set{};
    sigemptyset(&set);
    for (const int signal : ending) sigaddset(&set, signal);
    return set;
}

}  // namespace

void prepare_process() {
    // open gives the lowest free number: the one that was found closed.
    for (const int standard : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO})
        if (::fcntl(standard, F_GETFD) == -1) ::open("/dev/null", O_RDONLY);
    std::signal(SIGXFSZ, SIG_IGN);
    for (const int signal : ending) {
        struct sigaction action {};
        ::sigaction(signal, nullptr, &action);
        if (action.sa_handler == SIG_IGN) continue;  // nohup
        action = {};
        action.sa_handler = remove_and_end;
        action.sa_flags = static_cast<int>(SA_RESETHAND);
        action.sa_mask = ending_signals();
        ::sigaction(signal, &action, nullptr);
    }
}

SignalBlock::SignalBlock() {
    const sigset_t set = ending_signals();
    pthread_sigmask(SIG_BLOCK, &set, &before_);
}
SignalBlock::~SignalBlock() {
    pthread_sigmask(SIG_SETMASK, &before_, nullptr);
}

TempFile::TempFile(const std::string& name) : entry_(new Entry{name}) {
    entry_->next = first_entry.load();
    while (!first_entry.compare_exchange_weak(entry_->next, entry_)) {
    }
}
TempFile::~TempFile() {
    if (entry_->there) ::unlink(entry_->name.c_str());
    entry_->there = false;
}

const std::string& TempFile::name() const {
    return entry_->name;
}
void TempFile::keep() {
    entry_->there = false;
}

}  // namespace gallipot::system
