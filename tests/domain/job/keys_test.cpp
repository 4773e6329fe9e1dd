#include "domain/job/keys.hpp"

#include <memory>
#include <set>

#include "catch_all.hpp"

#include "domain/yaml/node.hpp"
#include "golden.hpp"
#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using namespace gallipot::job;

namespace {

/// Every path of the table that a file uses.
void collect(const yaml::Node& node, const std::string& path, std::set<std::string>& used) {
    if (!path.empty()) used.insert(path);
    const auto below = [&](const std::string& key) {
        const std::string whole = path.empty() ? key : path + "." + key;
        return find_key(whole) != nullptr ? whole : (path.empty() ? "*" : path + ".*");
    };
    for (const yaml::Node& item : node.items) collect(item, below("*"), used);
    for (const auto& [key, value] : node.entries) collect(value, below(key.text), used);
}

std::set<std::string> used_in(const std::string& text) {
    diag::Diagnostics out;
    const auto root =
        yaml::read(std::make_shared<const diag::Source>(diag::Source{"x.yaml", text}), out);
    REQUIRE_FALSE(out.has_errors());
    std::set<std::string> used;
    collect(root, "", used);
    return used;
}

}  // namespace

TEST_CASE("every key is used in the job that says everything") {
    const auto used = used_in(full_job);
    for (const Key& key : keys()) {
        if (key.type == Type::csv_file) continue;  // in the place of what is written out here
        INFO(key.path);
        CHECK(used.count(std::string(key.path)) == 1);
    }
}

TEST_CASE("every key has a line on what it is and an example, and stands below another once") {
    std::set<std::string_view> paths;
    for (const Key& key : keys()) {
        INFO(key.path);
        CHECK(paths.insert(key.path).second);
        CHECK_FALSE(key.description.empty());
        CHECK(key.description.back() != '.');
        CHECK_FALSE(key.example.empty());
        CHECK_FALSE(type_in_words(key).empty());
        CHECK(find_key(key.path) == &key);
        CHECK(key.minimum <= key.maximum);
        CHECK((key.type == Type::choice) == !key.choices.empty());
        const bool bounded = key.type == Type::text || key.type == Type::id ||
                             key.type == Type::list || key.type == Type::named ||
                             key.type == Type::number || key.type == Type::whole ||
                             key.type == Type::volume;
        if (bounded) CHECK(key.maximum > 0);
        const auto dot = key.path.rfind('.');
        if (dot != std::string_view::npos) CHECK(paths.count(key.path.substr(0, dot)) == 1);
    }
}

TEST_CASE("the example of every key that stands alone is one the reader takes") {
    // Put in the place of what the full job has there.
    struct Case {
        std::string path, from;
    };
    for (const Case& c : std::vector<Case>{
             {"title", "title: Millrace Community Hall"},
             {"prepared", "prepared: 2027-03-02"},
             {"by", "by: Hall caretaker"},
             {"languages", "languages: [en, es, pt-BR]"},
             {"labels", "labels: letter-2x5"},
             {"currency", "currency: AUD"},
             {"time_zone", "time_zone: Australia/Sydney"},
             {"spoons", "spoons: metric"},
             {"units", "units: metric"},
             {"help.contact", "contact: { name: Hall caretaker, phone: (02) 5550 0142 }"},
             {"help.poison_centre",
              "poison_centre: { name: Poison help line, phone: (02) 5550 0199 }"},
             {"help.emergency", "emergency: \"112\""},
             {"help.vet", "vet: { name: Vet at the mill, phone: (02) 5550 0177 }"},
             {"premises", "premises: flats"},
             {"asked", "asked: { whom: State regulator, on: 2027-02-20, answer: may be done }"},
             {"log.address", "address: http://192.168.1.20:8017"},
             {"mixes.*.basis", "basis: percent w/w"},
             {"mixes.*.limits", "limits: { borax: 1.5 }"},
             {"mixes.*.ingredients", "ingredients: { borax: 1, sugar: 20, water: rest }"},
             {"mixes.*.spare", "spare: 15 %"},
             {"mixes.*.vessel", "vessel: 1 L"},
             {"mixes.*.batch", "batch: 750 mL"},
             {"mixes.*.lasts", "lasts: 30 d"},
             {"mixes.*.tolerance", "tolerance: 3 %"},
             {"mixes.*.visits", "visits: { every: [2 d, 9 d] }"},
             {"stations.*.count", "count: 2"},
             {"stations.*.placed", "placed: 2027-03-02 19:30"},
             {"stations.*.near", "near: [children, rain, plants, water, sockets]"},
             {"stations.*.unit", "unit: { en: Flat 12, es: Piso 12 }"},
             {"stations.*.locked", "locked: true"},
             {"stations.*.inspected", "inspected: { by: Licensed inspector, on: 2027-02-22 }"},
             {"stations.*.coldest", "coldest: 8 C"},
             {"stations.*.at", "at: [3.2, 1.1]"},
             {"stations.*.area", "area: 6 m2"},
             {"stations.*.coats", "coats: 2"},
             {"stations.*.control", "control: true"},
             {"floor_plan.start", "start: [-0.5, 0]"},
             {"visits", "visits: { within: 2 d, every: [1 h, 1 d, 4 d, 10 d, 21 d, 30 d] }"},
             {"visits.within", "within: 2 d"},
             {"visits.every", "every: [1 h, 1 d, 4 d, 10 d, 21 d, 30 d]"},
             {"stations.*.visits.every", "every: [1 h]"},
             {"no_sprays_for", "no_sprays_for: 21 d"}}) {
        const Key* key = find_key(c.path);
        REQUIRE(key != nullptr);
        const std::string to = std::string(key->name()) + ": " + std::string(key->example);
        INFO(to);
        const auto got = read(changed(full_job, c.from, to));
        INFO(diag::print(got.found));
        CHECK(got.job);
    }
}

TEST_CASE("sections and words") {
    CHECK(section_of("log").names == std::vector<std::string>{"address"});
    CHECK(section_of("").names.front() == "title");
    CHECK(section_of("visits").names == std::vector<std::string>{"within", "every"});
    CHECK_THROWS_AS(section_of("title"), std::logic_error);
    CHECK(find_key("nothing") == nullptr);
    CHECK(find_key("paper")->words() == std::vector<std::string>{"A4", "Letter"});
    CHECK(type_in_words(*find_key("paper")).english() == "one of A4, Letter");
    CHECK(find_key("mixes.*.lasts")->name() == "lasts");
}
