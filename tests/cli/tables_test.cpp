// A job says the same whether its stations and supplies are written in it or stand in tables.
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>
#include <random>

#include "base/csv/csv.hpp"
#include "hall.hpp"

namespace gallipot::tests {
namespace {

using Entry = std::vector<std::pair<std::string, std::string>>;  ///< key and value, as in YAML

constexpr const char* job = R"(title: Weir Street Hall
prepared: 2027-03-02
languages: [en, es]
help: {{ region: AU, contact: {{ name: Keeper, phone: 02 5550 0100 }} }}
currency: AUD
measures: [1 tbsp, 1 tsp, {{ jug: 500 mL, marks: 25 mL }}, {{ scale: 2 kg, marks: 0.1 g }}]
supplies:{}
mixes:
  syrup: {{ title: Syrup, against: ants, form: liquid, basis: percent w/w, ingredients: {{ borax: 1, malt: 20, water: rest }} }}
  timber: {{ title: Timber, against: wood borers, form: spray, basis: percent w/v, ingredients: {{ borax: {{ as: boric acid, percent: 1 }}, water: rest }} }}
containers:
  cup: {{ holds: 60 mL, fill: 45 mL, openings: 4 side holes of 6 mm }}
stations:{}
visits: [1 d, 7 d]
)";

class Random {
  public:
    explicit Random(unsigned seed) : random_(seed) {}
    bool chance(int percent) { return static_cast<int>(random_() % 100) < percent; }
    std::string one_of(const std::vector<std::string>& words) {
        return words[random_() % words.size()];
    }
    int below(int end) { return static_cast<int>(random_() % static_cast<unsigned>(end)); }
    std::string some_of(std::vector<std::string> words) {
        std::shuffle(words.begin(), words.end(), random_);
        words.resize(1 + random_() % words.size());
        return fmt::format("[{}]", fmt::join(words, ", "));
    }

  private:
    std::mt19937 random_;
};

Entry station(int number, Random& random) {
    Entry all{{"id", fmt::format("{}{}", random.one_of({"K", "b-", ""}), number)}};
    const std::string place = random.one_of({"Kitchen, behind the bins", "Hall; left", "Café",
                                             "Shelf 12\" up", "Door: sill", "Küche", "007"});
    if (random.chance(30)) {
        all.emplace_back("place.en", place);
        if (random.chance(70)) all.emplace_back("place.es", "Cocina, «abajo»");
    } else {
        all.emplace_back("place", place);
    }
    if (random.chance(30)) all.emplace_back("room", random.one_of({"Kitchen", "Sala grande"}));
    if (random.chance(20)) {
        all.emplace_back("control", random.one_of({"true", "yes", "TRUE"}));
        all.emplace_back("against", "ants");
        return all;
    }
    if (random.chance(30)) {
        all.emplace_back("mix", "timber");
        all.emplace_back("area", random.one_of({"6 m2", "1/2 m2", "20 sq ft"}));
        if (random.chance(50)) all.emplace_back("coats", "2");
    } else {
        all.emplace_back("mix", "syrup");
        all.emplace_back("container", "cup");
        if (random.chance(40)) all.emplace_back("count", std::to_string(1 + random.below(4)));
    }
    if (random.chance(60))
        all.emplace_back("placed", random.one_of({"2027-03-02", "2027-03-02 19:30",
                                                  "2027-03-02 7:30 pm", "2027-03-03T08:05"}));
    if (random.chance(50)) all.emplace_back("near", random.some_of({"rain", "sun", "plants"}));
    if (random.chance(40)) all.emplace_back("coldest", random.one_of({"8 C", "-2.5 C", "40 F"}));
    if (random.chance(40)) all.emplace_back("at", random.one_of({"[3.2, 1.1]", "[-1, 1/2]"}));
    if (random.chance(30))
        all.emplace_back("visits", random.one_of({"[1 h]", "[1 d, 7 d]", "[1 h, 1 d, 2 wk]"}));
    if (random.chance(30)) {
        all.emplace_back("inspected.by", "Licensed inspector");
        all.emplace_back("inspected.on", "2027-02-22");
    }
    return all;
}

Entry supply(const std::string& name, Random& random) {
    Entry all{{"name", name}};
    if (random.chance(50)) {
        all.emplace_back("density.from", "1.35 g/mL");
        all.emplace_back("density.to", "1.45 g/mL");
    } else {
        all.emplace_back("density", "1.4 g/mL");
    }
    if (random.chance(70)) {
        all.emplace_back("pack", random.one_of({"340 g", "1 kg", "12 oz"}));
        all.emplace_back("price", random.one_of({"2.90", "3", "0.5"}));
    }
    return all;
}

/// As a mapping on one line; what a dot parts goes a level down.
std::string yaml(const Entry& entry, const std::string& left_out = {}) {
    const auto text = [](const std::string& value) {
        if (value.front() == '[' || value.find_first_of(",;:\"") == std::string::npos) return value;
        std::string quoted = "\"";
        for (const char c : value) quoted += c == '"' ? std::string("\\\"") : std::string(1, c);
        return quoted + '"';
    };
    std::string all;
    std::string open;  // the key whose mapping is being written
    for (const auto& [key, value] : entry) {
        if (key == left_out) continue;
        const auto dot = key.find('.');
        const std::string above = dot == std::string::npos ? "" : key.substr(0, dot);
        if (above != open && !open.empty()) all += " }";
        if (!all.empty()) all += ", ";
        if (above != open && !above.empty()) all += above + ": { ";
        open = above;
        all += (dot == std::string::npos ? key : key.substr(dot + 1)) + ": " + text(value);
    }
    return "{ " + all + (open.empty() ? " }" : " } }");
}

/// As a spreadsheet saves it: columns in any order, with what such programs add.
std::string table(const std::vector<Entry>& entries, Random& random) {
    std::vector<std::string> columns;
    for (const Entry& entry : entries)
        for (const auto& [key, value] : entry)
            if (std::find(columns.begin(), columns.end(), key) == columns.end())
                columns.insert(columns.begin() + random.below(static_cast<int>(columns.size()) + 1),
                               key);
    const char separator = random.one_of({",", ";", "\t"}).front();
    const std::string line_end = random.one_of({"\n", "\r\n"});
    std::string text = random.chance(50) ? "\xEF\xBB\xBF" : "";
    const auto add = [&](const std::vector<std::string>& row) {
        std::string line = csv::print(row, separator);
        line.resize(line.size() - 2);
        text += line + line_end;
    };
    add(columns);
    for (const Entry& entry : entries) {
        std::vector<std::string> row;
        for (const std::string& column : columns) {
            std::string& cell = row.emplace_back();
            for (const auto& [key, value] : entry)
                if (key == column) cell = value;
            if (!cell.empty() && cell.front() == '[' && random.chance(70))
                cell = cell.substr(1, cell.size() - 2);
        }
        add(row);
        if (random.chance(10)) add(std::vector<std::string>(columns.size()));
    }
    return text;
}

/// The plan with its warnings sorted: they come in the order of the columns, which may be any.
std::string sorted(const std::string& json) {
    if (json.empty()) return {};
    auto plan = nlohmann::ordered_json::parse(json);
    auto& warnings = plan.at("warnings");
    std::sort(warnings.begin(), warnings.end());
    return plan.dump(1);
}

/// The lines at which two texts part, or nothing.
std::string first_difference(const std::string& a, const std::string& b) {
    if (a == b) return {};
    const auto parted = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
    const auto line = [](const std::string& text, std::string::const_iterator at) {
        return std::string(std::find(std::make_reverse_iterator(at), text.rend(), '\n').base(),
                           std::find(at, text.end(), '\n'));
    };
    return line(a, parted.first) + '\n' + line(b, parted.second);
}

}  // namespace

