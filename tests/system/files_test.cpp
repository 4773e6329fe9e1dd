#include "system/files.hpp"

#include <filesystem>
#include <sys/stat.h>

#include "catch_all.hpp"

namespace fs = std::filesystem;
using namespace gallipot::system;

namespace {

/// A folder of its own for one test, removed with all that is in it.
struct Folder {
    Folder() {
        std::string name = (fs::temp_directory_path() / "gallipot-files-XXXXXX").string();
        REQUIRE(::mkdtemp(name.data()) != nullptr);
        path = name;
    }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    [[nodiscard]] int count() const {
        int n = 0;
        for ([[maybe_unused]] const auto& entry : fs::directory_iterator(path)) ++n;
        return n;
    }
    fs::path path;
};

std::string message_of(const auto& act) {
    try {
        act();
    } catch (const SystemError& error) {
        return error.message;
    }
    return {};
}

}  // namespace

TEST_CASE("a file is written whole over the old one and nothing else is left") {
    const Folder folder;
    const fs::path file = folder.path / "card.pdf";
    write_whole(file, "old");
    write_whole(file, std::string_view("new\0bytes", 9));
    CHECK(read_file(file) == std::string("new\0bytes", 9));
    CHECK(folder.count() == 1);
}

TEST_CASE("a file that somebody else writes is in its place when it is complete, and not before") {
    const Folder folder;
    const fs::path file = folder.path / "copy.sqlite";
    write_whole(file, "old");
    CHECK_THROWS_AS(make_whole(file,
                               [&](const fs::path& unfinished) {
                                   write_whole(unfinished, "half");
                                   throw SystemError{"the disk is full"};
                               }),
                    SystemError);
    CHECK(read_file(file) == "old");
    CHECK(folder.count() == 1);
    make_whole(file, [&](const fs::path& unfinished) {
        CHECK(read_file(file) == "old");
        write_whole(unfinished, "whole");
    });
    CHECK(read_file(file) == "whole");
    CHECK(folder.count() == 1);
}

TEST_CASE("a new file never replaces one that is there") {
    const Folder folder;
    const fs::path file = folder.path / "job.yaml";
    CHECK(write_new(file, "first"));
    CHECK_FALSE(write_new(file, "second"));
    CHECK(read_file(file) == "first");
    CHECK(folder.count() == 1);
}

TEST_CASE("a secret is readable by its owner alone") {
    const Folder folder;
    const fs::path file = folder.path / "job.secret";
    write_whole(file, "key", Privacy::owner_only);
    CHECK((fs::status(file).permissions() & fs::perms::all) ==
          (fs::perms::owner_read | fs::perms::owner_write));
}

TEST_CASE("what cannot be read or written says which file and what to do") {
    const Folder folder;
    CHECK_THAT(message_of([&] { read_file(folder.path / "none.yaml"); }),
               Catch::Contains("none.yaml") && Catch::Contains("check the name"));
    CHECK_THAT(message_of([&] { read_file(folder.path); }), Catch::Contains("name of a file"));
    CHECK_THAT(message_of([&] { write_whole(folder.path / "no/such/x", "x"); }),
               Catch::Contains("no/such/x"));
    CHECK_FALSE(read_if_there(folder.path / "none.yaml").has_value());
    CHECK(folder.count() == 0);
}

TEST_CASE("a target that is a folder is refused and the folder stays") {
    const Folder folder;
    fs::create_directory(folder.path / "out");
    CHECK_FALSE(message_of([&] { write_whole(folder.path / "out", "x"); }).empty());
    CHECK(fs::is_directory(folder.path / "out"));
    CHECK(folder.count() == 1);
}

TEST_CASE("a file beyond the bound is refused") {
    const Folder folder;
    write_whole(folder.path / "big", std::string(5000, 'x'));
    CHECK_THAT(message_of([&] { read_file(folder.path / "big", 4999); }),
               Catch::Contains("more than 4999 bytes"));
    CHECK(read_file(folder.path / "big", 5000).size() == 5000);
}
