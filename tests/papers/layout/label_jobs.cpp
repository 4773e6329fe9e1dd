#include "papers/layout/label_jobs.hpp"

#include <fmt/format.h>
#include <map>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"
#include "domain/job/accept.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "domain/safety/who_to_call.hpp"
#include "languages.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/templates/library.hpp"
#include "tracking/keys/link.hpp"

namespace gallipot::tests {

namespace {
const std::string templates_folder = GALLIPOT_SOURCE_DIR "/templates";
}

std::optional<document::Labels> labels_of(const std::string& job_text, std::string* error) {
    diag::Diagnostics found;
    const auto source = std::make_shared<const diag::Source>(diag::Source{"job.yaml", job_text});
    const auto job = job::read_job(source, found);
    std::optional<document::Labels> labels;
    if (job) {
        const auto who = safety::who_to_call(job->help, found);
        const auto plan = plan::make_plan(
            *job,
            [&](const job::Station& station) {
                return job->log.address ? keys::link(**job->log.address, *station.id, "7Q2MX4KD9A")
                                        : std::string();
            },
            found);
        job::take_accepted(*job, found);
        std::vector<text::Catalog> catalogs;
        for (const auto& language : job->languages)
            catalogs.emplace_back(templates_folder, *language, *job->help.region, found);
        std::vector<const text::Catalog*> spoken;
        for (const auto& catalog : catalogs) spoken.push_back(&catalog);
        if (!found.has_errors()) labels = document::LabelMaker(*job, plan, who, spoken)();
    }
    if (error != nullptr) *error = diag::print(found);
    return labels;
}

std::vector<document::LabelPart> parts_of(const document::Label& label,
                                          const document::LabelBody& body) {
    std::vector<document::LabelPart> parts{{document::Part::id, true, {{{label.id}}}}};
    parts.insert(parts.end(), body.parts.begin(), body.parts.end());
    return parts;
}

const std::vector<layout::LabelStock>& shipped_stocks() {
    static const std::vector<layout::LabelStock> stocks = [] {
        const templates::Library library({templates_folder});
        std::vector<layout::LabelStock> all;
        diag::Diagnostics found;
        for (const auto& name : library.stock_names()) {
            auto stock = library.stock({name, {}}, found);
            if (!stock) continue;
            auto design = library.design(*stock, found);
            if (design && !design->compact) all.push_back({std::move(*stock), std::move(*design)});
        }
        INFO(diag::print(found));
        REQUIRE_FALSE(found.has_errors());
        return all;
    }();
    return stocks;
}

const layout::LabelStock& compact_stock(const std::string& name) {
    static const templates::Library library({templates_folder});
    static std::map<std::string, layout::LabelStock> known;
    const auto at = known.find(name);
    if (at != known.end()) return at->second;
    diag::Diagnostics found;
    auto stock = library.stock({name, {}}, found);
    REQUIRE(stock);
    auto design = library.design(*stock, found);
    REQUIRE(design);
    REQUIRE(design->compact);
    return known.emplace(name, layout::LabelStock{std::move(*stock), std::move(*design)})
        .first->second;
}

const layout::LabelStock& shipped_stock(const std::string& name) {
    for (const auto& stock : shipped_stocks())
        if (stock.stock.name == name) return stock;
    throw std::logic_error("no stock " + name);
}

int RandomLabelJobs::whole(int low, int high) {
    // Not uniform_int_distribution, whose numbers differ from library to library.
    return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1));
}

std::string RandomLabelJobs::words(int count) {
    static const std::vector<std::string> list{"sweet", "liquid", "bait",    "green", "for",
                                               "the",   "yard",   "kitchen", "in",    "summer",
                                               "No. 2", "Ñandú",  "кухня",   "groß",  "(weak)"};
    std::string out = "Bait";
    for (int i = 1; i < count; ++i) out += " " + one_of(list);
    return out;
}

std::string RandomLabelJobs::next() {
    const auto region = one_of<std::string>({"AU", "US", "NZ", "FR", "GB", "DE"});
    auto languages = one_of(tests::languages());
    if (whole(0, 1)) {
        const auto second = one_of(tests::languages());
        if (second != languages) languages += ", " + second;
    }
    std::string job = fmt::format(
        "title: {}\nprepared: 2027-03-02\naccept: [far-from-usual]\nlanguages: [{}]\nhelp:\n  "
        "region: {}\n"
        "  poison_centre: {{ name: Poisons line, phone: {} }}\n  emergency: 112\n",
        words(whole(1, 5)), languages, region,
        one_of<std::string>({"555-0111", "(02) 5550 0142", "1-800-555-0199"}));
    if (whole(0, 1))
        job +=
            fmt::format("  contact: {{ name: {}, phone: (02) 5550 0143 }}\n", words(whole(1, 5)));
    const auto address = one_of<std::string>(
        {"", "http://10.0.0.2", "http://192.168.1.20:8017",
         "https://log.weir-street-hall.example/our/forms/{station}/visit?from=label"});
    if (!address.empty()) job += "log:\n  address: " + address + "\n";
    job += "measures:\n  - 1 tsp\n  - { scale: 5 kg, marks: 0.001 g }\n";
    job += "supplies:\n  malt: { density: 1.4 g/mL }\n";
    const auto form = one_of<std::string>({"liquid", "liquid", "dry", "paste"});
    const auto borate =
        one_of<std::string>({"borax", "boric acid", "disodium octaborate", "baking soda"});
    const auto share = one_of<std::string>({"0.1", "1", "12", "45"});
    const auto with = one_of<std::string>({"sugar: 20, ", "sugar: 5, malt: 5, ", "malt: 1, "});
    job += fmt::format(
        "mixes:\n  first:\n    title: {}\n    against: {}\n    form: {}\n"
        "    basis: percent w/w\n    ingredients: {{ {}: {}, {}{}: rest }}\n    lasts: {} d\n",
        words(whole(1, 7)), one_of<std::string>({"ants", "cockroaches", "silverfish"}), form,
        borate, share, with, form == "liquid" ? "water" : "flour", whole(3, 200));
    const double holds = one_of<double>({10, 60, 125, 500, 700, 5000});
    const auto body = one_of<std::string>({"", ", body: { diameter: 45 mm, height: 44 mm }",
                                           ", body: { diameter: 80 mm, height: 60 mm }",
                                           ", body: { diameter: 80 mm, height: 200 mm }",
                                           ", body: { lid: 60 mm }"});
    job +=
        fmt::format("containers:\n  cup: {{ holds: {} mL, fill: {} mL, openings: open top{} }}\n",
                    holds, holds * 0.6, body);
    job += "stations:\n";
    for (int i = whole(1, 3); i > 0; --i) {
        job += fmt::format(
            "  - {{ id: {}{}, place: Behind it, mix: first, container: cup, count: {}{} }}\n",
            one_of<std::string>({"A", "KITCHEN", "W"}), i, whole(1, 2),
            whole(0, 2) ? ", placed: 2027-03-04 19:30" : "");
    }
    return job;
}

}  // namespace gallipot::tests
