#pragma once

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

/// The photos of visits: files in a folder beside the log, each under the hash of what is in it.
/// They are not in the log's own file because that is read whole before every write: 600 photos
/// would make each visit wait for 200 MB. The log's entries name them, so that the log still says
/// whether a photo is the one that was taken.
namespace gallipot::log {

/// SHA-256 of the file, as 64 small hexadecimal digits: the same photo is the same file.
using PhotoId = std::string;
inline constexpr std::size_t photo_id_length = 64;
inline constexpr std::size_t maximum_photos = 4;  ///< of one visit

[[nodiscard]] bool is_photo_id(std::string_view text);

/// Ids as the log's table has them, apart by a space; none for a text that is not that.
std::optional<std::vector<PhotoId>> parse_photos(const std::string& text);
std::string print_photos(const std::vector<PhotoId>& photos);

/// May be shared between threads and with other processes. Everything throws system::SystemError.
class PhotoFiles {
  public:
    explicit PhotoFiles(std::filesystem::path folder) : folder_(std::move(folder)) {}

    /// Makes the folder, for its owner alone, with the first photo. On the disk, and read again
    /// from there, when it returns; a photo that is there already stays one.
    PhotoId keep(std::string_view photo) const;

    [[nodiscard]] bool has(const PhotoId& id) const;
    /// None where it is not there any more, or is not what it was.
    [[nodiscard]] std::optional<std::string> read(const PhotoId& id) const;

    /// Copies them into another folder of photos; those that read() does not give are returned.
    [[nodiscard]] std::vector<PhotoId> copy_to(const std::filesystem::path& folder,
                                               const std::vector<PhotoId>& photos) const;

    [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

  private:
    [[nodiscard]] std::filesystem::path file_of(const PhotoId& id) const;

    std::filesystem::path folder_;
};

/// hall.photos beside hall.visits.sqlite; copy.sqlite.photos beside copy.sqlite.
std::filesystem::path photos_beside(const std::filesystem::path& log_file);

}  // namespace gallipot::log
