#include <string>
#include <thread>
#include <vector>

#include "catch_all.hpp"

#include "golden.hpp"
#include "papers/fonts/fonts.hpp"

using namespace gallipot;

namespace {

fonts::Faces installed() {
    return fonts::find(GALLIPOT_SOURCE_DIR "/fonts/fonts.yaml");
}

/// A big-endian 16-bit number of a table of a font file, as the OpenType specification 1.9 lays
/// the file out ("Organization of an OpenType Font": table directory at 12, 16 bytes a record).
int in_table(const std::string& file, const std::string& tag, std::size_t offset) {
    const auto number = [&](std::size_t at, int bytes) {
        std::size_t value = 0;
        for (int i = 0; i < bytes; ++i)
            value = value << 8 | static_cast<unsigned char>(file[at + i]);
        return value;
    };
    for (std::size_t i = 0; i < number(4, 2); ++i) {
        const std::size_t record = 12 + 16 * i;
        if (file.compare(record, 4, tag) != 0) continue;
        return static_cast<std::int16_t>(number(number(record + 8, 4) + offset, 2));
    }
    FAIL("no table " << tag);
    return 0;
}

}  // namespace

// Fields of OpenType specification 1.9: head.unitsPerEm at 18; OS/2.sxHeight at 86 and
// OS/2.sCapHeight at 88; hhea.ascender at 4 and hhea.descender at 6.
TEST_CASE("heights measured on the outlines agree with what the font file states") {
    const fonts::Faces faces = installed();
    for (const auto& font : {faces.regular, faces.bold}) {
        const std::string file = tests::slurp(font->path());
        const double em = in_table(file, "head", 18);
        CHECK(font->cap_height() == Approx(in_table(file, "OS/2", 88) / em).margin(0.002));
        CHECK(font->x_height() == Approx(in_table(file, "OS/2", 86) / em).margin(0.002));
        CHECK(font->ascent() == Approx(in_table(file, "hhea", 4) / em));
        CHECK(font->descent() == Approx(-in_table(file, "hhea", 6) / em));
    }
}

TEST_CASE("advances add up letter by letter") {
    const fonts::Faces faces = installed();
    const fonts::Font& font = *faces.regular;
    CHECK(font.advance("") == 0);
    CHECK(font.advance("borax") ==
          Approx(font.advance("b") + font.advance("o") + font.advance("r") + font.advance("a") +
                 font.advance("x")));
    // A pair that fonts kern: the PDF does not, so neither may we.
    CHECK(font.advance("AV") == Approx(font.advance("A") + font.advance("V")));
    // The copyright sign and its neighbours share a byte in UTF-8; each has its own width.
    CHECK(font.advance("\u00e4\u00df") == Approx(font.advance("\u00e4") + font.advance("\u00df")));
    CHECK(faces.bold->advance("DANGER") > font.advance("DANGER"));
}

TEST_CASE("figures are all of one width, so that columns of them line up") {
    const fonts::Faces faces = installed();
    for (const auto& font : {faces.regular, faces.bold}) {
        const double zero = font->advance("0");
        CHECK(zero > 0.5);
        for (const char* figure : {"1", "2", "3", "4", "5", "6", "7", "8", "9", "\u2007"}) {
            CHECK(font->advance(figure) == zero);
        }
    }
}

TEST_CASE("ink reaches as far as the letters do") {
    const auto faces = installed();
    const fonts::Font& font = *faces.regular;
    CHECK(font.ink("H").above == font.cap_height());
    CHECK(font.ink("H").below == 0);
    CHECK(font.ink("x").above == font.x_height());
    CHECK(font.ink("pH").below == font.ink("p").below);
    CHECK(font.ink("p").below > 0.15);
    CHECK(font.ink("-").below < 0);
    CHECK(font.ink("- x").below == 0);
    CHECK(font.ink("\u00c5").above > font.cap_height());
    CHECK(font.ink(" ").above == 0);
    CHECK(font.ink("").below == 0);
}

TEST_CASE("the faces cover the languages of the papers") {
    const fonts::Faces faces = installed();
    const std::string letters =
        "ABCXYZabcxyz0123456789 .,:;!?()/%+-\u2013\u2014\u2026\u00b0\u00b7\u00d7\u00b1\u00bd\u00bc"
        "\u00be\u2022\u2019\u201c\u201d\u201e\u00ab\u00bb\u00a0\u202f\u00b5"
        "\u00c4\u00d6\u00dc\u00e4\u00f6\u00fc\u00df\u1e9e"                    // German
        "\u00c1\u00c9\u00cd\u00d1\u00d3\u00da\u00e1\u00f1\u00fc\u00bf\u00a1"  // Spanish
        "\u00d1\u00f1\u00c2\u00e2"                                            // Filipino
        "\u0410\u042f\u0430\u044f\u0490\u0491\u0404\u0454\u0406\u0456\u0407\u0457\u2116";  // Ukrainian
    for (const auto& font : {faces.regular, faces.bold}) {
        CHECK(fonts::uncovered(*font, letters).empty());
        CHECK(font->covers(U'\u0457'));
        CHECK_FALSE(font->covers(U'\U0001F41C'));
        CHECK_FALSE(font->covers(U'\u0905'));
    }
}

TEST_CASE("what cannot be set is named once each, in order") {
    const auto faces = installed();
    const fonts::Font& font = *faces.regular;
    CHECK(fonts::uncovered(font, "ant \U0001F41C, \u4e2d and \U0001F41C") ==
          std::vector<char32_t>{U'\U0001F41C', U'\u4e2d'});
    CHECK(fonts::uncovered(font, "line\nbreak") == std::vector<char32_t>{U'\n'});
    CHECK(fonts::uncovered(font, "bad \xff byte") == std::vector<char32_t>{U'\uFFFD'});
    // Turning the direction of a label's text around would change what it says.
    CHECK(fonts::uncovered(font, "\u202egnp") == std::vector<char32_t>{U'\u202e'});
}

TEST_CASE("measuring what cannot be set is refused, never guessed") {
    const auto faces = installed();
    CHECK_THROWS_WITH(faces.regular->advance("\U0001F41C"),
                      Catch::Matchers::ContainsSubstring("U+1F41C"));
    CHECK_THROWS_WITH(faces.regular->ink("\u4e2d"), Catch::Matchers::ContainsSubstring("U+4E2D"));
    CHECK_THROWS_AS(faces.regular->advance("\xc3"), std::invalid_argument);
}

TEST_CASE("a font is shared between threads") {
    const auto faces = installed();
    const double alone = faces.regular->advance("Keep out of reach of children");
    std::vector<double> sums(4);
    std::vector<std::thread> threads;
    for (double& sum : sums) {
        threads.emplace_back([&sum, &faces] {
            for (int i = 0; i < 1000; ++i) {
                sum += faces.regular->advance("Keep out of reach of children");
            }
        });
    }
    for (std::thread& thread : threads) thread.join();
    for (const double sum : sums) CHECK(sum == Approx(1000 * alone));
}
