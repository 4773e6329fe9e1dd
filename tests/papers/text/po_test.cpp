#include "papers/text/po.hpp"

#include "catch_all.hpp"

#include "folder.hpp"
#include "languages.hpp"
#include "papers/text/translation.hpp"

// GNU's own msgfmt and msgcat read and write these files in tests/cli/translators.py.

using namespace gallipot;

namespace {

constexpr const char* header =
    "msgid \"\"\nmsgstr \"\"\n\"Language: es\\n\"\n"
    "\"Content-Type: text/plain; charset=UTF-8\\n\"\n\n";

text::Catalog shipped(const std::string& language) {
    diag::Diagnostics out;
    return {tests::templates(), language, "", out};
}

diag::SourcePtr source(const std::string& body) {
    return std::make_shared<const diag::Source>(diag::Source{"es.po", header + body});
}

/// Everything that is wrong with a file, as it is printed.
std::string wrong_with(const std::string& body) {
    diag::Diagnostics out;
    const auto file = text::read_po(source(body), out);
    text::from_translator(shipped("en"), file, out);
    CHECK(out.has_errors());
    return diag::print(out);
}

bool has(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

TEST_CASE("texts go to a translator's file and come back as they were, in every language") {
    const auto english = shipped("en");
    for (const std::string& language : tests::languages()) {
        INFO(language);
        const auto catalog = shipped(language);
        const std::string po = text::print_po(text::to_translate(english, &catalog, language),
                                              "gallipot", "2027-03-02 19:30+0000");
        diag::Diagnostics out;
        const auto file =
            text::read_po(std::make_shared<const diag::Source>(diag::Source{"x.po", po}), out);
        CHECK(file.language == language);
        const auto made = text::from_translator(english, file, out);
        INFO(diag::print(out));
        REQUIRE(made);
        CHECK(out.in_order().empty());
        CHECK(made->missing == 0);
        // Read again as the catalog's file.
        const tests::TextFolder folder;
        folder.put(language + ".yaml", made->yaml);
        const text::Catalog again(folder.path(), language, "", out);
        INFO(diag::print(out));
        REQUIRE_FALSE(out.has_errors());
        REQUIRE(again.keys() == english.keys());
        for (const std::string& key : english.keys())
            CHECK(again.shape(key).text == catalog.shape(key).text);
    }
}

TEST_CASE("a new language begins with nothing translated, and every text says where it belongs") {
    const auto english = shipped("en");
    const auto file = text::to_translate(english, nullptr, "xx");
    CHECK(file.entries.size() == english.keys().size());
    std::size_t commented = 0;
    for (const auto& entry : file.entries) {
        CHECK(entry.text.empty());
        CHECK(entry.english == english.shape(entry.key).text);
        commented += entry.comments.empty() ? 0 : 1;
    }
    CHECK(commented > 30);
    const auto of = [&](const std::string& key) {
        return std::ranges::find(file.entries, key, &text::PoEntry::key)->comments;
    };
    // Those of its group, where it is the first of it.
    CHECK(of("translation.checked").front().starts_with("Whether a native reader"));
    CHECK(of("join.head").front().starts_with("How the program puts pieces together"));
    CHECK(of("unit.gram").empty());
}

TEST_CASE("what a translator's program writes is read: wrapped, escaped, fuzzy, obsolete") {
    diag::Diagnostics out;
    const auto file = text::read_po(
        source("#. for you\n#: somewhere.c:1\n#, fuzzy, no-wrap\nmsgctxt \"unit.gram\"\n"
               "msgid \"{n} g\"\nmsgstr \"{n} gr\"\n\n"
               "msgctxt \"signal.danger\"\r\nmsgid \"\"\r\n\"DAN\"\r\n\"GER\"\r\nmsgstr \"\"\r\n"
               "\"PELI\"\r\n\"GRO \\\"1\\\\2\\\"\\n\"\r\n\n"
               "#~ msgctxt \"gone\"\n#~ msgid \"Gone\"\n#~ msgstr \"Ido\"\n"),
        out);
    INFO(diag::print(out));
    CHECK_FALSE(out.has_errors());
    REQUIRE(file.entries.size() == 2);
    CHECK(file.entries[0].fuzzy);
    CHECK(file.entries[0].comments == std::vector<std::string>{"for you"});
    CHECK_FALSE(file.entries[1].fuzzy);
    CHECK(file.entries[1].english == "DANGER");
    CHECK(file.entries[1].text == "PELIGRO \"1\\2\"\n");
    CHECK(file.entries[1].place.line == 17);
    const auto made = text::from_translator(shipped("en"), file, out);
    REQUIRE(made);
    CHECK(made->missing == shipped("en").keys().size() - 1);  // fuzzy is not translated
    CHECK(has(made->yaml, "\nsignal:\n  danger: \"PELIGRO \\\"1\\\\2\\\"\\n\"\n"));
}

TEST_CASE(
    "everything wrong in a translator's file is told at its place, and nothing is made of it") {
    const std::string all = wrong_with(
        "msgctxt \"unit.gram\"\nmsgid \"{n} g\"\nmsgstr \"g\"\n\n"       // 6
        "msgctxt \"unit.gramm\"\nmsgid \"{n} g\"\nmsgstr \"{n} g\"\n\n"  // 10
        "msgctxt \"unit.litre\"\nmsgid \"{n} L\"\nmsgstr \"{n l\"\n\n"   // 14
        "msgctxt \"unit.cup\"\nmsgid \"{count, plural, one {{n} cup} other {{n} cups}}\"\n"
        "msgstr \"{count, plural, one {{n} taza}}\"\n\n"  // 18
        "msgctxt \"unit.grain\"\nmsgid \"{count, plural, one {{n} grain} other {{n} grains}}\"\n"
        "msgstr \"{count, plural, =1 {{n} grano} other {{n} granos}}\"\n\n"       // 22
        "msgctxt \"format.day\"\nmsgid \"d MMMM\"\nmsgstr \"DAY of month\"\n\n"   // 26
        "msgctxt \"signal.danger\"\nmsgid \"DANGER\"\nmsgstr \"<b>PELIGRO\"\n");  // 30
    INFO(all);
    for (const char* part :
         {"es.po:8:1: error: 'unit.gram' has the arguments none but in en it has n",
          "es.po:10:1: error: 'unit.gramm' is not in en", "did you mean 'unit.gram'?",
          "es.po:16:1: error: the message 'unit.litre' cannot be read near",
          "es.po:20:1: error: a plural or a choice in the message 'unit.cup' has no case 'other'",
          "es.po:24:1: error: a plural in 'unit.grain' lacks the case",
          "es.po:28:1: error: 'format.day' is not a date pattern",
          "es.po:32:1: error: <b> and </b> in the message 'signal.danger' do not match"})
        CHECK(has(all, part));
}

TEST_CASE("lines that are no translator's file are told with line and column") {
    for (const auto& [body, told] : std::vector<std::pair<std::string, std::string>>{
             {"msgctxt \"a\nmsgid \"b\"\nmsgstr \"c\"\n",
              "es.po:6:11: error: the text is not closed"},
             {"msgctxt \"a\" b\n", "es.po:6:13: error: something stands behind the closing quote"},
             {"msgctxt \"é\\q\"\n", "es.po:6:11: error: a backslash that begins nothing known"},
             {"msgstr \"a\"\n", "es.po:6:1: error: a msgstr without a msgid before it"},
             {"\"a\"\n", "es.po:6:1: error: a text that belongs to nothing"},
             {"message \"a\"\n", "es.po:6:1: error: 'message' is not known here"},
             {"msgid \"a\"\nmsgid_plural \"b\"\n", "es.po:7:1: error: 'msgid_plural' is not known"},
             {"msgid a\n", "es.po:6:6: error: a text in quotes was expected"},
             {"msgid \"a\"\nmsgstr \"b\"\n", "es.po:6:1: error: the entry has no msgctxt"},
             {"msgctxt \"unit.gram\"\nmsgid \"{n} g\"\n",
              "es.po:6:1: error: the entry has no msgstr"},
             {"msgctxt \"x\"\nmsgid \"\"\nmsgstr \"\xFF\"\n",
              "es.po:8:9: error: a byte that is no text"},
             {"msgctxt \"x\"\nmsgid \"\x01\"\nmsgstr \"\"\n",
              "es.po:7:8: error: a control character"},
             {"msgctxt \"unit.gram\"\nmsgid \"{n} g\"\nmsgstr \"\"\n\n"
              "msgctxt \"unit.gram\"\nmsgid \"{n} g\"\nmsgstr \"\"\n",
              "es.po:10:1: error: 'unit.gram' stands twice, first in line 6"}}) {
        const std::string all = wrong_with(body);
        INFO(body << all);
        CHECK(has(all, told));
    }
    for (const auto& [text, told] : std::vector<std::pair<std::string, std::string>>{
             {"", "the file does not say its language"},
             {"msgid \"\"\nmsgstr \"Content-Type: text/plain; charset=UTF-8\\n\"\n",
              "does not name the language"},
             {"msgid \"\"\nmsgstr \"Language: es\\nContent-Type: text/plain; charset=CP1252\\n\"\n",
              "does not say that the file is UTF-8"}}) {
        diag::Diagnostics out;
        text::read_po(std::make_shared<const diag::Source>(diag::Source{"es.po", text}), out);
        INFO(diag::print(out));
        CHECK(has(diag::print(out), told));
    }
}

TEST_CASE("a translation of an English text that is another today is taken, with a warning") {
    diag::Diagnostics out;
    const auto file = text::read_po(
        source("msgctxt \"signal.danger\"\nmsgid \"PERIL\"\nmsgstr \"PELIGRO\"\n"), out);
    const auto made = text::from_translator(shipped("en"), file, out);
    REQUIRE(made);
    CHECK(out.warnings() == 1);
    CHECK(has(diag::print(out),
              "es.po:8:1: warning: the English of 'signal.danger' is now 'DANGER'"));
}
