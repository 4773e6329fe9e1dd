#include "app/secret_watch.hpp"

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "folder.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

TEST_CASE("secret: a new one is used within a second, and a lost one is told of") {
    const tests::Folder folder;
    const fs::path file = folder / "hall.secret";
    const keys::Secret first = keys::make_secret();
    const keys::Secret second = keys::make_secret();
    system::write_whole(file, keys::print(first), system::Privacy::owner_only);
    std::vector<std::string> told;
    std::chrono::steady_clock::time_point now{};
    app::SecretWatch watch(
        file, first, [&](const std::string& sentence) { told.push_back(sentence); },
        [&] { return now; });
    const auto current = [&] {
        now += std::chrono::seconds(1);
        return keys::print(watch.current());
    };
    CHECK(current() == keys::print(first));
    CHECK(told.empty());

    fs::remove(file);
    CHECK(current() == keys::print(first));
    CHECK(current() == keys::print(first));
    REQUIRE(told.size() == 1);
    CHECK(told[0].find("is gone") != std::string::npos);

    system::write_whole(file, "nonsense");
    CHECK(current() == keys::print(first));
    CHECK(current() == keys::print(first));
    REQUIRE(told.size() == 2);

    fs::remove(file);
    fs::create_directory(file);
    CHECK(current() == keys::print(first));
    REQUIRE(told.size() == 3);
    fs::remove(file);

    system::write_whole(file, keys::print(second), system::Privacy::owner_only);
    CHECK(keys::print(watch.current()) == keys::print(first));  // within the same second
    CHECK(current() == keys::print(second));
    CHECK(current() == keys::print(second));
    REQUIRE(told.size() == 4);
    CHECK(told[3].find("has been replaced") != std::string::npos);
    CHECK(told[3].find(keys::print(second)) == std::string::npos);
}

}  // namespace
}  // namespace gallipot::cli
