#include "base/system/guard.hpp"

#include <filesystem>
#include <string>
#include <sys/stat.h>
#include <sys/un.h>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "folder.hpp"

namespace fs = std::filesystem;
using namespace gallipot::system;
using gallipot::tests::Folder;
using namespace std::string_literals;

namespace {

/// Each test is a run of its own.
struct Run {
    Run() { forget_protected(); }
    ~Run() { forget_protected(); }
    Run(const Run&) = delete;
    Run& operator=(const Run&) = delete;
};

/// Why it is refused, or empty.
std::string refusal(const fs::path& path, const std::string& bytes) {
    try {
        check_output(path, bytes);
    } catch (const UsageError& error) {
        return error.what();
    }
    return {};
}

std::string database(char how_written, const std::string& application) {
    std::string head(100, '\0');
    head.replace(0, 16, "SQLite format 3\0"s);
    head[18] = how_written;
    head.replace(68, 4, application);
    return head;
}

}  // namespace

TEST_CASE("a file is replaced by one of its kind alone") {
    const Run run;
    const Folder folder;
    const std::vector<std::string> kinds{"%PDF-1.7 ...",          "BEGIN:VCALENDAR\r\n",
                                         "<!DOCTYPE html><html>", "\xFF\xD8\xFF\xE0 JFIF",
                                         database(1, "ours"),     database(1, "them"),
                                         database(2, "ours")};
    for (std::size_t old = 0; old < kinds.size(); ++old)
        for (std::size_t made = 0; made < kinds.size(); ++made) {
            write_whole(folder / "file", kinds[old]);
            CAPTURE(old, made);
            CHECK(refusal(folder / "file", kinds[made]).empty() == (old == made));
        }
    for (const std::string& other :
         {""s, "%PDF"s, "title: Hall\n"s, "\x89PNG"s, "SQLite format 3"s}) {
        write_whole(folder / "file", other);
        CAPTURE(other);
        for (const std::string& kind : kinds) CHECK_FALSE(refusal(folder / "file", kind).empty());
        CHECK_FALSE(refusal(folder / "file", other).empty());
        CHECK(refusal(folder / "new", other).empty());
    }
    write_whole(folder / "file", "<!doctype HTML>");
    CHECK(refusal(folder / "file", "<!DOCTYPE html>").empty());
}

TEST_CASE("what is no regular file is not written to, and links are not followed") {
    const Run run;
    const Folder folder;
    const std::string pdf = "%PDF-1.7";
    write_whole(folder / "old.pdf", pdf);
    REQUIRE(refusal(folder / "old.pdf", pdf).empty());
    fs::create_symlink(folder / "old.pdf", folder / "link");
    fs::create_symlink(folder / "none", folder / "nowhere");
    fs::create_directory(folder / "folder");
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    CHECK_THAT(refusal(folder / "link", pdf), Catch::Matchers::ContainsSubstring("is a link"));
    CHECK_THAT(refusal(folder / "nowhere", pdf), Catch::Matchers::ContainsSubstring("is a link"));
    CHECK_THAT(refusal(folder / "folder", pdf), Catch::Matchers::ContainsSubstring("a folder"));
    CHECK_THAT(refusal(folder / "folder" / "", pdf),
               Catch::Matchers::ContainsSubstring("a folder"));
    CHECK_THAT(refusal(folder / "folder" / "..", pdf),
               Catch::Matchers::ContainsSubstring("a folder"));
    CHECK_THAT(refusal(folder / "pipe", pdf), Catch::Matchers::ContainsSubstring("a pipe"));
    CHECK_THAT(refusal("/dev/null", pdf), Catch::Matchers::ContainsSubstring("a device"));
    CHECK_THROWS_AS(check_output_name(folder / "no" / "such.pdf"), UsageError);
    CHECK_NOTHROW(check_output_name(folder / "new.pdf"));
}

TEST_CASE("what was read in a run is not replaced in it, whatever it is called") {
    const Run run;
    const Folder folder;
    const std::string pdf = "%PDF-1.7";
    for (const char* name : {"read.pdf", "looked-for.pdf", "named.pdf", "other.pdf"})
        write_whole(folder / name, pdf);
    read_file(folder / "read.pdf");
    read_if_there(folder / "looked-for.pdf");
    read_named_file(folder / "named.pdf");
    fs::create_hard_link(folder / "read.pdf", folder / "same.pdf");
    for (const char* name : {"read.pdf", "looked-for.pdf", "named.pdf", "same.pdf"}) {
        CAPTURE(name);
        CHECK_THAT(refusal(folder / name, pdf), Catch::Matchers::ContainsSubstring("read here"));
    }
    CHECK(refusal(folder / "other.pdf", pdf).empty());
    forget_protected();
    CHECK(refusal(folder / "read.pdf", pdf).empty());
}

