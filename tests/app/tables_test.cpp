#include "app/tables.hpp"

#include <filesystem>
#include <sys/stat.h>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "base/system/guard.hpp"
#include "folder.hpp"

namespace gallipot::tests {
namespace fs = std::filesystem;

TEST_CASE("tables are read in the job's folder and below it") {
    const Folder folder;
    fs::create_directory(folder / "tables");
    system::write_whole(folder / "stations.csv", "id\nK1\n");
    system::write_whole(folder / "tables/north.csv", "id\nN1\n");
    const auto open = app::tables_beside(folder / "job.yaml");
    const auto read = open("stations.csv");
    REQUIRE(read.source);
    CHECK(read.source->text == "id\nK1\n");
    CHECK(read.source->name == (folder / "stations.csv").string());
    REQUIRE(open("tables/north.csv").source);

    const auto missing = open("station.csv");
    CHECK_FALSE(missing.source);
    CHECK(missing.why.english() == "there is no such file");
    CHECK(missing.remedy.english() == "did you mean 'stations.csv'?");
    CHECK(open("stations.csv/x.csv").why.english() == "there is no such file");
}

TEST_CASE("what is no regular file is no table, and nothing is waited for") {
    const Folder folder;
    fs::create_directory(folder / "folder.csv");
    REQUIRE(mkfifo((folder / "pipe.csv").c_str(), 0600) == 0);
    fs::create_symlink("pipe.csv", folder / "to-pipe.csv");
    fs::create_symlink("nowhere.csv", folder / "to-nothing.csv");
    const auto open = app::tables_beside(folder / "job.yaml");
    CHECK(open("folder.csv").why.english() == "it is a folder");
    CHECK(open("pipe.csv").why.english() == "it is a pipe");
    CHECK(open("to-pipe.csv").why.english() == "it is a pipe");
    CHECK(open("to-nothing.csv").why.english() == "there is no such file");
}

TEST_CASE("a link to a table may lead elsewhere in the folder, not out of it") {
    const Folder folder;
    fs::create_directories(folder / "hall/tables");
    fs::create_directory(folder / "hall-of-others");
    system::write_whole(folder / "hall-of-others/stations.csv", "id\nX1\n");
    system::write_whole(folder / "hall/tables/now.csv", "id\nK1\n");
    fs::create_symlink("tables/now.csv", folder / "hall/stations.csv");
    fs::create_symlink("../hall-of-others/stations.csv", folder / "hall/others.csv");
    fs::create_directory_symlink("../hall-of-others", folder / "hall/way");
    fs::create_directory_symlink("hall", folder / "by-another-name");
    const auto open = app::tables_beside(folder / "hall/job.yaml");
    CHECK(open("stations.csv").source);
    for (const char* out : {"others.csv", "way/stations.csv"}) {
        INFO(out);
        CHECK_FALSE(open(out).source);
        CHECK(open(out).why.english() == "it is a link that leads out of the job's folder");
    }
    // The folder itself may be reached by a link.
    CHECK(app::tables_beside(folder / "by-another-name/job.yaml")("stations.csv").source);
}

TEST_CASE("a table that is too large is not read") {
    const Folder folder;
    system::write_whole(folder / "large.csv", "id\n");
    fs::resize_file(folder / "large.csv", job::maximum_bytes + 1);
    const auto large = app::tables_beside(folder / "job.yaml")("large.csv");
    CHECK_FALSE(large.source);
    CHECK(large.why.english() == "it holds 33554433 bytes, and at most 33554432 are read");
}

TEST_CASE("no output replaces a table, nor takes the name of one that is missing") {
    system::forget_protected();
    const Folder folder;
    system::write_whole(folder / "stations.csv", "%PDF-1.4 by its looks\n");
    const auto open = app::tables_beside(folder / "job.yaml");
    CHECK_NOTHROW(system::check_output_name(folder / "supplies.csv"));
    open("stations.csv");
    open("supplies.csv");
    CHECK_THROWS_AS(system::check_output(folder / "stations.csv", "%PDF-1.4"), system::UsageError);
    CHECK_THROWS_AS(system::check_output_name(folder / "supplies.csv"), system::UsageError);
    system::forget_protected();
}

}  // namespace gallipot::tests
