#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <string>
#include <vector>

/// SQLite's file layer with something between: a test decides what happens at the n-th call.
namespace gallipot::tests {

/// A call of the file layer, in the order in which SQLite makes them.
struct FileCall {
    std::int64_t number;  ///< from 1
    const char* what;     ///< "write", "sync", ...
    std::string file;
    int usual_error;  ///< the code that SQLite would get from it
};

/// While one lives, every log of this process is read and written through it. Nothing waits for the
/// disk: what was not synced by SQLite is known, and can be lost on purpose.
class HookedFiles {
  public:
    HookedFiles();
    ~HookedFiles();
    HookedFiles(const HookedFiles&) = delete;
    HookedFiles& operator=(const HookedFiles&) = delete;

    /// Asked at every call from now on, counted anew: 0 to go on, else the error to return.
    void at_each_call(std::function<int(const FileCall&)> hook);
    void leave_alone() { at_each_call(nullptr); }
    /// Since at_each_call().
    [[nodiscard]] std::int64_t calls() const;

    /// What another process left on the disk is what is there from now on; of it nothing is lost.
    void look_again();
    /// What a power cut does: of what was written since the last sync each piece is there or not,
    /// as `chance` says. Files that were opened before are not to be used any more.
    void lose_power(const std::function<bool()>& chance);
};

}  // namespace gallipot::tests
