#include <fstream>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "folder.hpp"
#include "golden.hpp"
#include "plan_for_tests.hpp"
#include "tracking/log/log.hpp"

/// A log whose file is taken away, replaced or overwritten while it is open.
namespace gallipot::log {
namespace {

namespace fs = std::filesystem;
using tests::at;
using tests::Folder;

const Instant some_time{std::chrono::seconds(1'805'000'000)};

Draft seen(int count) {
    visit::Visit visit;
    visit.station = "K1";
    visit.time = at(2027, 3, 18, 8, 5);
    visit.seen = count;
    return {visit, "", {}, false};
}

std::string failure(const std::function<void()>& act) {
    try {
        act();
    } catch (const system::SystemError& error) {
        return error.what();
    }
    return "nothing was thrown";
}

void overwrite(const fs::path& file, const std::string& bytes, std::streamoff from = 0) {
    std::fstream stream(file, std::ios::in | std::ios::out | std::ios::binary);
    stream.seekp(from);
    stream << bytes;
}

std::string noise(std::size_t size) {
    std::string bytes;
    std::uint32_t state = 1;
    while (bytes.size() < size)
        bytes += static_cast<char>((state = state * 1664525 + 1013904223) >> 24);
    return bytes;
}

/// A log with ten entries, and a good copy of it.
struct Opened {
    Folder folder;
    fs::path file = folder / "log";
    fs::path copy = folder / "copy";
    Log log{file};

    Opened() {
        log.add_all(std::vector<visit::Visit>(10, seen(7).visit), some_time);
        CHECK(log.last("K1", 99).size() == 10);  // so that it is also open for reading
        log.back_up(copy);
    }
    void refuses(const std::string& why) {
        INFO(why);
        CHECK(failure([&] { log.record(seen(77), some_time); }).find(why) != std::string::npos);
        CHECK(failure([&] { log.add_all({seen(77).visit}, some_time); }).find(why) !=
              std::string::npos);
    }
    /// What is said to be recorded is in the file at its path, for whoever opens it anew.
    void takes(int count) {
        const auto recorded = log.record(seen(count), some_time);
        CHECK(recorded.outcome == Outcome::recorded);
        CHECK(Log(file).find(recorded.entry.number)->visit.seen == count);
        CHECK(log.last("K1", 99).size() == static_cast<std::size_t>(recorded.entry.number));
    }
};

TEST_CASE("log that is gone: deleted, nothing is recorded until one is there again") {
    Opened opened;
    fs::remove(opened.file);
    opened.refuses("is gone from its place");
    CHECK(failure([&] { (void)opened.log.last("K1", 9); }).find("is gone") != std::string::npos);
    CHECK_FALSE(fs::exists(opened.file));  // no empty one takes its place
    fs::copy_file(opened.copy, opened.file);
    opened.takes(10);  // it has all that was recorded
}

TEST_CASE("log that is gone: renamed, and named back") {
    Opened opened;
    fs::rename(opened.file, opened.folder / "elsewhere");
    opened.refuses("is gone from its place");
    fs::rename(opened.folder / "elsewhere", opened.file);
    opened.takes(10);
}

TEST_CASE("log that is gone: one that lacks an entry, in its place, is told of once") {
    Opened opened;
    opened.log.record(seen(10), some_time);
    fs::rename(opened.copy, opened.file);
    CHECK(failure([&] {
              opened.log.record(seen(10), some_time);
          }).find("another file has taken the place") != std::string::npos);
    opened.takes(10);
}

TEST_CASE("log that is gone: another that is no log takes nothing and stays as it is") {
    Opened opened;
    const std::string letter = "somebody's letter, long enough to be no header of any kind at all";
    std::ofstream(opened.folder / "letter") << letter;
    fs::rename(opened.folder / "letter", opened.file);
    opened.refuses("is not a visit log");
    CHECK(tests::slurp(opened.file) == letter);
}

TEST_CASE("log that is gone: overwritten by noise, anywhere, and made good again") {
    const std::string good = [] {
        const Opened opened;
        return tests::slurp(opened.file);
    }();
    // The header, every page, and all of it.
    for (std::size_t from = 0; from < good.size(); from += 4096) {
        INFO(from);
        Opened opened;
        overwrite(opened.file, noise(4096), static_cast<std::streamoff>(from));
        const std::string broken = tests::slurp(opened.file);
        CHECK(failure([&] { opened.log.record(seen(77), some_time); }) != "nothing was thrown");
        CHECK(tests::slurp(opened.file) == broken);
        CHECK(failure([&] { Log log(opened.file); }) != "nothing was thrown");
        overwrite(opened.file, tests::slurp(opened.copy));
        INFO(failure([&] { opened.takes(10); }));
        opened.takes(11);
    }
    Opened opened;
    overwrite(opened.file, noise(good.size()));
    opened.refuses("is not a visit log");
}

TEST_CASE("log that is gone: emptied, cut short, or a folder in its place") {
    Opened opened;
    SECTION("emptied") {
        fs::resize_file(opened.file, 0);
    }
    SECTION("cut short") {
        fs::resize_file(opened.file, 8192);
    }
    SECTION("a folder") {
        fs::remove(opened.file);
        fs::create_directory(opened.file);
    }
    CHECK(failure([&] { opened.log.record(seen(77), some_time); }) != "nothing was thrown");
}

TEST_CASE("log that is gone: without the files beside it nothing confirmed is lost") {
    for (const char* side : {"-wal", "-shm"}) {
        INFO(side);
        Opened opened;
        (void)opened.log.last("K1", 9);
        fs::remove(opened.file.string() + side);
        opened.takes(10);
        opened.takes(11);
    }
}

TEST_CASE("log: between two writes the file alone is the whole log") {
    Opened opened;
    fs::copy_file(opened.file, opened.folder / "by hand");
    CHECK(Log(opened.folder / "by hand").last("K1", 99).size() == 10);
}

TEST_CASE("log: a damaged file takes nothing, not even at its end") {
    Opened opened;
    overwrite(opened.file, noise(2048), 4096 + 2048);  // the entries: the second page's cells
    CHECK(failure([&] { Log log(opened.file); }).find("damaged") != std::string::npos);
    opened.refuses("damaged");
    // To read, it opens all the same and says what is wrong.
    const Log to_read(opened.file, Opening::to_read);
    REQUIRE(to_read.damage());
    CHECK(to_read.damage()->find("put a backup in its place") != std::string::npos);
    CHECK(failure([&] { to_read.back_up(opened.folder / "another"); }).find("damaged") !=
          std::string::npos);
    CHECK_FALSE(fs::exists(opened.folder / "another"));
}

TEST_CASE("log: an import takes time in proportion to its lines") {
    const Folder folder;
    Log log(folder / "log");
    const std::vector<visit::Visit> alike(20'000, seen(7).visit);
    const auto start = std::chrono::steady_clock::now();
    CHECK(log.add_all(alike, some_time) == 20'000);
    CHECK(log.add_all(alike, some_time) == 0);
    // On the slowest machine too: it was over 100 seconds.
    CHECK(std::chrono::steady_clock::now() - start < std::chrono::seconds(20));
}

}  // namespace
}  // namespace gallipot::log
