#include "base/system/files.hpp"

#include <filesystem>
#include <fstream>
#include <string>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/guard.hpp"
#include "base/system/process.hpp"
#include "golden.hpp"

namespace fs = std::filesystem;
using namespace gallipot::system;
using gallipot::tests::slurp;

namespace {

/// A folder of its own for one test, removed with all that is in it.
struct Folder {
    Folder() {
        forget_protected();  // a run of its own, in which numbers of files may come again
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
    } catch (const Error& error) {
        return error.what();
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
    write_whole(file, "%PDF-old");
    CHECK_THROWS_AS(make_whole(file,
                               [&](const fs::path& unfinished) {
                                   write_whole(unfinished, "half");
                                   throw SystemError{"the disk is full"};
                               }),
                    SystemError);
    CHECK(slurp(file) == "%PDF-old");
    CHECK(folder.count() == 1);
    make_whole(file, [&](const fs::path& unfinished) {
        CHECK(slurp(file) == "%PDF-old");
        write_whole(unfinished, "%PDF-whole");
    });
    CHECK(slurp(file) == "%PDF-whole");
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
               Catch::Matchers::ContainsSubstring("none.yaml") &&
                   Catch::Matchers::ContainsSubstring("check the name"));
    CHECK_THAT(message_of([&] { read_file(folder.path); }),
               Catch::Matchers::ContainsSubstring("it is a folder and no file"));
    CHECK_THAT(message_of([&] { write_whole(folder.path / "no/such/x", "x"); }),
               Catch::Matchers::ContainsSubstring("no/such/x"));
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

TEST_CASE("a file of any size is read whole") {
    const Folder folder;
    for (const std::size_t size :
         {0, 1, 4095, 4096, 4097, 65535, 65536, 65537, 131072, 131073, 1000000}) {
        std::string bytes;
        for (std::size_t i = 0; i < size; ++i) bytes += static_cast<char>('a' + i * i % 26);
        write_whole(folder.path / "file", bytes);
        INFO(size);
        CHECK(read_file(folder.path / "file") == bytes);
        CHECK(read_file(folder.path / "file", size) == bytes);
        if (size > 0)
            CHECK_FALSE(message_of([&] { read_file(folder.path / "file", size - 1); }).empty());
    }
}

TEST_CASE("a file beyond the bound is refused") {
    const Folder folder;
    write_whole(folder.path / "big", std::string(5000, 'x'));
    CHECK_THAT(message_of([&] { read_file(folder.path / "big", 4999); }),
               Catch::Matchers::ContainsSubstring("more than 4999 bytes"));
    CHECK(read_file(folder.path / "big", 5000).size() == 5000);
}

TEST_CASE("files that belong together are all new, or all as they were") {
    const Folder folder;
    write_whole(folder.path / "a", "%PDF-old a");
    write_whole(folder.path / "b", "%PDF-old b");
    {
        FileSet set;
        set.add(folder.path / "a", "%PDF-new a");
        set.add(folder.path / "b", "%PDF-new b");
        CHECK(slurp(folder.path / "a") == "%PDF-old a");
        CHECK(slurp(folder.path / "b") == "%PDF-old b");
    }
    CHECK(folder.count() == 2);
    CHECK(slurp(folder.path / "a") == "%PDF-old a");
    FileSet set;
    set.add(folder.path / "a", "%PDF-new a");
    set.add(folder.path / "b", "%PDF-new b");
    set.add(folder.path / "c", "");
    set.put_in_place();
    CHECK(slurp(folder.path / "a") == "%PDF-new a");
    CHECK(slurp(folder.path / "b") == "%PDF-new b");
    CHECK(slurp(folder.path / "c").empty());
    CHECK(folder.count() == 3);
}

TEST_CASE("more files than a process may have open are still put in place together") {
    const Folder folder;
    constexpr int many = 1500;
    {
        FileSet set;
        for (int i = 0; i < many; ++i) set.add(folder.path / std::to_string(i), std::to_string(i));
        set.put_in_place();
    }
    CHECK(folder.count() == many);
    CHECK(slurp(folder.path / "1499") == "1499");
}

TEST_CASE("where new and old are mixed a note says so, and the next time takes it away") {
    const Folder folder;
    for (const char* name : {"a", "b", "c"}) write_whole(folder.path / name, "%PDF-old");
    const auto write_all = [&](FileSet& set) {
        for (const char* name : {"a", "b", "c"}) set.add(folder.path / name, "%PDF-new");
    };
    {
        FileSet set;
        write_all(set);
        // No file goes over a folder: as if the disk failed in the middle.
        fs::remove(folder.path / "b");
        fs::create_directory(folder.path / "b");
        CHECK_THAT(message_of([&] { set.put_in_place(); }),
                   Catch::Matchers::ContainsSubstring("Of 3 files 1 are new: run it again"));
    }
    CHECK(slurp(folder.path / "a") == "%PDF-new");
    CHECK(slurp(folder.path / "c") == "%PDF-old");
    CHECK_THAT(slurp(folder.path / FileSet::note_name),
               Catch::Matchers::ContainsSubstring("some are") &&
                   Catch::Matchers::ContainsSubstring("run the same command again"));
    CHECK(folder.count() == 4);
    fs::remove(folder.path / "b");
    FileSet set;
    write_all(set);
    set.put_in_place();
    CHECK(slurp(folder.path / "c") == "%PDF-new");
    CHECK(folder.count() == 3);
}

TEST_CASE("what fails before anything is new leaves no note") {
    const Folder folder;
    {
        FileSet set;
        set.add(folder.path / "a", "%PDF-new");
        set.add(folder.path / "b", "%PDF-new");
        fs::create_directory(folder.path / "a");  // since
        CHECK_FALSE(message_of([&] { set.put_in_place(); }).empty());
    }
    CHECK(folder.count() == 1);
    FileSet another;
    CHECK_THAT(message_of([&] { another.add(folder.path / "a", "x"); }),
               Catch::Matchers::ContainsSubstring("give the name of a file"));
}

TEST_CASE("a file that is there and may not be read is an error, not a file that is absent") {
    const Folder folder;
    fs::create_directory(folder.path / "there");
    CHECK_FALSE(message_of([&] { read_if_there(folder.path / "there"); }).empty());
    write_whole(folder.path / "file", "x");
    CHECK_FALSE(read_if_there(folder.path / "file" / "below").has_value());
    CHECK_FALSE(read_if_there(folder.path / "none").has_value());
}

TEST_CASE("new files have the rights that the user's mask leaves") {
    const Folder folder;
    const mode_t before = ::umask(027);
    write_whole(folder.path / "card.pdf", "x");
    make_whole(folder.path / "copy", [](const fs::path&) {});
    ::umask(before);
    for (const char* name : {"card.pdf", "copy"})
        CHECK((fs::status(folder.path / name).permissions() & fs::perms::all) ==
              (fs::perms::owner_read | fs::perms::owner_write | fs::perms::group_read));
}

TEST_CASE("a signal waits for what is being put in place, then removes what is unfinished") {
    const Folder folder;
    const pid_t child = ::fork();
    if (child == 0) {
        prepare_process();
        const TempFile half((folder.path / "half").string());
        write_whole(half.name(), "half");
        {
            const SignalBlock together;
            ::raise(SIGTERM);
            write_whole(folder.path / "whole", "whole");
        }
        write_whole(folder.path / "too late", "x");
        ::_exit(0);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFSIGNALED(status));
    CHECK(WTERMSIG(status) == SIGTERM);
    CHECK(read_file(folder.path / "whole") == "whole");
    CHECK(folder.count() == 1);
}
