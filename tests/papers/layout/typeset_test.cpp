#include "papers/layout/typeset.hpp"

#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "catch_all.hpp"

#include "papers/layout/installed_faces.hpp"
#include "papers/layout/overflow.hpp"

using namespace gallipot;
using layout::Alignment;
using layout::Text;
using layout::TextLayout;
using layout::Type;
using tests::installed_faces;

namespace {

text::StyledText plain(const std::string& text) {
    return {{text, false}};
}

const Type ten_point{10, 13};

TextLayout set(const text::StyledText& runs, double measure, const Type& type = ten_point) {
    return layout::set(runs, measure, type, "test", installed_faces(), "en");
}

/// The lines of a setting as text, faces joined.
std::vector<std::string> lines_of(const TextLayout& setting) {
    std::vector<std::string> lines(static_cast<std::size_t>(setting.lines));
    for (const layout::Item& item : setting.items) {
        const Text& text = std::get<Text>(item.shape);
        lines.at(static_cast<std::size_t>(std::lround(text.origin.y / setting.leading))) +=
            text.text;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& words, std::size_t first, std::size_t last) {
    std::string line;
    for (std::size_t i = first; i <= last; ++i) line += (i > first ? " " : "") + words[i];
    return line;
}

double width_in_mm(const std::string& text, double size) {
    return installed_faces().regular->advance(text) * size * 25.4 / 72;
}

/// The fewest lines the words can be set in, tried by taking as many as fit: the plain way, to
/// compare with.
int fewest_lines(const std::vector<std::string>& words, double measure, double size) {
    int lines = 0;
    for (std::size_t first = 0; first < words.size(); ++lines) {
        std::size_t last = first;
        while (last + 1 < words.size() &&
               width_in_mm(joined(words, first, last + 1), size) <= measure) {
            ++last;
        }
        first = last + 1;
    }
    return lines;
}

}  // namespace

TEST_CASE("a text that fits stands on one line, as wide as its letters") {
    const TextLayout setting = set(plain("Keep out of reach"), 100);
    REQUIRE(setting.lines == 1);
    REQUIRE(setting.items.size() == 1);
    const Text& text = std::get<Text>(setting.items[0].shape);
    CHECK(text.text == "Keep out of reach");
    CHECK(text.width == Approx(width_in_mm("Keep out of reach", 10)));
    CHECK(setting.width == Approx(text.width));
    CHECK(text.origin.x == 0);
    CHECK(text.origin.y == 0);
    CHECK(setting.depth() == 0);
}

TEST_CASE("random texts keep every word, stay in their measure and take the fewest lines") {
    std::mt19937 random(20270302);
    const std::vector<std::string> stock = {"a",     "bait", "borax", "sugar",   "water",
                                            "cup",   "of",   "the",   "kitchen", "underneath",
                                            "label", "no",   "never", "children"};
    for (int round = 0; round < 300; ++round) {
        std::vector<std::string> words;
        const int count = std::uniform_int_distribution<int>(1, 40)(random);
        for (int i = 0; i < count; ++i) {
            words.push_back(
                stock[std::uniform_int_distribution<std::size_t>(0, stock.size() - 1)(random)]);
        }
        const double measure = std::uniform_real_distribution<double>(25, 120)(random);
        const std::string whole = joined(words, 0, words.size() - 1);
        const TextLayout setting = set(plain(whole), measure);
        const std::vector<std::string> lines = lines_of(setting);
        INFO(whole << " in " << measure << " mm");
        CHECK(joined(lines, 0, lines.size() - 1) == whole);
        CHECK(setting.lines == fewest_lines(words, measure, 10));
        for (const std::string& line : lines) CHECK(width_in_mm(line, 10) <= measure + 1e-6);
    }
}

TEST_CASE("lines are one leading apart") {
    const TextLayout setting = set(plain("one two three four five six seven eight"), 30);
    REQUIRE(setting.lines >= 3);
    CHECK(setting.leading == Approx(13 * 25.4 / 72));
    CHECK(setting.depth() == Approx((setting.lines - 1) * 13 * 25.4 / 72));
}

TEST_CASE("a short word is not left alone on the last line") {
    const std::string text =
        "Call now. Say borax, the number on the cup, how much, and how old they are.";
    // Just too narrow for the whole: the plain way would leave "are." behind.
    const double measure = width_in_mm(text, 10) - 1;
    CHECK(lines_of(set(plain(text), measure)) ==
          std::vector<std::string>{
              "Call now. Say borax, the number on the cup, how much, and how old", "they are."});
}

TEST_CASE("a single word that fills a good part of the measure may end a text") {
    const std::string text = "Underside of the boards";
    CHECK(lines_of(set(plain(text), width_in_mm("Underside of the", 10) + 1)) ==
          std::vector<std::string>{"Underside of the", "boards"});
}

TEST_CASE("balanced lines are about equally long, and no more of them") {
    Type title{20, 24};
    const std::string text = "There is ant and cockroach bait in this building until April";
    const TextLayout full = set(plain(text), 170, title);
    title.balanced = true;
    const TextLayout balanced = set(plain(text), 170, title);
    REQUIRE(full.lines == 2);
    REQUIRE(balanced.lines == 2);
    CHECK(balanced.width < full.width);
    const std::vector<std::string> lines = lines_of(balanced);
    CHECK(std::abs(width_in_mm(lines[0], 20) - width_in_mm(lines[1], 20)) < 0.15 * 170);
}

TEST_CASE("faces change within a line without a gap or an overlap") {
    const TextLayout setting = set({{"Call ", false}, {"111", true}, {" now", false}}, 100);
    REQUIRE(setting.items.size() == 3);
    const auto at = [&](std::size_t i) { return std::get<Text>(setting.items[i].shape); };
    CHECK(at(0).face == layout::Face::regular);
    CHECK(at(1).face == layout::Face::bold);
    CHECK(at(1).text == "111");
    CHECK(at(1).origin.x == Approx(at(0).width));
    CHECK(at(2).origin.x == Approx(at(0).width + at(1).width));
    CHECK(setting.width == Approx(at(0).width + at(1).width + at(2).width));
}

TEST_CASE("a word of two faces is not broken between them") {
    const TextLayout setting =
        set({{"Stir the sy", false}, {"rup", true}}, width_in_mm("Stir the sy", 10));
    CHECK(lines_of(setting) == std::vector<std::string>{"Stir the", "syrup"});
}

TEST_CASE("alignment moves lines within the measure") {
    Type right = ten_point;
    right.alignment = Alignment::right;
    const TextLayout setting = set(plain("3.2 g"), 40, right);
    const Text& text = std::get<Text>(setting.items[0].shape);
    CHECK(text.origin.x + text.width == Approx(40));
    Type centre = ten_point;
    centre.alignment = Alignment::centre;
    const TextLayout middle = set(plain("3.2 g"), 40, centre);
    CHECK(std::get<Text>(middle.items[0].shape).origin.x == Approx((40 - text.width) / 2));
}

TEST_CASE("spaces at the end of a line hang outside the measure") {
    const double measure = width_in_mm("borax", 10);
    CHECK(lines_of(set(plain("borax  sugar "), measure)) ==
          std::vector<std::string>{"borax", "sugar"});
}

TEST_CASE("a no-break space keeps figure and unit together") {
    const double measure = width_in_mm("of borax 3.2", 10) + 0.5;
    CHECK(lines_of(set(plain("of borax 3.2\u00a0g"), measure)) ==
          std::vector<std::string>{"of borax", "3.2\u00a0g"});
}

TEST_CASE("a line feed breaks the line, and an empty line stays") {
    CHECK(lines_of(set(plain("one\ntwo\n\nthree"), 100)) ==
          std::vector<std::string>{"one", "two", "", "three"});
}

TEST_CASE("a soft hyphen shows only where a line breaks at it") {
    const std::string word = "Bors\u00e4ure\u00ad\u00e4quivalent";
    CHECK(lines_of(set(plain(word), 100)) ==
          std::vector<std::string>{"Bors\u00e4ure\u00e4quivalent"});
    const TextLayout broken = set(plain(word), width_in_mm("\u00e4quivalent", 10) + 0.1);
    CHECK(lines_of(broken) == std::vector<std::string>{"Bors\u00e4ure\u00ad", "\u00e4quivalent"});
    // The hyphen counts: without room for it there is no room.
    CHECK_THROWS_AS(set(plain(word), width_in_mm("\u00e4quivalent", 10) - 0.1),
                    layout::LayoutError);
}

TEST_CASE("an empty text takes no line") {
    CHECK(set({}, 50).lines == 0);
    CHECK(set(plain(""), 50).lines == 0);
    CHECK(layout::MeasuredText({}, installed_faces(), "en", "test").empty());
}

TEST_CASE("a text fits in exactly its own width, at any size") {
    for (const double size : {6.0, 7.5, 9.5, 11.3, 20.0}) {
        const std::string text = "Borax 1.0 %, sugar 20 %";
        CHECK(set(plain(text), width_in_mm(text, size), {size, size}).lines == 1);
        CHECK(set(plain(text), width_in_mm(text, size) - 0.01, {size, size}).lines == 2);
    }
}

TEST_CASE("a word wider than its space is an error with the figures") {
    try {
        set(plain("Donaudampfschifffahrt"), 20);
        FAIL("set where it does not fit");
    } catch (const layout::LayoutError& error) {
        REQUIRE(error.overflows().size() == 1);
        const layout::Overflow& overflow = error.overflows()[0];
        CHECK(overflow.what.english() == "test");
        CHECK(overflow.needed == Approx(width_in_mm("Donaudampfschifffahrt", 10)));
        CHECK(overflow.available == 20);
        CHECK(overflow.problem.english() ==
              "'Donaudampfschifffahrt' is 38.9 mm wide at 10 pt and its space 20.0 mm, "
              "18.9 mm less");
        CHECK(overflow.remedy.english() ==
              "write it shorter or with a soft hyphen, or give it 38.9 mm");
    }
}

TEST_CASE("a character without a letter is an error that names it") {
    try {
        set(plain("ants \U0001F41C and \U0001F41D"), 100);
        FAIL("set without a letter");
    } catch (const layout::LayoutError& error) {
        CHECK(error.overflows()[0].problem.english() ==
              "no font has a letter for U+1F41C, U+1F41D");
    }
}

TEST_CASE("measuring once serves every size") {
    const layout::MeasuredText words(plain("Keep out of reach of children and pets"),
                                     installed_faces(), "en", "test");
    CHECK(words.widest() == Approx(installed_faces().regular->advance("children")));
    CHECK(words.widest_word() == "children");
    CHECK(words.unbroken() ==
          Approx(installed_faces().regular->advance("Keep out of reach of children and pets")));
    CHECK(words.lines_in(words.unbroken()) == 1);
    CHECK(words.lines_in(words.unbroken() - 0.01) == 2);
    CHECK(words.lines_in(words.widest()) >= 4);
}

TEST_CASE("the first lines leave their corners to something else") {
    const layout::MeasuredText words(plain("aaa aaa aaa aaa aaa aaa aaa aaa"), installed_faces(),
                                     "en", "test");
    const double word = width_in_mm("aaa", 10), space = width_in_mm(" ", 10);
    layout::Measure measure(3 * word + 2 * space + 0.1);
    measure.insets = {{word + space, word + space}, {word + space, 0}};
    // One word, two, three, and the last two.
    const auto setting = layout::set(words, measure, layout::Type{}, "test");
    REQUIRE(setting.lines == 4);
    CHECK(words.lines_in(measure.over(10 * layout::mm_per_point)) == 4);
    REQUIRE(setting.items.size() == 4);
    const double left[] = {word + space, word + space, 0, 0};
    const double width[] = {word, 2 * word + space, 3 * word + 2 * space, 2 * word + space};
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(setting.items[i].bounds.x == Approx(left[i]).margin(1e-9));
        CHECK(setting.items[i].bounds.width == Approx(width[i]));
    }
    CHECK(measure.below(1).start(0) == Approx(word + space));
    CHECK(measure.below(5).at(0) == measure.width);
}

TEST_CASE("bounds are as high as the letters' ink and as wide as their advance") {
    const TextLayout setting = set(plain("x"), 20);
    const layout::Box box = setting.items[0].bounds;
    const double em = 10 * 25.4 / 72;
    CHECK(box.y == Approx(-installed_faces().regular->x_height() * em));
    CHECK(box.bottom() == Approx(0).margin(1e-9));
    CHECK(box.width == Approx(width_in_mm("x", 10)));
}

TEST_CASE("placing a setting moves text and bounds alike") {
    layout::Page page{{210, 297}, {}, {}};
    const TextLayout setting = set(plain("one two three four"), 25);
    const int group = layout::group_on(page, "a group");
    layout::place(page, setting, {30, 40}, group);
    REQUIRE(page.items.size() == setting.items.size());
    for (std::size_t i = 0; i < page.items.size(); ++i) {
        CHECK(page.items[i].group == group);
        CHECK(page.items[i].bounds.x == Approx(setting.items[i].bounds.x + 30));
        CHECK(page.items[i].bounds.y == Approx(setting.items[i].bounds.y + 40));
        CHECK(std::get<Text>(page.items[i].shape).origin.y ==
              Approx(std::get<Text>(setting.items[i].shape).origin.y + 40));
    }
}
