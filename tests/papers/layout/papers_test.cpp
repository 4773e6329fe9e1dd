#include <algorithm>
#include <deque>
#include <map>
#include <random>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "golden.hpp"
#include "languages.hpp"
#include "papers/document/household_pictures.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/pack_cover.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/takedown_sheet.hpp"
#include "papers/document/tasting_sheet.hpp"
#include "papers/document/visit_sheets.hpp"
#include "papers/layout/chapters.hpp"
#include "papers/layout/check.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/installed_faces.hpp"
#include "papers/qr/symbol.hpp"
#include "papers/text/direction.hpp"

using namespace gallipot;

namespace {

std::string tenths(int n) {
    return std::to_string(n / 10) + "." + std::to_string(n % 10);
}

/// A job with so many stations of every kind at random, on two floors.
std::string random_job(int stations, const std::string& paper, std::minstd_rand& random) {
    const auto below = [&](unsigned n) { return static_cast<int>(random() % n); };
    const char* near[] = {"children", "pets", "food", "rain", "sun", "cold", "heat"};
    const char* places[] = {"Kitchen, behind the bins", "Hall, under the long bench by the window",
                            "Store", "Yard, far wall, beside the old water tank and the steps",
                            "Attic, beam 3"};
    std::string text =
        "title: Random house\nprepared: 2027-03-02\nby: Caretaker\npaper: " + paper +
        "\nhelp: { region: AU, contact: { name: Caretaker, phone: (02) 5550 0142 } }\n"
        "measures: [1 tbsp, 1 tsp, 1/4 tsp, { jug: 500 mL, marks: 25 mL }, { scale: 2 kg, marks: "
        "1 g }]\n"
        "mixes:\n"
        "  syrup: { title: Sweet liquid bait, against: ants, form: liquid, basis: percent w/w, "
        "ingredients: { borax: 1, sugar: 20, water: rest }, vessel: 100 L, "
        "batch: 5 L, lasts: 30 d }\n"
        "  dry: { title: Dry bait, against: cockroaches, form: dry, basis: parts by volume, "
        "ingredients: { borax: 1, icing sugar: 1 }, batch: 2 L, lasts: 90 d }\n"
        "  timber: { title: Timber spray, against: wood borers, form: spray, basis: percent w/v, "
        "ingredients: { borax: { as: boric acid, percent: 1 }, water: rest }, batch: 9 L }\n"
        "containers:\n"
        "  cup: { holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }\n"
        "  tray: { holds: 30 mL, fill: 20 mL, openings: open top }\n"
        "stations:\n";
    for (int i = 0; i < stations; ++i) {
        text += "  - { id: ST-" + std::string(1, static_cast<char>('A' + below(26))) +
                std::to_string(i) + "X, place: '" + places[below(5)] + "'";
        const int kind = below(8);
        if (kind == 0) {
            text += ", control: true";
        } else if (kind == 1) {
            text += ", mix: timber, area: " + std::to_string(1 + below(20)) +
                    " m2, coats: " + std::to_string(1 + below(3));
        } else {
            // An open tray within reach is refused unless it is shut in.
            text += kind < 5 ? ", mix: syrup, container: cup"
                             : ", mix: dry, container: tray, locked: true";
            text += ", count: " + std::to_string(1 + below(3));
            if (below(3) == 0) text += ", coldest: " + std::to_string(below(15)) + " C";
        }
        if (kind != 0) {
            text += ", near: [";
            bool first = true;
            for (const char* one : near) {
                if (below(3) != 0) continue;
                text += (first ? "" : ", ") + std::string(one);
                first = false;
            }
            text += "], placed: 2027-03-0" + std::to_string(2 + below(4)) + " 1" +
                    std::to_string(below(10)) + ":30";
        }
        if (below(10) != 0)
            text += ", floor: " + std::string(below(2) == 0 ? "Ground" : "Upper") + ", at: [" +
                    tenths(below(140)) + ", " + tenths(below(90)) + "]";
        text += " }\n";
    }
    return text +
           "floor_plan:\n  start: [1, 1]\n  rooms:\n"
           "    - { name: Kitchen, floor: Ground, outline: [[0, 0], [6, 0], [6, 9], [0, 9]] }\n"
           "    - { name: Hall with the long name, floor: Ground, outline: [[6, 0], [14, 0], [14, "
           "5], [6, 5]] }\n"
           "    - { name: Attic, floor: Upper, outline: [[0, 0], [14, 0], [14, 9], [7, 9], [7, 4], "
           "[0, 4]] }\n"
           "visits: [1 d, 14 d]\nno_sprays_for: 21 d\n";
}

void check_sound(const layout::Paper& paper, const layout::PageStyle& style) {
    const layout::Box allowed{style.margin, style.margin_top, style.width(),
                              style.page.height - style.margin_top - style.margin_bottom};
    for (const layout::Page& page : paper.pages) {
        REQUIRE(layout::overlaps(page) == std::vector<std::string>{});
        REQUIRE(layout::strays(page, allowed) == std::vector<std::string>{});
        REQUIRE(layout::unnamed(page) == std::vector<std::string>{});
    }
}

layout::Paper laid(std::vector<document::Sheet> sheets, const text::Catalog& words,
                   const layout::PageStyle& style) {
    const document::Document document{"Title", "", words.tag(), std::move(sheets)};
    layout::try_out(document, style, tests::installed_faces());
    return layout::lay_out(document, style, tests::installed_faces());
}

std::string without_spaces(std::string text) {
    for (const std::string gone : {" ", "\u00A0", "\u00AD", "\u2067", "\u2068", "\u2069"})
        for (auto at = text.find(gone); at != std::string::npos; at = text.find(gone, at))
            text.erase(at, gone.size());
    return text;
}

/// Brackets among text from right to left are drawn the other way round.
const std::string& as_read(const layout::Text& text) {
    return text.read_as.empty() ? text.text : text.read_as;
}

/// What stands on a page, without spaces: a line may break where one stood.
std::string letters_on(const layout::Page& page) {
    std::string all;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::Text>(&item.shape)) all += as_read(*text);
    return without_spaces(std::move(all));
}

