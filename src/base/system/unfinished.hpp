#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/system/files.hpp"
#include "base/system/process.hpp"

/// Private to this folder.
namespace gallipot::system {

/// What the note of FileSet begins with.
inline constexpr std::string_view unfinished_note = "gallipot was stopped while it put new papers";

/// A file that is not in its place yet: in the folder it is meant for, without a name where the
/// file system can do that (O_TMPFILE), so that not even SIGKILL leaves it behind; else under a
/// name beginning with ".gallipot-". All throw SystemError.
class Unfinished {
  public:
    enum class Name { needed, not_needed };
    Unfinished(const std::filesystem::path& target, Privacy privacy, Name name = Name::not_needed);
    ~Unfinished();
    Unfinished(const Unfinished&) = delete;
    Unfinished& operator=(const Unfinished&) = delete;

    void write(std::string_view bytes);
    /// Starts writing everything to the disk; flush() waits for it. Idempotent.
    void begin_flush();
    void flush();

    /// Over what is there, which check_output has seen; `flush_folder` is left to the caller.
    void put_over();
    /// False when the target is there already.
    bool put_new();

    [[nodiscard]] const std::filesystem::path& target() const { return target_; }
    [[nodiscard]] const std::string& name() const { return name_->name(); }
    /// The first head_size bytes that were written.
    [[nodiscard]] const std::string& head() const { return head_; }

  private:
    [[nodiscard]] bool link_to(const std::string& name) const;

    std::filesystem::path target_;
    std::string head_;
    int file_ = -1;
    std::optional<TempFile> name_;  ///< where it has none, the file is reached by its number
};

/// Without this a power cut may forget a new name. Not every file system can; that is no error.
void flush_folder(const std::filesystem::path& folder);

}  // namespace gallipot::system
