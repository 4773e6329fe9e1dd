#include "tracking/log/photo_files.hpp"

#include <algorithm>
#include <sstream>

#include "base/system/files.hpp"
#include "tracking/keys/hash.hpp"

namespace gallipot::log {
namespace fs = std::filesystem;
namespace {

/// More than any photo that is kept.
constexpr std::size_t maximum_bytes = 16u << 20;

void make_private_folder(const fs::path& folder) {
    std::error_code error;
    if (fs::is_directory(folder, error)) return;
    try {
        system::make_folder(folder);
    } catch (const system::UsageError& in_the_way) {  // nobody named this folder in a command
        throw system::SystemError(in_the_way.what());
    }
    fs::permissions(folder, fs::perms::owner_all, error);
    if (error)
        throw system::SystemError{"cannot keep others out of the folder '" + folder.string() +
                                  "': " + error.message()};
}

}  // namespace

bool is_photo_id(std::string_view text) {
    return text.size() == photo_id_length && std::ranges::all_of(text, [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
           });
}

std::optional<std::vector<PhotoId>> parse_photos(const std::string& text) {
    std::vector<PhotoId> photos;
    std::istringstream words(text);
    for (std::string word; words >> word;) {
        if (!is_photo_id(word) || photos.size() == maximum_photos) return std::nullopt;
        photos.push_back(word);
    }
    return photos;
}

std::string print_photos(const std::vector<PhotoId>& photos) {
    std::string text;
    for (const PhotoId& photo : photos) text += (text.empty() ? "" : " ") + photo;
    return text;
}

PhotoId PhotoFiles::keep(std::string_view photo) const {
    PhotoId id = keys::sha256_hex(photo);
    if (read(id)) return id;
    make_private_folder(folder_);
    system::write_whole(file_of(id), photo, system::Privacy::owner_only);
    if (!read(id))
        throw system::SystemError{"a photo cannot be read again from '" + folder_.string() +
                                  "'; look at the disk, and enter it again"};
    return id;
}

bool PhotoFiles::has(const PhotoId& id) const {
    std::error_code none;
    return is_photo_id(id) && fs::is_regular_file(fs::symlink_status(file_of(id), none));
}

std::optional<std::string> PhotoFiles::read(const PhotoId& id) const {
    if (!has(id)) return std::nullopt;
    std::string photo = system::read_file(file_of(id), maximum_bytes);
    if (keys::sha256_hex(photo) != id) return std::nullopt;
    return photo;
}

std::vector<PhotoId> PhotoFiles::copy_to(const fs::path& folder,
                                         const std::vector<PhotoId>& photos) const {
    const PhotoFiles to(folder);
    std::vector<PhotoId> missing;
    for (const PhotoId& id : photos) {
        if (const auto photo = read(id))
            to.keep(*photo);
        else
            missing.push_back(id);
    }
    return missing;
}

fs::path PhotoFiles::file_of(const PhotoId& id) const {
    return folder_ / (id + ".jpg");
}

fs::path photos_beside(const fs::path& log_file) {
    constexpr std::string_view usual_end = ".visits.sqlite";
    std::string name = log_file.filename().string();
    if (name.size() > usual_end.size() && name.ends_with(usual_end))
        name.erase(name.size() - usual_end.size());
    return log_file.parent_path() / (name + ".photos");
}

}  // namespace gallipot::log
