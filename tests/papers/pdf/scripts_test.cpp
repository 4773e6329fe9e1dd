#include <algorithm>
#include <sstream>

#include "catch_all.hpp"

#include "base/diag/utf8.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/said.hpp"
#include "papers/layout/sample_document.hpp"
#include "papers/pdf/program.hpp"
#include "papers/pdf/writer.hpp"
#include "papers/text/catalog.hpp"

using namespace gallipot;
using tests::installed_faces;
using tests::plain;
using tests::run;
using tests::TemporaryFile;
using tests::without_spaces;

namespace {

struct Sample {
    const char *language, *script, *text;
};
/// "Not food" and where to keep it, in words of our own.
const Sample samples[] = {
    {"ar", "Arabic", "ليس طعامًا. أبقِ هذا الوعاء بعيدًا عن متناول الأطفال، رقم K1-2."},
    {"hi", "Devanagari", "यह भोजन नहीं है। बच्चों की पहुँच से दूर रखें: 1.5 g बोरेक्स, डिब्बा K1-2।"},
    {"bn", "Bengali", "এটি খাবার নয়। শিশুদের নাগালের বাইরে রাখুন।"},
    {"pa", "Gurmukhi", "ਇਹ ਭੋਜਨ ਨਹੀਂ ਹੈ। ਬੱਚਿਆਂ ਦੀ ਪਹੁੰਚ ਤੋਂ ਦੂਰ ਰੱਖੋ।"},
    {"ta", "Tamil", "இது உணவு அல்ல. குழந்தைகளுக்கு எட்டாமல் வைக்கவும்."},
    {"th", "Thai", "ไม่ใช่อาหาร เก็บให้พ้นมือเด็กและสัตว์เลี้ยง"},
    {"km", "Khmer", "មិនមែនជាអាហារទេ។ ទុកឲ្យឆ្ងាយពីកុមារ។"},
    {"he", "Hebrew", "לא מזון. להרחיק מילדים, מספר 12."},
    {"vi", "Latin", "Không phải thức ăn. Để xa tầm tay trẻ em và vật nuôi."},
    {"ka", "Georgian", "ეს საკვები არ არის."},
    {"zh-Hans", "Han", "不是食物。请放在儿童接触不到的地方:硼砂 1.5 g。"},
};

layout::Paper paper_of(const Sample& sample) {
    document::Sheet sheet;
    sheet.title = plain("Sheet");
    sheet.blocks.emplace_back(document::Paragraph{plain(sample.text)});
    return layout::lay_out({"Test", "", sample.language, {sheet}}, layout::a4_style(),
                           installed_faces());
}

/// Whether a font with the script's letters is installed here.
bool installed(const Sample& sample) {
    const auto& faces = installed_faces();
    for (std::string_view rest = sample.text; !rest.empty();) {
        const auto letter = diag::character_at(rest, 0);
        rest.remove_prefix(letter.bytes);
        if (fonts::script_of(letter.code) == sample.script)
            return faces.regular->covers(letter.code) || faces.others->find(letter.code, false);
    }
    return false;
}

std::vector<std::string> sorted_letters(const std::string& text) {
    std::vector<std::string> letters;
    for (std::size_t at = 0; at < text.size();) {
        const auto letter = diag::character_at(text, at);
        if (letter.code > ' ' && letter.code != 0xA0 && !diag::is_direction_control(letter.code) &&
            letter.code != '\f')
            letters.push_back(text.substr(at, letter.bytes));
        at += letter.bytes;
    }
    std::ranges::sort(letters);
    return letters;
}

/// What stands in quotes in poppler's account of the structure.
std::string heard(const TemporaryFile& file) {
    std::istringstream lines(run("pdfinfo -struct-text " + file.path()).output);
    std::string all, line;
    while (std::getline(lines, line))
        if (const auto at = line.find_first_not_of(' '); at != std::string::npos && line[at] == '"')
            all += line.substr(at + 1, line.rfind('"') - at - 1);
    return all;
}

}  // namespace