TEST_CASE("random jobs plan the same from tables as written out", "[cli][tables]") {
    int planned = 0;
    for (unsigned seed = 1; seed <= 60; ++seed) {
        Random random(seed);
        std::vector<Entry> stations, supplies{supply("malt", random)};
        if (random.chance(60)) supplies.push_back(supply("a, \"b\"; c", random));
        const int count = 1 + random.below(12);
        for (int i = 1; i <= count; ++i) stations.push_back(station(i, random));
        std::string list, names;
        for (const Entry& entry : stations) list += "\n  - " + yaml(entry);
        for (const Entry& entry : supplies) {
            const std::string& name = entry.front().second;
            names +=
                "\n  " + (name == "malt" ? name : "'" + name + "'") + ": " + yaml(entry, "name");
        }
        const Folder written, tables;
        system::write_whole(written / "job.yaml", fmt::format(job, names, list));
        system::write_whole(tables / "job.yaml",
                            fmt::format(job, " { from: supplies.csv }", " { from: stations.csv }"));
        system::write_whole(tables / "stations.csv", table(stations, random));
        system::write_whole(tables / "supplies.csv", table(supplies, random));
        const Ran one = Hall::run({"plan", "--json", written / "job.yaml"});
        const Ran other = Hall::run({"plan", "--json", tables / "job.yaml"});
        INFO(seed << "\n" << fmt::format(job, names, list) << "\n" << one.err << "\n" << other.err);
        CHECK(one.exit == other.exit);
        CHECK(first_difference(sorted(one.out), sorted(other.out)) == "");
        if (one.exit == 0) {
            CHECK_FALSE(one.out.empty());
            ++planned;
        }
    }
    CHECK(planned >= 50);
}

TEST_CASE("stations of a table are offered to the shell, visited and guarded", "[cli][tables]") {
    const Folder folder;
    system::write_whole(folder / "job.yaml",
                        fmt::format(job, " { from: supplies.csv }", " { from: stations.csv }"));
    system::write_whole(folder / "supplies.csv", "name,density\nmalt,1.4 g/mL\n");
    system::write_whole(folder / "stations.csv",
                        "id,place,mix,container\nK1,Kitchen,syrup,cup\nK2,Pantry,syrup,cup\n");
    const std::string file = folder / "job.yaml";
    CHECK(Hall::run({"__complete", "visit", file, "K"}).out == "words\nK1\nK2\n");
    CHECK(Hall::run({"visit", file, "K2", "--seen", "3"}).exit == 0);
    for (const char* name : {"stations.csv", "supplies.csv"}) {
        const Ran ran = Hall::run({"report", file, "-o", folder / name});
        INFO(ran.err);
        CHECK(ran.exit == 2);
    }
    system::write_whole(folder / "stations.csv", "id,place,mix,container\nK1,Kitchen,syrop,cup\n");
    const Ran wrong = Hall::run({"check", file});
    CHECK(wrong.exit == 1);
    CHECK(wrong.complains((folder / "stations.csv").string() + ":2:12: error: there is no mix"));
}

}  // namespace gallipot::tests
