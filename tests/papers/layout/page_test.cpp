#include "papers/layout/page.hpp"

#include "catch_all.hpp"

#include "papers/layout/check.hpp"
#include "papers/layout/dump.hpp"

using namespace gallipot::layout;

namespace {

Item text_at(double x, double y, double width, double height, int group) {
    Item made;
    made.shape = Text{{x, y + height}, 10, Face::regular, black, "word", width};
    made.bounds = {x, y, width, height};
    made.group = group;
    return made;
}

Page page_of(std::vector<Item> items) {
    return {{100, 100}, {"first", "second"}, std::move(items)};
}

}  // namespace

TEST_CASE("boxes contain and overlap as drawn") {
    const Box box{10, 10, 20, 10};
    CHECK(box.contains({10, 10, 20, 10}));
    CHECK(box.contains({12, 12, 1, 1}));
    CHECK_FALSE(box.contains({9.9, 12, 1, 1}));
    CHECK_FALSE(box.contains({29.5, 12, 1, 1}));
    CHECK(box.overlaps({29, 19, 5, 5}));
    CHECK_FALSE(box.overlaps({30, 10, 5, 5}));
    CHECK_FALSE(box.overlaps({10, 20, 5, 5}));
}

TEST_CASE("a group is named once a page") {
    Page page{{100, 100}, {}, {}};
    CHECK(group_on(page, "first") == 0);
    CHECK(group_on(page, "second") == 1);
    CHECK(group_on(page, "first") == 0);
    CHECK(page.groups.size() == 2);
}

TEST_CASE("bounds take in the ink of a stroke") {
    const Box level = item(Line{{10, 20}, {30, 20}, 2, black}).bounds;
    CHECK(level.x == 10);
    CHECK(level.width == 20);
    CHECK(level.y == 19);
    CHECK(level.height == 2);
    const Box outline = item(Rectangle{{10, 10, 20, 10}, false, black, 2}).bounds;
    CHECK(outline.x == 9);
    CHECK(outline.right() == 31);
    CHECK(outline.bottom() == 21);
    CHECK(item(Rectangle{{10, 10, 20, 10}}).bounds.right() == 30);
    Path path;
    path.steps = {{PathStep::Kind::move, {10, 10}, {}, {}},
                  {PathStep::Kind::curve, {10, 5}, {20, 5}, {20, 10}},
                  {PathStep::Kind::close, {}, {}, {}}};
    const Box curve = item(path).bounds;
    CHECK(curve.x == 10);
    CHECK(curve.y == 5);
    CHECK(curve.right() == 20);
    CHECK(curve.bottom() == 10);
}

TEST_CASE("moving an item moves all of it") {
    Path path;
    path.steps = {{PathStep::Kind::move, {10, 10}, {}, {}},
                  {PathStep::Kind::curve, {1, 2}, {3, 4}, {5, 6}}};
    Item moved = item(path);
    move(moved, 100, 200);
    const Path& after = std::get<Path>(moved.shape);
    CHECK(after.steps[0].a.x == 110);
    CHECK(after.steps[1].c.y == 206);
    CHECK(moved.bounds.x == 101);
    CHECK(moved.bounds.y == 202);
}

TEST_CASE("text over text is found and named") {
    const auto found = overlaps(page_of({text_at(10, 10, 20, 4, 0), text_at(29, 13, 20, 4, 1)}));
    REQUIRE(found.size() == 1);
    CHECK(found[0] ==
          "\"word\" in [first] at 10.00 10.00 (20.00 x 4.00) lies over "
          "\"word\" in [second] at 29.00 13.00 (20.00 x 4.00)");
    CHECK(overlaps(page_of({text_at(10, 10, 20, 4, 0), text_at(30, 10, 20, 4, 1)})).empty());
    CHECK(overlaps(page_of({text_at(10, 10, 20, 4, 0), text_at(10, 14, 20, 4, 1)})).empty());
}

TEST_CASE("text over a line is found; over a backdrop it is meant; shapes may meet") {
    Item rule = item(Line{{0, 12}, {100, 12}, 0.2, black});
    rule.group = 1;
    CHECK(overlaps(page_of({text_at(10, 10, 20, 4, 0), rule})).size() == 1);
    CHECK(overlaps(page_of({rule, rule})).empty());
    rule.backdrop = true;
    CHECK(overlaps(page_of({text_at(10, 10, 20, 4, 0), rule})).empty());
}

TEST_CASE("what lies outside the allowed area, or in no group, is found") {
    const Page page = page_of({text_at(10, 10, 20, 4, 0), text_at(85, 10, 20, 4, -1)});
    CHECK(strays(page, {5, 5, 90, 90}).size() == 1);
    CHECK(strays(page, {5, 5, 105, 90}).empty());
    CHECK(unnamed(page).size() == 1);
}

TEST_CASE("the dump tells every shape") {
    Paper paper{"Hall", "Caretaker", "en", {}, {{"Card", 0, 16, 0}, {"Mix", 0, 40, 1}}};
    Page page = page_of({text_at(10, 10, 20, 4, 0)});
    page.items.push_back(item(Line{{0, 12}, {100, 12}, 0.2, hairline}));
    page.items.push_back(item(Rectangle{{1, 2, 3, 4}, false, black, 0.25, 0.5}));
    page.items.push_back(item(Rectangle{{1, 2, 3, 4}}));
    page.items.back().backdrop = true;
    Path path;
    path.steps = {{PathStep::Kind::move, {1, 1}, {}, {}},
                  {PathStep::Kind::line, {2, 1}, {}, {}},
                  {PathStep::Kind::curve, {3, 1}, {3, 2}, {2, 2}},
                  {PathStep::Kind::close, {}, {}, {}}};
    path.colour = pictogram_red;
    page.items.push_back(item(path));
    gallipot::qr::Symbol symbol;
    symbol.content = "HTTP://X";
    symbol.modules = 21;
    symbol.dark.resize(441);
    page.items.push_back(
        item(Code{{50, 50, 21, 21}, std::make_shared<const gallipot::qr::Symbol>(symbol)}));
    paper.pages.push_back(page);
    CHECK(dump(paper) ==
          "paper \"Hall\" by \"Caretaker\" in en\n"
          "bookmark \"Card\" page 1 at 16.00\n"
          "bookmark   \"Mix\" page 1 at 40.00\n"
          "page 1 100.00 x 100.00\n"
          "  [first]\n"
          "    text 10.00 14.00 width 20.00 10 pt \"word\"\n"
          "  [no group]\n"
          "    line 0.00 12.00 to 100.00 12.00 width 0.20 #a0a0a0\n"
          "    rectangle 1.00 2.00 3.00 x 4.00 outlined 0.25 radius 0.50\n"
          "    rectangle 1.00 2.00 3.00 x 4.00 filled backdrop\n"
          "    path filled #d0021b M 1.00 1.00 L 2.00 1.00 C 3.00 1.00 3.00 2.00 2.00 2.00 Z\n"
          "    code 50.00 50.00 21.00 x 21.00 21 modules \"HTTP://X\"\n");
}