/// Of the running text of what stands behind the front, in points.
constexpr double least_behind = 11;

/// Of that on the front. What termites ask for besides takes room. As measured of the hall, the
/// flat and the workshop: a guard for who makes a text longer.
double front_size(const std::string& job) {
    return job.ends_with("termites") ? least_behind : 12;
}

/// What to do in an emergency: the sheet keeps that together.
std::vector<text::StyledText> emergency_lines(const document::Sheet& sheet) {
    std::vector<text::StyledText> lines;
    for (const auto& block : sheet.blocks) {
        const auto* group = std::get_if<std::shared_ptr<const document::Group>>(&block);
        if (group == nullptr) continue;
        for (const auto& part : (*group)->blocks) {
            if (const auto* list = std::get_if<document::Checklist>(&part))
                lines.insert(lines.end(), list->items.begin(), list->items.end());
            if (const auto* columns = std::get_if<document::Columns>(&part))
                for (const auto& one : columns->parts)
                    lines.insert(lines.end(), one.lines.begin(), one.lines.end());
        }
    }
    return lines;
}

/// How far what stands on a page keeps from a box, but for what stands in it: mm.
double clear_round(const layout::Page& page, const layout::Box& box) {
    double clear = 1000;
    for (const auto& item : page.items) {
        const layout::Box& other = item.bounds;
        const double across =
            std::max(box.x - (other.x + other.width), other.x - (box.x + box.width));
        const double down =
            std::max(box.y - (other.y + other.height), other.y - (box.y + box.height));
        const double apart = std::max(across, down);
        if (std::holds_alternative<layout::Code>(item.shape)) continue;
        clear = std::min(clear, apart);
    }
    return std::min({clear, box.x, box.y, page.size.width - box.x - box.width});
}

