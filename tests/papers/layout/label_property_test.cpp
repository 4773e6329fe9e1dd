#include <algorithm>
#include <cmath>
#include <map>

#include "catch_all.hpp"

#include "base/diag/utf8.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/layout/label_jobs.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/published_sizes.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using document::Part;

namespace {

/// The text of one label as it stands, and the item behind each byte.
struct Printed {
    std::string text;
    std::vector<const layout::Item*> items;

    void add(const layout::Item& item) {
        const auto& set = std::get<layout::Text>(item.shape);
        const auto more = bare(set.read_as.empty() ? set.text : set.read_as);
        text += more;
        items.insert(items.end(), more.size(), &item);
    }
    /// Whether `line` stands in it whole; `smallest` becomes the smallest type over its least.
    bool holds(const std::string& line, const document::LabelBody& label, Part part,
               double panel_in2, double& smallest) const {
        const auto wanted = bare(line);
        const auto at = text.find(wanted);
        if (at == std::string::npos) return false;
        for (std::size_t i = at; i < at + wanted.size(); ++i) {
            const auto& set = std::get<layout::Text>(items[i]->shape);
            const auto& face = set.face == layout::Face::bold ? *installed_faces().bold
                                                              : *installed_faces().regular;
            smallest = std::min(smallest, set.size / minimum_points(label, part, panel_in2, face));
        }
        return true;
    }
};

bool inside_circle(const layout::Box& box, const layout::Box& label) {
    const double r = label.width / 2;
    for (const double x : {box.x, box.right()})
        for (const double y : {box.y, box.bottom()})
            if (std::hypot(x - label.x - r, y - label.y - r) > r + 0.01) return false;
    return true;
}

/// What is wrong with one placed label; empty when nothing is.
std::string faults(const document::Label& label, const layout::PlacedLabel& placed,
                   const layout::Page& page, const layout::LabelStock& stock) {
    const auto& body = *label.body;
    const double panel_mm2 =
        body.panel ? body.panel->si() * 1e6 : placed.box.width * placed.box.height;
    const double panel_in2 = panel_mm2 / (25.4 * 25.4);
    const std::string mine = "label " + label.name + "/";
    const bool round = stock.stock.shape == templates::Shape::circle;
    std::string wrong;
    const auto fault = [&](const std::string& what) {
        wrong += "  " + label.name + ": " + what + "\n";
    };

    Printed printed;
    int codes = 0, pictograms = 0;
    for (const auto& item : page.items) {
        if (item.group < 0) continue;
        const auto& group = page.groups[static_cast<std::size_t>(item.group)];
        if (!group.starts_with(mine) || group == mine + "mark") continue;
        if (std::holds_alternative<layout::Text>(item.shape)) printed.add(item);
        if (group == mine + "pictogram") ++pictograms;
        if (!placed.box.contains(item.bounds, 0.01)) fault(group + " lies outside");
        if (round && std::holds_alternative<layout::Text>(item.shape) &&
            !inside_circle(item.bounds, placed.box))
            fault(group + " lies outside the circle");
        const auto* code = std::get_if<layout::Code>(&item.shape);
        if (code == nullptr) continue;
        ++codes;
        if (code->symbol->content != label.code) fault("its code holds something else");
        // ISO/IEC 18004: four light modules on every side.
        const double module = code->box.width / code->symbol->modules, zone = 4 * module;
        const layout::Box quiet{code->box.x - zone, code->box.y - zone, code->box.width + 2 * zone,
                                code->box.height + 2 * zone};
        if (module < 0.33) fault("its modules are too small");
        if (!placed.box.contains(quiet, 0.01)) fault("its quiet zone leaves the label");
        if (round && !inside_circle(quiet, placed.box)) fault("its quiet zone leaves the circle");
        for (const auto& other : page.items) {
            const bool mark = std::holds_alternative<layout::Line>(other.shape);
            if (&other == &item || mark || !other.bounds.overlaps(quiet, 0.01)) continue;
            if (round && other.backdrop && other.bounds.bottom() <= quiet.y + 0.01) continue;
            fault("its quiet zone is not clear of " +
                  page.groups[static_cast<std::size_t>(other.group)]);
        }
    }
    if (label.code.empty() != (codes == 0)) fault("code missing, or one too many");
    if (body.pictograms.empty() != (pictograms == 0)) fault("pictograms missing");
    if (pictograms > 0 &&
        placed.report->pictogram_mm + 1e-9 < minimum_pictogram(units::in_L(body.capacity)))
        fault("pictograms too small");

    for (const auto& part : parts_of(label, body)) {
        if (!part.required) continue;
        const std::string name(templates::name(part.part));
        double best = 0;  // smallest type over its least, of the wording that is there
        bool found = false;
        for (const auto& wording : part.wordings) {
            double smallest = no_end;
            const bool all = std::all_of(
                wording.lines.begin(), wording.lines.end(), [&](const text::StyledText& line) {
                    return printed.holds(text::plain(line), body, part.part, panel_in2, smallest);
                });
            if (!all) continue;
            found = true;
            best = std::max(best, smallest);
        }
        if (!found) fault(name + " is not there whole: " + printed.text);
        // Sizes are whole tenths of a point or more: no rounding is needed beyond this.
        else if (best < 1 - 1e-6)
            fault(name + " is set too small");
    }
    const auto& left_out = placed.report->left_out;
    if (std::find(left_out.begin(), left_out.end(), Part::place) == left_out.end())
        for (const auto& line : label.place) {
            double smallest = no_end;
            if (!printed.holds(text::plain(line), body, Part::place, panel_in2, smallest))
                fault("its place is not there whole");
            else if (smallest < 1 - 1e-6)
                fault("its place is set too small");
        }
    return wrong;
}

/// The ink of every letter of a text.
std::vector<layout::Box> letters(const layout::Text& text) {
    if (text.shaped) {  // as a whole
        const double high = text.size * layout::mm_per_point;
        const auto& ink = text.shaped->ink;
        return {{text.origin.x, text.origin.y - ink.above * high, text.width,
                 (ink.above + ink.below) * high}};
    }
    const auto& font =
        text.face == layout::Face::bold ? *installed_faces().bold : *installed_faces().regular;
    const double em = text.size * layout::mm_per_point;
    std::vector<layout::Box> boxes;
    double x = text.origin.x;
    for (std::size_t i = 0; i < text.text.size();) {
        const std::size_t bytes = diag::character_at(text.text, i).bytes;
        const std::string letter = text.text.substr(i, bytes);
        i += bytes;
        const auto ink = font.ink(letter);
        const double width = font.advance(letter) * em;
        if (ink.above + ink.below > 0)
            boxes.push_back(
                {x, text.origin.y - ink.above * em, width, (ink.above + ink.below) * em});
        x += width;
    }
    return boxes;
}

/// Items whose ink meets though neither is a backdrop. Lines of text may reach into each other's
/// boxes, as where a tilde stands below a space: their letters may not.
std::string meetings(const layout::Page& page) {
    std::vector<const layout::Item*> items;
    for (const auto& item : page.items)
        if (!item.backdrop) items.push_back(&item);
    std::stable_sort(items.begin(), items.end(),
                     [](const auto* a, const auto* b) { return a->bounds.y < b->bounds.y; });
    std::string found;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const auto* one = std::get_if<layout::Text>(&items[i]->shape);
        for (std::size_t j = i + 1; j < items.size(); ++j) {
            if (items[j]->bounds.y >= items[i]->bounds.bottom()) break;
            const auto* two = std::get_if<layout::Text>(&items[j]->shape);
            if (one == nullptr && two == nullptr) continue;
            if (!items[i]->bounds.overlaps(items[j]->bounds, 0.01)) continue;
            bool meet = one == nullptr || two == nullptr;
            if (!meet)
                for (const auto& a : letters(*one))
                    for (const auto& b : letters(*two)) meet = meet || a.overlaps(b, 0.01);
            if (meet)
                found += "  " + page.groups[static_cast<std::size_t>(items[i]->group)] + " meets " +
                         page.groups[static_cast<std::size_t>(items[j]->group)] + "\n";
        }
    }
    return found;
}

