#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>

#include "base/system/files.hpp"
#include "base/system/process.hpp"

/// Private to this folder.
namespace gallipot::system {

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
    /// Everything is on its way to the disk, and there after flush(); doing it twice is nothing.
    void begin_flush();
    void flush();

    /// Over what is there; `flush_folder` is left to the caller.
    void put_over();
    /// False when the target is there already.
    bool put_new();

    [[nodiscard]] const std::filesystem::path& target() const { return target_; }
    [[nodiscard]] const std::string& name() const { return name_->name(); }

  private:
    [[nodiscard]] bool link_to(const std::string& name) const;

    std::filesystem::path target_;
    int file_ = -1;
    std::optional<Leftover> name_;  ///< where it has none, the file is reached by its number
};

/// Without this a power cut may forget a new name. Not every file system can; that is no error.
void flush_folder(const std::filesystem::path& folder);

}  // namespace gallipot::system