/// The type that the words of a paper's running text are set in, in points; 0 where they do not
/// stand there one after another.
double smallest_type(const layout::Page& page, const std::string& words) {
    std::vector<const layout::Text*> all;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::Text>(&item.shape)) all.push_back(text);
    const std::string wanted = without_spaces(words);
    for (std::size_t first = 0; first < all.size(); ++first) {
        std::string said;
        double smallest = 1000;
        for (std::size_t i = first; i < all.size() && wanted.starts_with(said); ++i) {
            said += without_spaces(as_read(*all[i]));
            if (!said.empty()) smallest = std::min(smallest, all[i]->size);
            if (said == wanted) return smallest;
        }
    }
    return 0;
}

}  // namespace

TEST_CASE("the household sheets of the examples: two pages at most, emergencies on the front",
          "[layout][papers]") {
    for (const std::string name : {"hall", "flat", "workshop", "workshop with termites"}) {
        const std::string path =
            GALLIPOT_SOURCE_DIR "/examples/" + name.substr(0, name.find(' ')) + ".yaml";
        std::string text = tests::slurp(path);
        if (const std::string borers = "against: wood borers"; name.ends_with("termites"))
            text.replace(text.find(borers), borers.size(), "against: termites");
        const auto source = std::make_shared<const diag::Source>(diag::Source{path, text});
        diag::Diagnostics out;
        const auto job = job::read_job(source, out);
        REQUIRE(job);
        const auto who = safety::who_to_call(job->help, out);
        const auto plan = plan::make_plan(*job, {}, out);
        INFO(diag::print(out));
        REQUIRE_FALSE(out.has_errors());
        const auto style =
            *job->paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
        for (const std::string& language : tests::languages()) {
            INFO(name << " in " << language);
            const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language, *job->help.region,
                                      out);
            const auto sheet = document::household_sheet(*job, plan, who, words);
            const auto paper = laid({sheet}, words, style);
            check_sound(paper, style);
            CHECK(paper.pages.size() <= 2);
            const std::string front = without_spaces(letters_on(paper.pages.front()));
            // Where it is, by its number, and whom to tell.
            for (const auto& station : plan.stations)
                for (const std::string& id : station.container_ids)
                    CHECK((front.find(id) != std::string::npos ||
                           front.find(station.id) != std::string::npos));
            if (job->help.contact)
                CHECK(front.find(without_spaces(*job->help.contact->phone)) != std::string::npos);
            const auto lines = emergency_lines(sheet);
            REQUIRE(lines.size() >= 11);
            for (const auto& line : lines) {
                INFO(text::plain(line));
                CHECK(front.find(without_spaces(text::plain(line))) != std::string::npos);
                CHECK(smallest_type(paper.pages.front(), text::plain(line)) >=
                      front_size(name) - 1e-6);
            }
            for (const char* key : {"sheet.please.wash", "sheet.please.away"}) {
                double size = 0;
                for (const auto& page : paper.pages)
                    size = std::max(size, smallest_type(page, words(key)));
                CHECK(size >= least_behind - 1e-6);
            }
        }
    }
}