TEST_CASE("a protected name stays free, and the file of that name is safe under every other") {
    const Run run;
    const Folder folder;
    const std::string pdf = "%PDF-1.7";
    fs::create_directory(folder / "deep");
    fs::create_directory_symlink(folder / "deep", folder / "way");
    protect(folder / "deep" / "job.secret", "the secret of this job");
    const auto what = Catch::Matchers::ContainsSubstring("the secret of this job");
    for (const bool there : {false, true}) {
        if (there) write_whole(folder / "deep" / "job.secret", pdf);
        CAPTURE(there);
        CHECK_THAT(refusal(folder / "deep" / "job.secret", pdf), what);
        CHECK_THAT(refusal(folder / "way" / "job.secret", pdf), what);
        CHECK_THAT(refusal(folder / "deep" / ".." / "deep" / "." / "job.secret", pdf), what);
        CHECK(refusal(folder / "job.secret", pdf).empty());
    }
    fs::create_hard_link(folder / "deep" / "job.secret", folder / "other");
    CHECK_THAT(refusal(folder / "other", pdf), what);
}

TEST_CASE("a set of files is refused before any of them is in its place") {
    const Run run;
    const Folder folder;
    write_whole(folder / "a.pdf", "%PDF-old");
    write_whole(folder / "notes.txt", "mine");
    {
        FileSet set;
        set.add(folder / "a.pdf", "%PDF-new");
        CHECK_THROWS_AS(set.add(folder / "notes.txt", "%PDF-new"), UsageError);
    }
    CHECK(read_file(folder / "a.pdf") == "%PDF-old");
    forget_protected();
    // Somebody puts something of theirs there meanwhile.
    FileSet set;
    set.add(folder / "a.pdf", "%PDF-new");
    set.add(folder / "b.pdf", "%PDF-new");
    write_whole(folder / "a.pdf", "theirs");
    CHECK_THROWS_AS(set.put_in_place(), Error);
    CHECK(read_file(folder / "a.pdf") == "theirs");
    CHECK_FALSE(fs::exists(folder / "b.pdf"));
}

TEST_CASE("two files of a set cannot have one name") {
    const Run run;
    const Folder folder;
    FileSet set;
    set.add(folder / "a.pdf", "%PDF-one");
    CHECK_THROWS_AS(set.add(folder / "." / "a.pdf", "%PDF-two"), UsageError);
    CHECK_THROWS_AS(set.add(folder / "a.pdf", "BEGIN:VCALENDAR"), UsageError);
}

TEST_CASE("a note of the user's own that is called like ours stays") {
    const Run run;
    const Folder folder;
    write_whole(folder / FileSet::note_name, "buy sugar");
    FileSet set;
    set.add(folder / "a.pdf", "%PDF-new");
    set.add(folder / "b.pdf", "%PDF-new");
    CHECK_THROWS_AS(set.put_in_place(), UsageError);
    CHECK(read_file(folder / FileSet::note_name) == "buy sugar");
    CHECK_FALSE(fs::exists(folder / "a.pdf"));
}

TEST_CASE("a file of a set may be for its owner alone") {
    const Run run;
    const Folder folder;
    FileSet set;
    set.add(folder / "a.pdf", "%PDF-new");
    set.add(folder / "b.pdf", "%PDF-new", Privacy::owner_only);
    set.put_in_place();
    CHECK(rights_of(folder / "b.pdf") == Rights::owner_only);
    fs::permissions(folder / "a.pdf", fs::perms(0640));
    CHECK(rights_of(folder / "a.pdf") == Rights::others_may_read);
    if (::geteuid() == 0) {
        REQUIRE(::chown((folder / "b.pdf").c_str(), 65534, 65534) == 0);
        CHECK(rights_of(folder / "b.pdf") == Rights::owned_by_another);
    }
}

TEST_CASE("what is no regular file is not read, and nobody waits for it") {
    const Run run;
    const Folder folder;
    REQUIRE(::mkfifo((folder / "pipe").c_str(), 0600) == 0);
    fs::create_directory(folder / "folder");
    for (const fs::path& path : {folder / "pipe", folder / "folder", fs::path("/dev/zero")}) {
        CAPTURE(path);
        CHECK_THROWS_AS(read_file(path), SystemError);
        CHECK_THROWS_AS(read_if_there(path), SystemError);
        CHECK_THROWS_AS(read_named_file(path), UsageError);
        CHECK_THROWS_AS(refuse_irregular(path), SystemError);
    }
    CHECK_NOTHROW(refuse_irregular(folder / "none"));
}

TEST_CASE("a file that is not there is told with one of nearly its name") {
    const Run run;
    const Folder folder;
    write_whole(folder / "hall.yaml", "title: Hall\n");
    try {
        read_named_file(folder / "hal.yaml");
        FAIL("it was read");
    } catch (const UsageError& error) {
        CHECK_THAT(error.what(), Catch::Matchers::ContainsSubstring("did you mean 'hall.yaml'?"));
    }
    CHECK_THROWS_AS(read_named_file(folder / "hall.yaml" / "x"), UsageError);
}

TEST_CASE("errors are exceptions, and their names drive no terminal") {
    const Run run;
    const Folder folder;
    try {
        read_file(folder / "a\x1b[2J\n\xE2\x80\xAE");
        FAIL("it was read");
    } catch (const std::runtime_error& error) {
        const std::string told = error.what();
        CHECK(told.find('\x1b') == std::string::npos);
        CHECK(told.find('\n') == std::string::npos);
        CHECK(told.find("\xE2\x80\xAE") == std::string::npos);
    }
}
