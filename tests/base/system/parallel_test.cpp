#include "base/system/parallel.hpp"

#include <atomic>
#include <stdexcept>
#include <vector>

#include "catch_all.hpp"

using gallipot::system::in_parallel;

TEST_CASE("each number is worked on once, whatever the number of threads") {
    for (const std::size_t threads : {0u, 1u, 2u, 7u, 64u}) {
        std::vector<std::atomic<int>> done(1000);
        in_parallel(done.size(), threads, [&](std::size_t i) { ++done[i]; });
        for (const auto& times : done) REQUIRE(times == 1);
    }
    in_parallel(0, 4, [](std::size_t) { FAIL("nothing to do"); });
}

TEST_CASE("what fails first in order is what is told, and nothing new is begun") {
    std::atomic<int> begun = 0;
    try {
        in_parallel(1'000'000, 4, [&](std::size_t i) {
            ++begun;
            if (i >= 10) throw std::runtime_error(std::to_string(i));
        });
        FAIL("nothing was thrown");
    } catch (const std::runtime_error& error) {
        CHECK(std::string(error.what()) == "10");
    }
    CHECK(begun < 1000);
}