TEST_CASE("a code beside the household sheet's title takes nothing from its type",
          "[layout][papers]") {
    for (const std::string name : {"hall", "flat", "workshop"}) {
        const std::string path = GALLIPOT_SOURCE_DIR "/examples/" + name + ".yaml";
        const auto source =
            std::make_shared<const diag::Source>(diag::Source{path, tests::slurp(path)});
        diag::Diagnostics out;
        const auto job = job::read_job(source, out);
        REQUIRE(job);
        const auto who = safety::who_to_call(job->help, out);
        const auto plan = plan::make_plan(*job, {}, out);
        const auto style =
            *job->paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
        for (const std::string& language : tests::languages())
            for (const std::string link :
                 {"HTTP://192.168.1.20:8017/HOME/7Q2MX4KD9A",
                  "HTTPS://BAITS.WEIR-STREET-HALL.EXAMPLE/HOME/7Q2MX4KD9A",
                  "HTTPS://BAITS.WEIR-STREET-HALL.EXAMPLE/Log/HOME/7Q2MX4KD9A"}) {
                INFO(name << " in " << language << ", " << link);
                const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language,
                                          *job->help.region, out);
                const auto sheet = document::household_sheet(*job, plan, who, words, nullptr, link);
                const auto plain = document::household_sheet(*job, plan, who, words);
                REQUIRE(sheet.code);
                const auto with = laid({sheet}, words, style),
                           without = laid({plain}, words, style);
                check_sound(with, style);
                CHECK(with.pages.size() == without.pages.size());
                const std::string line = text::plain(emergency_lines(sheet).front());
                // A path in small letters takes a larger symbol, which may cost half a point.
                const bool longest = link.ends_with("/Log/HOME/7Q2MX4KD9A");
                CHECK(smallest_type(with.pages.front(), line) >=
                      smallest_type(without.pages.front(), line) - (longest ? 0.5 : 0.0));
                // On the front, clear of all else, with its caption in the smallest type or larger.
                int codes = 0;
                for (const auto& item : with.pages.front().items) {
                    const auto* code = std::get_if<layout::Code>(&item.shape);
                    if (code == nullptr) continue;
                    ++codes;
                    const double module = code->box.width / code->symbol->modules;
                    CHECK(module >= style.head_modules.back() - 1e-9);
                    CHECK(clear_round(with.pages.front(), code->box) >=
                          qr::quiet_zone * module - 1e-6);
                }
                CHECK(codes == 1);
                CHECK(letters_on(with.pages.front()).find(without_spaces(words("sheet.code"))) !=
                      std::string::npos);
            }
    }
}

TEST_CASE("papers of random jobs: nothing off the page, nothing overlapping", "[layout][papers]") {
    using namespace document;
    std::minstd_rand random(23);
    const std::vector<std::string> languages = tests::languages();
    std::size_t turn = 0;
    for (const int stations : {1, 2, 3, 8, 21, 60, 130, 200}) {
        const std::string language = languages[turn % languages.size()];
        const bool letter = turn++ % 2 == 1;
        INFO(stations << " stations, " << language);
        const auto source = std::make_shared<const diag::Source>(
            diag::Source{"job.yaml", random_job(stations, letter ? "Letter" : "A4", random)});
        diag::Diagnostics out;
        const auto job = job::read_job(source, out);
        INFO(diag::print(out));
        REQUIRE(job);
        const auto who = safety::who_to_call(job->help, out);
        const auto plan = plan::make_plan(*job, {}, out);
        INFO(diag::print(out));
        REQUIRE_FALSE(out.has_errors());
        const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language, "AU", out);
        const auto style = letter ? layout::letter_style() : layout::a4_style();

        std::deque<layout::Paper> papers;
        std::vector<layout::Chapter> chapters;
        const auto add = [&](const std::string& name, std::vector<Sheet> sheets) {
            INFO(name);
            papers.push_back(laid(std::move(sheets), words, style));
            check_sound(papers.back(), style);
            chapters.push_back({name, &papers.back()});
        };
        add("household", {household_sheet(*job, plan, who, words)});
        if (sets_out_bait(*job)) add("tasting", {tasting_sheet(*job, plan, words)});
        add("cards", mixing_cards(*job, plan, who, words));
        add("placement", {placement_plan(*job, plan, who, words)});
        add("visits", {visit_sheets(*job, plan, words)});
        add("takedown", {takedown_sheet(*job, plan, who, words)});

        std::size_t pages = 0;
        std::vector<int> begins;
        for (const auto& paper : papers) {
            begins.push_back(static_cast<int>(pages));
            pages += paper.pages.size();
        }
        // Every chapter is found by its bookmark, at its first page.
        std::vector<int> bookmarked;
        for (const auto& bookmark : layout::combine(chapters).bookmarks) {
            CHECK(bookmark.page < static_cast<int>(pages));
            if (bookmark.level == 0) bookmarked.push_back(bookmark.page);
        }
        for (const int begin : begins)
            CHECK(std::find(bookmarked.begin(), bookmarked.end(), begin) != bookmarked.end());
        // Every station stands in the placement plan's list and drawing, every one on the sheets.
        for (const auto& station : job->stations) {
            int found = 0;
            for (const auto& paper : papers)
                for (const auto& page : paper.pages)
                    for (const auto& item : page.items)
                        if (const auto* text = std::get_if<layout::Text>(&item.shape))
                            found += text->text.find(*station.id) != std::string::npos ? 1 : 0;
            INFO(*station.id);
            // A place without bait is on no household and no take-down sheet.
            CHECK(found >= (station.at ? 3 : 2) + (station.mix ? 1 : 0));
        }
    }
}

