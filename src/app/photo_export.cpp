#include "app/photo_export.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/diag/utf8.hpp"
#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "tracking/log/fields.hpp"

namespace gallipot::app {
namespace fs = std::filesystem;
namespace {

struct NamedPhoto {
    std::string name;
    log::PhotoId id;
};

/// Letters, digits and strokes of ASCII stay; a log from elsewhere may hold anything.
std::string in_file_name(std::string text) {
    for (char& c : text)
        if (!strings::is_letter_or_digit(c) && c != '-') c = '_';
    return text;
}

std::vector<NamedPhoto> photos_of(const log::Log& visits) {
    std::vector<NamedPhoto> photos;
    visits.each(
        log::Log::Which::active,
        [&](const log::Entry& entry) {
            std::string time = log::print_time(entry.visit.time);
            std::erase(time, ':');
            std::replace(time.begin(), time.end(), ' ', '_');
            for (std::size_t i = 0; i < entry.photos.size(); ++i)
                photos.push_back(
                    {fmt::format("{}_{}_{}-{}.jpg", time,
                                 in_file_name(log::print_target(entry.visit)), entry.number, i + 1),
                     entry.photos[i]});
            return true;
        },
        [](const log::Unreadable&) {});
    return photos;
}

[[noreturn]] void refuse_other_file(const fs::path& file) {
    throw system::UsageError("cannot write " + diag::quoted(file.string()) +
                             ": another file of that name is there; give another folder");
}

}  // namespace

PhotoExport export_photos(const log::Log& visits, const fs::path& folder) {
    std::error_code none;
    if (fs::equivalent(folder, visits.photos().folder(), none))
        throw system::UsageError("cannot write to " + diag::quoted(folder.string()) +
                                 ": the log keeps its photos there; give another folder");
    PhotoExport done;
    std::vector<NamedPhoto> wanted;
    for (NamedPhoto& photo : photos_of(visits)) {
        const fs::path file = folder / photo.name;
        if (fs::symlink_status(file, none).type() == fs::file_type::not_found) {
            wanted.push_back(std::move(photo));
        } else {
            system::refuse_irregular(file);
            if (visits.photos().read(photo.id) != system::read_if_there(file))
                refuse_other_file(file);
            ++done.there_before;
        }
    }
    if (!wanted.empty()) system::make_folder(folder);
    for (const NamedPhoto& photo : wanted) {
        const fs::path file = folder / photo.name;
        system::check_output_name(file);
        const auto bytes = visits.photos().read(photo.id);
        if (!bytes) {
            done.gone.push_back(photo.name);
            continue;
        }
        if (!system::write_new(file, *bytes)) refuse_other_file(file);
        ++done.written;
    }
    return done;
}

}  // namespace gallipot::app