struct Tally {
    int labels = 0, overflows = 0;
    std::map<std::string, int> by_stock;
};

void check_job(const std::string& job, const layout::LabelStock& stock, int start_at,
               Tally& tally) {
    std::string why;
    const auto labels = labels_of(job, &why);
    INFO(job << why);
    REQUIRE(labels);
    INFO("on " << stock.stock.name << " from " << start_at);
    layout::LabelSheets sheets;
    try {
        sheets = layout::place_labels(*labels, stock, installed_faces(),
                                      {.start_at = start_at, .offset = {}, .copies = 1});
    } catch (const layout::LayoutError& error) {
        for (const auto& overflow : error.overflows()) {
            ++tally.overflows;
            CHECK(overflow.needed > overflow.available);
            CHECK(overflow.problem.english().find(" mm") != std::string::npos);
            CHECK_FALSE(overflow.remedy.english().empty());
        }
        return;
    }
    REQUIRE(sheets.labels.size() == labels->labels.size());
    std::string wrong;
    for (std::size_t i = 0; i < sheets.labels.size(); ++i) {
        const auto& placed = sheets.labels[i];
        REQUIRE(placed.name == labels->labels[i].name);
        wrong += faults(labels->labels[i], placed,
                        sheets.paper.pages[static_cast<std::size_t>(placed.page)], stock);
    }
    for (const auto& page : sheets.paper.pages) wrong += meetings(page);
    CHECK(wrong == "");
    tally.labels += static_cast<int>(sheets.labels.size());
    tally.by_stock[stock.stock.name] += static_cast<int>(sheets.labels.size());
}

}  // namespace

TEST_CASE("every label says all it must, whole, inside itself and large enough, or does not fit") {
    RandomLabelJobs random(20270302);
    Tally tally;
    for (int i = 0; i < 700; ++i) {
        const auto job = random.next();
        const auto& stocks = shipped_stocks();
        const auto& stock =
            stocks[static_cast<std::size_t>(random.whole(0, static_cast<int>(stocks.size()) - 1))];
        check_job(job, stock, random.whole(1, stock.stock.per_page()), tally);
    }
    // Both ends of it are really met.
    CHECK(tally.labels > 700);
    CHECK(tally.overflows > 200);
    CHECK(tally.by_stock.size() >= 28);
    INFO(tally.labels << " labels, " << tally.overflows << " misfits, " << tally.by_stock.size()
                      << " stocks");
    CHECK(true);
}