namespace {

/// What a household's page in pictures says in each of its languages.
constexpr const char* in_pictures[] = {"sheet.sign.not_food", "sheet.sign.no_touching",
                                       "sheet.pictures.swallowed"};

/// What language the paragraph is tagged with that says just that.
std::string language_of(const layout::Page& page, const std::string& words) {
    std::map<int, std::string> said;
    for (const auto& item : page.items)
        if (const auto* text = std::get_if<layout::Text>(&item.shape))
            said[item.tag] += as_read(*text);
    for (const auto& [tag, text] : said)
        if (tag >= 0 && without_spaces(text) == without_spaces(words))
            return page.tags[static_cast<std::size_t>(tag)].language;
    return "no paragraph of its own";
}

/// How far down its page the last thing above the footer reaches, as a share of the room there.
double fill(const layout::Page& page, const layout::PageStyle& style) {
    double bottom = style.margin_top;
    for (const auto& item : page.items)
        if (item.group < 0 || !page.groups[item.group].ends_with(": footer"))
            bottom = std::max(bottom, item.bounds.bottom());
    return (bottom - style.margin_top) /
           (style.page.height - style.margin_top - style.margin_bottom);
}

}  // namespace

TEST_CASE("the page in pictures: one page, five languages, large numbers, every container",
          "[layout][papers]") {
    for (const std::string name : {"hall", "flat", "workshop"}) {
        const std::string path = GALLIPOT_SOURCE_DIR "/examples/" + name + ".yaml";
        const auto source =
            std::make_shared<const diag::Source>(diag::Source{path, tests::slurp(path)});
        diag::Diagnostics out;
        const auto job = job::read_job(source, out);
        REQUIRE(job);
        const auto who = safety::who_to_call(job->help, out);
        const auto plan = plan::make_plan(*job, {}, out);
        const auto style =
            *job->paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
        std::deque<text::Catalog> catalogs;
        std::vector<std::vector<const text::Catalog*>> choices;  // each by itself, then five
        for (const std::string& language : tests::languages()) {
            catalogs.emplace_back(GALLIPOT_SOURCE_DIR "/templates", language, *job->help.region,
                                  out);
            choices.push_back({&catalogs.back()});
        }
        choices.emplace_back();
        for (const auto& words : catalogs)
            if (choices.back().size() < 5) choices.back().push_back(&words);
        for (const auto& languages : choices) {
            INFO(name << ", " << languages.size() << " from " << languages.front()->language());
            const auto paper = laid({document::household_pictures(*job, plan, who, languages)},
                                    *languages.front(), style);
            check_sound(paper, style);
            REQUIRE(paper.pages.size() == 1);
            CHECK(fill(paper.pages.front(), style) > 0.6);
            const std::string all = without_spaces(letters_on(paper.pages.front()));
            for (const auto* words : languages)
                for (const char* key : in_pictures) {
                    INFO(key);
                    CHECK(all.find(without_spaces((*words)(key))) != std::string::npos);
                    const std::string said = words == languages.front() ? "" : words->tag();
                    CHECK(language_of(paper.pages.front(), (*words)(key)) == said);
                }
            for (const auto& station : plan.stations)
                if (!station.container_ids.empty())
                    CHECK(all.find(station.container_ids.front()) != std::string::npos);
            double number = 0, least = 1000;
            for (const auto& item : paper.pages.front().items) {
                const auto* text = std::get_if<layout::Text>(&item.shape);
                if (text == nullptr) continue;
                if (without_spaces(text->text) == without_spaces(who.phone))
                    number = std::max(number, text->size);
                const auto& group =
                    paper.pages.front().groups[static_cast<std::size_t>(item.group)];
                if (group.find("signs") != std::string::npos) least = std::min(least, text->size);
            }
            CHECK(number >= 24);
            CHECK(least >= 11);
        }
    }
}

