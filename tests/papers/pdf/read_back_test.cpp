#include <algorithm>
#include <cstdlib>
#include <iostream>
#include <sstream>

#include "catch_all.hpp"

#include "base/diag/utf8.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/said.hpp"
#include "papers/pdf/program.hpp"
#include "papers/pdf/writer.hpp"
#include "papers/text/direction.hpp"

using namespace gallipot;
using tests::installed_faces;
using tests::run;

namespace {

/// The letters of a text, each as often as it stands there. Their order is a reader's own finding
/// where text runs from right to left; a
/// hyphen at a line's end is left out by one.
std::vector<std::string> letters(const std::string& text) {
    std::vector<std::string> all;
    for (std::size_t at = 0; at < text.size();) {
        const auto letter = diag::character_at(text, at);
        if (letter.code > ' ' && letter.code != '-' && letter.code != 0xA0 && letter.code != 0xAD &&
            !diag::is_direction_control(letter.code))
            all.push_back(text.substr(at, letter.bytes));
        at += letter.bytes;
    }
    std::ranges::sort(all);
    return all;
}

std::string without_isolates(std::string text) {
    for (const std::string gone : {"\u2067", "\u2068", "\u2069"})
        for (auto at = text.find(gone); at != std::string::npos; at = text.find(gone, at))
            text.erase(at, gone.size());
    return text;
}

/// What poppler finds in the structure, in its order; what figures show left out.
std::string heard(const std::string& file) {
    std::istringstream lines(run("pdfinfo -struct-text " + file).output);
    std::string all, line;
    std::size_t figure = std::string::npos;
    while (std::getline(lines, line)) {
        const auto indent = line.find_first_not_of(' ');
        if (indent == std::string::npos || (figure != std::string::npos && indent > figure))
            continue;
        figure = line.compare(indent, 6, "Figure") == 0 ? indent : std::string::npos;
        if (line[indent] == '"') all += line.substr(indent + 1, line.rfind('"') - indent - 1);
    }
    return tests::without_spaces(all);
}

}  // namespace

// Read with poppler and MuPDF. GALLIPOT_TABLE=1 prints a row for each language.
TEST_CASE("the hall's household sheet is read back in every language") {
    const std::string path = GALLIPOT_SOURCE_DIR "/examples/hall.yaml";
    // Without its plan: what a figure shows is said otherwise.
    std::string file_text = tests::slurp(path);
    const auto plan_at = file_text.find("\nfloor_plan:");
    file_text.erase(plan_at + 1, file_text.find("\n\n", plan_at) - plan_at);
    const auto source = std::make_shared<const diag::Source>(diag::Source{path, file_text});
    diag::Diagnostics out;
    const auto job = job::read_job(source, out);
    REQUIRE(job);
    const auto who = safety::who_to_call(job->help, out);
    const auto plan = plan::make_plan(*job, {}, out);
    for (const std::string& language : tests::languages()) {
        INFO(language);
        const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language, "AU", out);
        const document::Document document{
            "Title", "", words.tag(), {document::household_sheet(*job, plan, who, words)}};
        const auto paper = layout::lay_out(document, layout::a4_style(), installed_faces());
        std::string drawn;
        for (const auto& page : paper.pages)
            for (const auto& item : page.items)
                if (const auto* text = std::get_if<layout::Text>(&item.shape))
                    drawn += text->read_as.empty() ? text->text : text->read_as;
        const tests::TemporaryFile file(pdf::write(paper, installed_faces()), ".pdf");
        // By its structure it is read word by word as it was written.
        const std::string wanted =
            without_isolates(tests::without_spaces(tests::Said(true)(document)));
        const std::string structure = heard(file.path());
        CHECK(structure == wanted);
        // Pages lie side by side from right to left where the text runs so (ISO 32000-1, table
        // 150).
        const bool turned =
            run("qpdf --qdf " + file.path() + " -").output.find("/Direction /R2L") !=
            std::string::npos;
        CHECK(turned == text::runs_right_to_left(language));
        // Two readers find every letter that is drawn, and no other.
        const auto all = letters(drawn);
        const auto poppler = letters(run("pdftotext " + file.path() + " -").output);
        const auto mupdf =
            letters(run("mutool draw -q -F txt " + file.path(), tests::Errors::dropped).output);
        CHECK(poppler == all);
        CHECK(mupdf == all);
        if (std::getenv("GALLIPOT_TABLE") != nullptr)
            std::cout << "| " << language << " | " << all.size() << " | " << poppler.size() << " | "
                      << mupdf.size() << " | " << (structure == wanted ? "the same" : "not")
                      << " |\n";
    }
}
