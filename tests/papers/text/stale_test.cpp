#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>

#include "catch_all.hpp"

#include "folder.hpp"

// Which English text each translation was made from: tests/papers/text/translated/<language>.txt
// holds a short hash of it for every key. When the English changes, the test names the key until
// somebody has looked at the translation and says so: GALLIPOT_TRANSLATED=es test_text "no
// translation*"

using namespace gallipot;
using text::Catalog;

namespace {

Catalog shipped(const std::string& language) {
    diag::Diagnostics out;
    Catalog catalog(tests::templates(), language, "", out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return catalog;
}

/// What is translated: date patterns are each language's own.
std::vector<std::string> translated_keys(const Catalog& english) {
    std::vector<std::string> keys = english.keys();
    std::erase_if(keys, [](const std::string& key) { return key.starts_with("format."); });
    return keys;
}

/// FNV-1a, 32 bits, in hexadecimal.
std::string hash(const std::string& text) {
    std::uint32_t value = 2166136261u;
    for (const char c : text) value = (value ^ static_cast<unsigned char>(c)) * 16777619u;
    char shown[9];
    std::snprintf(shown, sizeof shown, "%08x", value);
    return shown;
}

std::filesystem::path record_of(const std::string& language) {
    return std::filesystem::path(GALLIPOT_SOURCE_DIR) / "tests/papers/text/translated" /
           (language + ".txt");
}

std::map<std::string, std::string> read_record(const std::string& language) {
    std::map<std::string, std::string> record;
    std::ifstream in(record_of(language));
    for (std::string key, value; in >> key >> value;) record[key] = value;
    return record;
}

void write_record(const std::string& language, const Catalog& english) {
    std::filesystem::create_directories(record_of(language).parent_path());
    std::ofstream out(record_of(language));
    for (const std::string& key : translated_keys(english)) {
        out << key << ' ' << hash(english.shape(key).text) << '\n';
    }
}

}  // namespace

TEST_CASE("no translation is older than its English text", "[catalogs]") {
    const auto english = shipped("en");
    const char* renewed = std::getenv("GALLIPOT_TRANSLATED");
    for (const std::string& language : text::languages(tests::templates())) {
        if (language == "en") continue;
        if (renewed != nullptr && language == renewed) write_record(language, english);
        const auto record = read_record(language);
        for (const std::string& key : translated_keys(english)) {
            INFO("the English text of '"
                 << key << "' is new or changed: look at it in templates/text/" << language
                 << ".yaml, then run GALLIPOT_TRANSLATED=" << language
                 << " test_text \"no translation*\"");
            const auto found = record.find(key);
            REQUIRE(found != record.end());
            CHECK(found->second == hash(english.shape(key).text));
        }
    }
}

TEST_CASE("the hash is FNV-1a", "[catalogs]") {
    // Test vectors of the FNV reference code, draft-eastlake-fnv.
    CHECK(hash("") == "811c9dc5");
    CHECK(hash("a") == "e40c292c");
    CHECK(hash("foobar") == "bf9cf968");
}
