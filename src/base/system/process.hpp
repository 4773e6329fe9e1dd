#pragma once

#include <csignal>
#include <string>

/// What this process owes to what is around it.
namespace gallipot::system {

/// For `main` to call before all else. A standard file that is closed becomes /dev/null, or the
/// next file opened would take its number and what is printed would go into it. SIGINT, SIGTERM and
/// SIGHUP end the program as ever, once what is unfinished has been removed. A file beyond the
/// limit of its size is an error and not the end.
void prepare_process();

/// Blocks SIGINT, SIGTERM and SIGHUP in its thread for its lifetime; they are delivered after it.
class SignalBlock {
  public:
    SignalBlock();
    ~SignalBlock();
    SignalBlock(const SignalBlock&) = delete;
    SignalBlock& operator=(const SignalBlock&) = delete;

  private:
    sigset_t before_{};
};

/// A file that must not be left behind: removed when this goes, and when a signal ends the program.
/// Only SIGKILL and a power cut leave it.
class TempFile {
  public:
    explicit TempFile(const std::string& name);
    ~TempFile();
    TempFile(const TempFile&) = delete;
    TempFile& operator=(const TempFile&) = delete;

    [[nodiscard]] const std::string& name() const;
    /// It is where it is meant to be: nothing is to be removed any more.
    void keep();

    struct Entry;

  private:
    Entry* entry_;
};

}  // namespace gallipot::system
