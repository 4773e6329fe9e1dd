#include <charconv>
#include <set>

#include "catch_all.hpp"

#include "papers/layout/installed_faces.hpp"
#include "papers/layout/label_jobs.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/published_sizes.hpp"
#include "papers/pdf/program.hpp"
#include "papers/pdf/writer.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using document::Part;

// The same as label_property_test.cpp, but as another program finds it in the finished PDF: MuPDF
// says for every letter where it stands, in which face and how large.

namespace {

struct Letter {
    std::string character;
    double x = 0, y = 0;  ///< mm from the page's upper left, of the baseline's left end
    double size = 0;      ///< points
    bool bold = false;
};

double number(std::string_view line, std::string_view key) {
    const auto at = line.find(key);
    REQUIRE(at != std::string_view::npos);
    double value = 0;
    std::from_chars(line.data() + at + key.size(), line.data() + line.size(), value);
    return value;
}

std::string utf8(unsigned code) {
    std::string out;
    if (code < 0x80) return {static_cast<char>(code)};
    if (code < 0x800) {
        out += static_cast<char>(0xC0 | (code >> 6));
    } else {
        out += static_cast<char>(0xE0 | (code >> 12));
        out += static_cast<char>(0x80 | ((code >> 6) & 0x3F));
    }
    return out + static_cast<char>(0x80 | (code & 0x3F));
}

/// The value of c="..": a character, or a reference to one.
std::string character(std::string_view line) {
    const auto at = line.rfind("c=\"") + 3;
    const auto text = line.substr(at, line.find('"', at) - at);
    if (text == "&amp;") return "&";
    if (text == "&lt;") return "<";
    if (text == "&gt;") return ">";
    if (text == "&quot;") return "\"";
    if (text == "&apos;") return "'";
    if (text.starts_with("&#x")) {
        unsigned code = 0;
        std::from_chars(text.data() + 3, text.data() + text.size(), code, 16);
        return utf8(code);
    }
    return std::string(text);
}

/// The letters of each page in the order they were written.
std::vector<std::vector<Letter>> letters_of(const std::string& pdf) {
    const TemporaryFile file(pdf, ".pdf");
    const auto ran = run("mutool draw -q -F stext " + file.path(), Errors::dropped);
    REQUIRE(ran.status == 0);
    std::vector<std::vector<Letter>> pages;
    Letter now;
    for (std::size_t at = 0; at < ran.output.size();) {
        const auto end = std::min(ran.output.find('\n', at), ran.output.size());
        const auto line = std::string_view(ran.output).substr(at, end - at);
        at = end + 1;
        if (line.starts_with("<page ")) pages.emplace_back();
        if (line.starts_with("<font ")) {
            now.size = number(line, "size=\"");
            now.bold = line.find("Bold") != std::string_view::npos;
        }
        if (!line.starts_with("<char ")) continue;
        now.character = character(line);
        now.x = number(line, " x=\"") * layout::mm_per_point;
        now.y = number(line, " y=\"") * layout::mm_per_point;
        pages.back().push_back(now);
    }
    return pages;
}

std::string faults(const document::Label& label, const layout::PlacedLabel& placed,
                   const std::vector<Letter>& page) {
    const auto& body = *label.body;
    const double panel_mm2 =
        body.panel ? body.panel->si() * 1e6 : placed.box.width * placed.box.height;
    std::string text;
    std::vector<const Letter*> behind;
    for (const auto& letter : page) {
        if (!placed.box.contains({letter.x, letter.y, 0, 0})) continue;
        const auto bytes = bare(letter.character);
        text += bytes;
        behind.insert(behind.end(), bytes.size(), &letter);
    }
    std::string wrong;
    for (const auto& part : parts_of(label, body)) {
        if (!part.required) continue;
        double best = -1;
        for (const auto& wording : part.wordings) {
            double smallest = no_end;
            for (const auto& line : wording.lines) {
                const auto wanted = bare(text::plain(line));
                const auto at = text.find(wanted);
                if (at == std::string::npos) smallest = -1;
                for (std::size_t i = at; smallest >= 0 && i < at + wanted.size(); ++i) {
                    const auto& face =
                        behind[i]->bold ? *installed_faces().bold : *installed_faces().regular;
                    smallest =
                        std::min(smallest,
                                 behind[i]->size / minimum_points(body, part.part,
                                                                  panel_mm2 / (25.4 * 25.4), face));
                }
            }
            best = std::max(best, smallest);
        }
        const std::string name(templates::name(part.part));
        if (best < 0) wrong += label.name + ": " + name + " is not there whole in: " + text + "\n";
        // MuPDF gives sizes to a thousandth of a point.
        else if (best < 1 - 2e-4)
            wrong += label.name + ": " + name + " is too small\n";
    }
    return wrong;
}

}  // namespace

TEST_CASE("what MuPDF reads from the PDF is each label's text, whole, in its box, large enough") {
    RandomLabelJobs random(4);
    std::set<std::string> stocks;
    int labels = 0;
    for (int i = 0; i < 60; ++i) {
        const auto job = random.next();
        const auto& all = shipped_stocks();
        const auto& stock =
            all[static_cast<std::size_t>(random.whole(0, static_cast<int>(all.size()) - 1))];
        const auto made = labels_of(job);
        REQUIRE(made);
        INFO(job << "on " << stock.stock.name);
        try {
            const auto sheets = layout::place_labels(*made, stock, installed_faces());
            const auto pages = letters_of(pdf::write(sheets.paper, installed_faces()));
            REQUIRE(pages.size() == sheets.paper.pages.size());
            std::string wrong;
            for (std::size_t l = 0; l < sheets.labels.size(); ++l)
                wrong += faults(made->labels[l], sheets.labels[l],
                                pages[static_cast<std::size_t>(sheets.labels[l].page)]);
            CHECK(wrong == "");
            labels += static_cast<int>(sheets.labels.size());
            stocks.insert(stock.stock.name);
        } catch (const layout::LayoutError&) {
            // Told with figures: see label_property_test.cpp.
        }
    }
    CHECK(labels > 80);
    CHECK(stocks.size() > 12);
}