namespace {

struct Example {
    job::Job job;
    plan::Plan plan;
    safety::WhoToCall who;
    layout::PageStyle style;
};

Example example(const std::string& name, diag::Diagnostics& out) {
    const std::string path = GALLIPOT_SOURCE_DIR "/examples/" + name + ".yaml";
    const auto source =
        std::make_shared<const diag::Source>(diag::Source{path, tests::slurp(path)});
    auto job = job::read_job(source, out);
    if (!job) throw std::runtime_error(diag::print(out));
    const auto who = safety::who_to_call(job->help, out);
    const auto plan = plan::make_plan(*job, {}, out);
    const bool letter = *job->paper == job::Paper::letter;
    return {*job, plan, who, letter ? layout::letter_style() : layout::a4_style()};
}

/// The parts of the pack of an example, the cover first, each with how far its pages are filled.
struct LaidPart {
    std::string name;
    std::vector<double> filled;
};

std::vector<LaidPart> pack_of(const Example& it, const text::Catalog& words) {
    using namespace document;
    const auto& [job, plan, who, style] = it;
    std::vector<LaidPart> parts;
    std::vector<PackPart> named;
    const auto lay = [&](const std::string& name, std::vector<Sheet> sheets) {
        const auto paper = laid(std::move(sheets), words, style);
        check_sound(paper, style);
        LaidPart part{name, {}};
        for (const layout::Page& page : paper.pages) part.filled.push_back(fill(page, style));
        return part;
    };
    const auto add = [&](const std::string& name, std::vector<Sheet> sheets) {
        parts.push_back(lay(name, std::move(sheets)));
        named.push_back({name, static_cast<int>(parts.back().filled.size())});
    };
    add("household", {household_sheet(job, plan, who, words)});
    add("tasting", {tasting_sheet(job, plan, words)});
    add("cards", mixing_cards(job, plan, who, words));
    add("placement", {placement_plan(job, plan, who, words)});
    add("visits", {visit_sheets(job, plan, words)});
    add("takedown", {takedown_sheet(job, plan, who, words)});
    parts.insert(parts.begin(), lay("cover", {pack_cover(job, named, who, words)}));
    return parts;
}

}  // namespace

// A guard for who adds to a paper: the golden shows which one grew.
TEST_CASE("the packs of the examples: few pages, none of them nearly empty", "[layout][papers]") {
    std::string counts;
    for (const std::string name : {"hall", "flat", "workshop"}) {
        diag::Diagnostics out;
        const Example it = example(name, out);
        for (const std::string& language : tests::languages()) {
            const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", language,
                                      *it.job.help.region, out);
            std::string line;
            std::size_t pages = 0;
            for (const auto& [part, filled] : pack_of(it, words)) {
                for (std::size_t page = 0; page < filled.size(); ++page) {
                    INFO(name << " in " << language << ", " << part << ": page " << page + 1
                              << " of " << filled.size() << " is filled to " << filled[page]);
                    CHECK(filled[page] > (name == "hall" ? 1.0 / 3 : 0.3));
                }
                pages += filled.size();
                line += " " + part + " " + std::to_string(filled.size());
            }
            counts += name + " " + language + ": " + std::to_string(pages) + " =" + line + "\n";
        }
    }
    tests::check_golden("layout/page_counts.txt", counts);
}

TEST_CASE("the cover names the pages that the parts are on", "[layout][papers]") {
    using namespace document;
    diag::Diagnostics out;
    const Example it = example("hall", out);
    const text::Catalog words(GALLIPOT_SOURCE_DIR "/templates", "en", "AU", out);
    const Sheet cover = pack_cover(it.job, {{"household", 2}, {"cards", 1}}, it.who, words);
    const auto& table = std::get<Table>(cover.blocks.at(cover.blocks.size() - 3));
    REQUIRE(table.rows.size() == 2);
    CHECK(text::plain(table.rows[0].back().text) == "2 to 3");
    CHECK(text::plain(table.rows[1].back().text) == "4");
}