TEST_CASE("text of eleven languages comes out of the file as it went in") {
    for (const Sample& sample : samples) {
        if (!installed(sample)) {
            WARN("no font for " << sample.script << " here: not tried");
            continue;
        }
        INFO(sample.language);
        const auto paper = paper_of(sample);
        const TemporaryFile file(pdf::write(paper, installed_faces()), ".pdf");
        const std::string said = std::string("Sheet") + sample.text;
        // By its structure it is read in the order in which it was written.
        CHECK(without_spaces(heard(file)) == without_spaces(said));
        // Two readers find the same letters where they are drawn. The order of those from right to
        // left is their own finding: poppler takes the two letters of a ligature the wrong way
        // round.
        CHECK(sorted_letters(run("pdftotext " + file.path() + " -").output) ==
              sorted_letters(said));
        CHECK(sorted_letters(
                  run("mutool draw -q -F txt " + file.path(), tests::Errors::dropped).output) ==
              sorted_letters(said));
        CHECK(run("qpdf --check " + file.path()).status == 0);
    }
}

TEST_CASE("letters are joined, and stand from right to left where they are written so") {
    const Sample& arabic = samples[0];
    if (!installed(arabic)) return;
    const auto paper = paper_of(arabic);
    const layout::Text* first = nullptr;
    const layout::Text* second = nullptr;
    for (const auto& item : paper.pages.front().items) {
        const auto* text = std::get_if<layout::Text>(&item.shape);
        if (text == nullptr || !text->shaped) continue;
        if (first == nullptr)
            first = text;
        else if (second == nullptr)
            second = text;
    }
    REQUIRE(second != nullptr);
    CHECK(first->text == "ليس");
    CHECK(first->origin.x > second->origin.x);
    // Within a word the letters that are read later stand further to the left.
    const auto& clusters = first->shaped->clusters;
    REQUIRE(clusters.size() == 3);
    CHECK(clusters[0].glyphs[0].x > clusters[1].glyphs[0].x);
    CHECK(clusters[1].glyphs[0].x > clusters[2].glyphs[0].x);
    // The first letter at a word's beginning has another glyph than alone.
    const auto alone = first->shaped->font->shape("ل", "ar", true);
    CHECK(alone.clusters[0].glyphs[0].id != clusters[0].glyphs[0].id);
}

TEST_CASE("a letter whose font is not installed is told with the package that would bring it") {
    fonts::Faces faces = installed_faces();
    faces.others = std::make_shared<const fonts::ScriptFonts>(
        std::vector<fonts::ScriptFiles>{{"Arabic", "no-such-file.ttf", "", "fonts-noto-core"}},
        std::vector<std::string>{"/nowhere"});
    document::Sheet sheet;
    sheet.title = plain("Sheet");
    sheet.blocks.emplace_back(document::Paragraph{plain("المطبخ")});
    try {
        layout::lay_out({"Test", "", "en", {sheet}}, layout::a4_style(), faces);
        FAIL("nothing was said");
    } catch (const layout::LayoutError& error) {
        REQUIRE(error.overflows().size() == 1);
        CHECK(error.overflows()[0].package == "fonts-noto-core");
        CHECK(error.overflows()[0].remedy.english() ==
              "install the package fonts-noto-core, which has the letters of Arabic");
    }
}

TEST_CASE("a number behind a name from right to left is drawn as it is written") {
    if (!installed(samples[0])) return;
    diag::Diagnostics found;
    const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", "en", "AU", found);
    const std::string name = "مركز السموم";
    const auto drawn = [](document::Sheet sheet, const std::string& number) {
        sheet.title = plain("Sheet");
        const auto paper = layout::lay_out({"Test", "", "en", {std::move(sheet)}},
                                           layout::a4_style(), installed_faces());
        return std::ranges::any_of(paper.pages.front().items, [&](const auto& item) {
            const auto* text = std::get_if<layout::Text>(&item.shape);
            return text != nullptr && text->text.find(number) != std::string::npos;
        });
    };
    for (const std::string number :
         {"13 11 26", "(02) 5550 0142", "1-800-222-1222", "+61 2 5550 0142"}) {
        INFO(number);
        document::Sheet sheet;
        sheet.blocks.emplace_back(
            document::Paragraph{words.rich("label.contact", {{"name", name}, {"phone", number}})});
        CHECK(drawn(std::move(sheet), number));
    }
    // Without the isolates it would not be: the check can fail.
    document::Sheet bare;
    bare.blocks.emplace_back(document::Paragraph{plain(name + ", 13 11 26")});
    CHECK_FALSE(drawn(std::move(bare), "13 11 26"));
}
