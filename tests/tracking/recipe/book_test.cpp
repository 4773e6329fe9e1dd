#include "tracking/recipe/book.hpp"

#include "catch_all.hpp"

using namespace gallipot::recipe;

namespace {

LocalTime day(int days) {
    return std::chrono::local_days(std::chrono::year(2027) / 3 / 1) + std::chrono::days(days);
}

/// Told apart by their boron.
Recipe with(double boron) {
    Recipe recipe;
    recipe.boron = boron;
    return recipe;
}

double boron_at(const Book& book, int days, std::int64_t entry) {
    const SharedRecipe held = book.at("syrup", day(days), entry);
    return held ? held->boron : -1;
}

}  // namespace

TEST_CASE("where the log knows nothing the job's recipe holds", "[recipe]") {
    const Book book({}, {{"syrup", with(0.1)}});
    CHECK(boron_at(book, 0, 0) == 0.1);
    CHECK(boron_at(book, 500, 7) == 0.1);
    CHECK(book.number("syrup") == 1);
    CHECK(book.at("gone", day(0), 0) == nullptr);
    CHECK(book.number("gone") == 0);
}

TEST_CASE("what was filled before a recipe was noted never holds it", "[recipe]") {
    const Book book({{"syrup", with(0.1), {}, 0}, {"syrup", with(0.2), day(10), 5}},
                    {{"syrup", with(0.3)}});
    CHECK(boron_at(book, 9, 3) == 0.1);
    CHECK(boron_at(book, 10, 5) == 0.1);  // the same minute, but recorded before
    CHECK(boron_at(book, 10, 6) == 0.2);
    CHECK(boron_at(book, 8, 9) == 0.1);  // recorded late: done before
    CHECK(boron_at(book, 20, 9) == 0.2);
    CHECK(boron_at(book, 20, 0) == 0.2);  // set out by the job
    CHECK(boron_at(book, 2, 0) == 0.1);
    CHECK(book.number("syrup") == 3);  // with the one nobody has filled in yet
    CHECK(book.now("syrup")->boron == 0.3);
}

TEST_CASE("a recipe that was a slip never was", "[recipe]") {
    const Book book({{"syrup", with(0.1), {}, 0},
                     {"syrup", with(0.2), day(10), 5},
                     {"syrup", with(0.3), {}, 8}},
                    {{"syrup", with(0.3)}});
    for (const int days : {0, 10, 30}) CHECK(boron_at(book, days, 6) == 0.3);
    CHECK(book.number("syrup") == 1);
}
