#include "tracking/log/csv.hpp"

#include "catch_all.hpp"

namespace gallipot::log {
namespace {

std::vector<std::vector<std::string>> read(const std::string& text, diag::Diagnostics& out) {
    std::vector<std::vector<std::string>> rows;
    const auto source = std::make_shared<const diag::Source>(diag::Source{"visits.csv", text});
    read_csv(source, out, [&](const CsvRow& row) {
        std::vector<std::string> texts;
        for (const CsvField& field : row) texts.push_back(field.text);
        rows.push_back(std::move(texts));
    });
    return rows;
}

std::vector<std::vector<std::string>> read(const std::string& text) {
    diag::Diagnostics out;
    auto rows = read(text, out);
    INFO(diag::print(out));
    CHECK(out.errors() == 0);
    return rows;
}

using Rows = std::vector<std::vector<std::string>>;

// RFC 4180, section 2, rules 1 to 7, with its own examples.
TEST_CASE("csv: the examples of RFC 4180") {
    CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") ==
          Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(read("aaa,bbb,ccc\r\nzzz,yyy,xxx") == Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(read("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          Rows{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(read("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx") ==
          Rows{{"aaa", "b\r\nbb", "ccc"}, {"zzz", "yyy", "xxx"}});
    CHECK(read("\"aaa\",\"b\"\"bb\",\"ccc\"") == Rows{{"aaa", "b\"bb", "ccc"}});
    CHECK(read(" a , b ") == Rows{{" a ", " b "}});  // rule 4: spaces are part of a field
}

TEST_CASE("csv: what spreadsheets add is taken as it is meant") {
    CHECK(read("\xEF\xBB\xBF"
               "a,b\nc,d\n") == Rows{{"a", "b"}, {"c", "d"}});
    CHECK(read("a,b\r\n\r\n\nc,d\r\n") == Rows{{"a", "b"}, {"c", "d"}});
    CHECK(read("") == Rows{});
    CHECK(read(",\n") == Rows{{"", ""}});
    CHECK(read("\"\"\n") == Rows{});
}

TEST_CASE("csv: a misplaced quote is told with its place") {
    diag::Diagnostics out;
    read("a,b\nc,d\"e\n\"f\"g,h\n\"never", out);
    CHECK(diag::print(out) ==
          "visits.csv:2:4: error: a quote inside a field that does not begin with one [csv-quote]\n"
          "    2 | c,d\"e\n"
          "      |    ^\n"
          "  fix: put the whole field in quotes and double this one: \"\"\n"
          "visits.csv:3:4: error: text after the closing quote [csv-quote]\n"
          "    3 | \"f\"g,h\n"
          "      |    ^\n"
          "  fix: double a quote that belongs to the text: \"\"\n"
          "visits.csv:4:1: error: this quote is never closed [csv-quote]\n"
          "    4 | \"never\n"
          "      | ^\n"
          "  fix: close it at the end of the field\n"
          "3 errors\n");
}

TEST_CASE("csv: bytes that are not UTF-8 are told") {
    diag::Diagnostics out;
    read("a,\xE4\n", out);
    CHECK(out.errors() == 1);
    CHECK(out.in_order().at(0).code == "not-utf8");
}

TEST_CASE("csv: what is printed reads back, whatever is in it") {
    const std::vector<std::string> fields{"plain",  "a,b", "say \"ah\"", "two\nlines",
                                          "cr\rlf", "",    " space ",    "кава"};
    CHECK(read(print_csv(fields)) == Rows{fields});
    CHECK(print_csv({"a", "b\"c", ""}) == "a,\"b\"\"c\",\r\n");
}

}  // namespace
}  // namespace gallipot::log
