#include "papers/templates/stock.hpp"

#include "catch_all.hpp"

#include "papers/templates/found.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using units::in_mm;

namespace {
templates::Stock read(const std::string& text, std::string& errors) {
    diag::Diagnostics found;
    auto stock = templates::read_stock(file("stock.yaml", text), "own", found);
    errors = listed(found);
    return stock;
}
std::string errors_of(const std::string& text) {
    std::string errors;
    read(text, errors);
    return errors;
}
}  // namespace

TEST_CASE("a sheet of labels is read with all its lengths") {
    std::string errors;
    const auto stock = read(
        "about: 21 labels\npage: A4\n"
        "label: { width: 63.5 mm, height: 38.1 mm, corner: 2 mm }\n"
        "grid: { columns: 3, rows: 7, left: 7.25 mm, top: 15.15 mm, gap across: 2.5 mm }\n"
        "design: standard\nclear: 2 mm\ncut marks: true\nprinter: { dots per inch: 203 }\n",
        errors);
    CHECK(errors == "");
    CHECK(stock.per_page() == 21);
    CHECK(in_mm(stock.page_width) == Approx(210));  // ISO 216
    CHECK(in_mm(stock.page_height) == Approx(297));
    CHECK(in_mm(stock.label_width) == Approx(63.5));
    CHECK(in_mm(stock.gap_across) == Approx(2.5));
    CHECK(in_mm(stock.gap_down) == Approx(0));
    CHECK(in_mm(stock.clear) == Approx(2));
    CHECK(stock.cut_marks);
    CHECK(stock.dots_per_inch == 203);
}

TEST_CASE("inches, circles, strips and single labels of a roll are read") {
    std::string errors;
    const auto letter = read(
        "about: x\npage: Letter\nlabel: { width: 4 in, height: 3 1/3 in }\n"
        "grid: { columns: 2, rows: 3, left: 0.15625 in, top: 0.5 in, gap across: 0.1875 in }\n"
        "design: standard\n",
        errors);
    CHECK(errors == "");
    CHECK(in_mm(letter.page_width) == Approx(215.9));  // ANSI Y14.1: 8.5 x 11 in
    CHECK(in_mm(letter.label_height) == Approx(84.6667));
    const auto round =
        read("about: x\nshape: circle\nlabel: { diameter: 60 mm }\ndesign: lid\n", errors);
    CHECK(errors == "");
    CHECK(in_mm(round.label_width) == Approx(60));
    CHECK(in_mm(round.page_height) == Approx(60));  // one a page
    const auto strip = read(
        "about: x\nshape: strip\npage: A4 landscape\n"
        "label: { longest: 277 mm, height: 30 mm, overlap: 10 mm }\n"
        "grid: { columns: 1, rows: 5, left: 10 mm, top: 22 mm, gap down: 4 mm }\ndesign: strip\n",
        errors);
    CHECK(errors == "");
    CHECK(in_mm(strip.overlap) == Approx(10));
    CHECK(in_mm(strip.page_width) == Approx(297));
}

TEST_CASE("every error of a stock points at its place in the file, all in one run") {
    CHECK(errors_of("about: x\n"
                    "page: A3\n"
                    "label: { width: 63.5, height: -1 mm, colour: red }\n"
                    "grid: { columns: 0, rows: 7, left: 7 mm, top: 15 cups }\n"
                    "cut marks: perhaps\n"
                    "clear: 50 mm\n") ==
          "1:1 missing-key stock needs 'design'\n"
          "2:7 unknown-word 'A3' is not known in 'page'\n"
          "3:17 missing-unit '63.5' has no unit; a length was expected\n"
          "3:31 bad-number '-1 mm' is below zero\n"
          "3:38 unknown-key unknown key 'colour' in label\n"
          "4:18 out-of-range 0 is not between 1 and 50\n"
          "4:47 wrong-unit '15 cups' is a volume; a length was expected\n"
          "5:12 wrong-value 'perhaps' is neither true nor false\n"
          "6:8 out-of-range 50 mm is not between 0 mm and 10 mm\n");
}

TEST_CASE("labels that reach over the edge of the page are told by how much") {
    const auto errors = errors_of(
        "about: x\npage: A4\nlabel: { width: 63.5 mm, height: 38.1 mm }\n"
        "grid: { columns: 3, rows: 8, left: 7.25 mm, top: 15.15 mm, gap across: 12.5 mm }\n"
        "design: standard\n");
    // 7.25 + 3 x 63.5 + 2 x 12.5 = 222.75; 15.15 + 8 x 38.1 = 319.95.
    CHECK(errors ==
          "4:7 off-the-page 3 labels across reach 222.75 mm, 12.75 mm over the edge of the page\n"
          "4:7 off-the-page 8 labels down reach 319.95 mm, 22.95 mm over the edge of the page\n");
}

TEST_CASE("a file that is no YAML is refused where it breaks") {
    CHECK(errors_of("about: [x\n").find("stock") == std::string::npos);
    CHECK(errors_of("about: [x\n") != "");
}
