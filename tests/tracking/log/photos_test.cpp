#include <fstream>
#include <sys/stat.h>

#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "catch_all.hpp"

#include "folder.hpp"
#include "sql.hpp"
#include "tracking/log/log.hpp"

namespace gallipot::log {
namespace {

using tests::Folder;

constexpr Instant some_time{std::chrono::seconds(1805317500)};

visit::Visit seen(int count) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = LocalTime(std::chrono::minutes(29'988'965));
    visit.seen = count;
    return visit;
}

Draft with_photos(int count, std::vector<PhotoId> photos, const std::string& token = {}) {
    Draft draft;
    draft.visit = seen(count);
    draft.token = token;
    draft.photos = std::move(photos);
    return draft;
}

mode_t rights(const std::filesystem::path& path) {
    struct stat info {};
    REQUIRE(::stat(path.c_str(), &info) == 0);
    return info.st_mode & 0777U;
}

}  // namespace

TEST_CASE("photos: beside the log, for the owner alone, under their hash") {
    const Folder folder;
    Log log(folder / "hall.visits.sqlite");
    CHECK(log.photos().folder() == folder / "hall.photos");
    CHECK_FALSE(std::filesystem::exists(log.photos().folder()));
    const PhotoId id = log.photos().keep("one");
    // printf one | sha256sum
    CHECK(id == "7692c3ad3540bb803c020b3aee66cd8887123234ea0c6e7143c0add73ff431ed");
    CHECK(rights(log.photos().folder()) == 0700);
    CHECK(rights(log.photos().folder() / (id + ".jpg")) == 0600);
    CHECK(log.photos().keep("one") == id);
    CHECK(log.photos().read(id) == "one");
    CHECK_FALSE(log.photos().read("../hall.visits.sqlite"));
    CHECK_FALSE(log.photos().has(std::string(64, '0')));
}

TEST_CASE("photos: an entry names them, in their order, and the same form twice is one") {
    const Folder folder;
    PhotoId a;
    PhotoId b;
    {
        Log log(folder / "hall.visits.sqlite");
        a = log.photos().keep("a");
        b = log.photos().keep("b");
        CHECK(log.record(with_photos(4, {b, a}, "t"), some_time).outcome == Outcome::recorded);
        CHECK(log.record(with_photos(4, {b, a}, "t"), some_time).outcome == Outcome::already);
        CHECK(log.record(with_photos(4, {a}, "t"), some_time).outcome == Outcome::form_used);
    }
    const Log log(folder / "hall.visits.sqlite");
    CHECK(log.find(1)->photos == std::vector<PhotoId>{b, a});
    CHECK_FALSE(log.find(2));
}

TEST_CASE("photos: a log of an older format has none, and takes some") {
    const Folder folder;
    const auto file = folder / "hall.visits.sqlite";
    std::filesystem::copy_file(
        std::string(GALLIPOT_SOURCE_DIR) + "/tests/tracking/log/data/format2.sqlite", file);
    Log log(file);
    std::size_t entries = 0;
    log.each(
        Log::Which::all,
        [&](const Entry& entry) {
            CHECK(entry.photos.empty());
            return ++entries > 0;
        },
        [](const Unreadable&) { FAIL("unreadable"); });
    CHECK(entries > 0);
    const auto recorded = log.record(with_photos(4, {log.photos().keep("a")}), some_time);
    CHECK(log.find(recorded.entry.number)->photos.size() == 1);
}

TEST_CASE("photos: a row that names none is left out and named") {
    const Folder folder;
    const auto file = folder / "hall.visits.sqlite";
    {
        Log log(file);
        log.record(with_photos(4, {log.photos().keep("a")}), some_time);
        log.record(with_photos(5, {}), some_time);
    }
    const std::string wrong = GENERATE(as<std::string>(), "'../../etc/passwd'", "'ABC'", "7",
                                       "replace(hex(zeroblob(160)), '00', '0')",
                                       "lower(hex(zeroblob(32))) || ' x'");
    tests::run_sql(file, "DROP TRIGGER entry_stays; UPDATE entry SET photos = " + wrong +
                             " WHERE number = 1; CREATE TRIGGER entry_stays BEFORE UPDATE ON entry\n"
                             "  BEGIN SELECT RAISE(ABORT, 'the log is append-only'); END;");
    const Log log(file);
    std::vector<std::string> left_out;
    std::size_t entries = 0;
    log.each(
        Log::Which::all, [&](const Entry&) { return ++entries > 0; },
        [&](const Unreadable& entry) { left_out.push_back(entry.column); });
    CHECK(entries == 1);
    CHECK(left_out == std::vector<std::string>{"photos"});
}

TEST_CASE("photos: a backup takes them along, and the folder goes back with it") {
    const Folder folder;
    PhotoId kept;
    PhotoId deleted;
    {
        Log log(folder / "hall.visits.sqlite");
        kept = log.photos().keep("kept");
        deleted = log.photos().keep("deleted");
        log.photos().keep("of a form that was never sent again");
        log.record(with_photos(4, {kept, deleted}), some_time);
        std::filesystem::remove(log.photos().folder() / (deleted + ".jpg"));
        CHECK(log.back_up(folder / "copy.sqlite") == std::vector<PhotoId>{deleted});
        // Again over itself: what is there already stays. (A file made meanwhile may have the number
        // of the one that was read and deleted.)
        system::forget_protected();
        CHECK(log.back_up(folder / "copy.sqlite").size() == 1);
    }
    std::filesystem::rename(folder / "copy.sqlite", folder / "other.visits.sqlite");
    std::filesystem::rename(folder / "copy.sqlite.photos", folder / "other.photos");
    const Log log(folder / "other.visits.sqlite");
    CHECK(log.photos().read(log.find(1)->photos.at(0)) == "kept");
    CHECK(std::distance(std::filesystem::directory_iterator(log.photos().folder()), {}) == 1);
}

TEST_CASE("photos: where they cannot be copied there is no backup") {
    const Folder folder;
    Log log(folder / "hall.visits.sqlite");
    log.record(with_photos(4, {log.photos().keep("a")}), some_time);
    std::ofstream(folder / "copy.sqlite.photos") << "in the way";
    CHECK_THROWS_AS(log.back_up(folder / "copy.sqlite"), system::Error);
    CHECK_FALSE(std::filesystem::exists(folder / "copy.sqlite"));
}

}  // namespace gallipot::log
