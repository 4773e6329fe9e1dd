#include "base/csv/csv.hpp"

#include "catch_all.hpp"

namespace gallipot::csv {
namespace {

std::vector<std::vector<std::string>> read(const std::string& text, diag::Diagnostics& out) {
    std::vector<std::vector<std::string>> rows;
    const auto source = std::make_shared<const diag::Source>(diag::Source{"visits.csv", text});
    csv::read(source, out, [&](const Row& row) {
        std::vector<std::string> texts;
        for (const Field& field : row) texts.push_back(field.text);
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

TEST_CASE("csv: a field's place spans what stands in the file, quotes included") {
    diag::Diagnostics out;
    std::vector<Field> fields;
    csv::read(
        std::make_shared<const diag::Source>(diag::Source{"x.csv", "añb,\"c\"\"d\",\"e\nf\",\n"}),
        out, [&](const Row& row) { fields = row; });
    REQUIRE(fields.size() == 4);
    const auto spans = [&](std::size_t i, int line, int column, int length) {
        const diag::Place& at = fields[i].place;
        return at.line == line && at.column == column && at.length == length;
    };
    CHECK(spans(0, 1, 1, 3));
    CHECK(spans(1, 1, 5, 6));
    CHECK(spans(2, 1, 12, 1));  // goes on in the next line
    CHECK(spans(3, 2, 4, 1));
    CHECK_FALSE(fields[0].quoted);
    CHECK(fields[1].quoted);
}

TEST_CASE("csv: other separators, and which one a table has") {
    CHECK(separator_of("") == ',');
    CHECK(separator_of("id") == ',');
    CHECK(separator_of("id,place;mix") == ',');
    CHECK(separator_of("\xEF\xBB\xBF\r\n\r\nid;place,mix") == ';');
    CHECK(separator_of("\"a,b\";c,d\n") == ';');
    CHECK(separator_of("id\tplace, mix\n") == '\t');
    CHECK(separator_of("id\nK1,x;y\n") == ',');

    diag::Diagnostics out;
    std::vector<std::string> texts;
    const auto source =
        std::make_shared<const diag::Source>(diag::Source{"x.csv", "a, b;\"c;d\";e\r\n"});
    csv::read(source, out,
              [&](const Row& row) {
                  for (const Field& field : row) texts.push_back(field.text);
              },
              {.separator = ';'});
    CHECK(texts == std::vector<std::string>{"a, b", "c;d", "e"});
    CHECK(out.errors() == 0);
    CHECK(print({"a, b", "c;d"}, ';') == "a, b;\"c;d\"\r\n");
}

TEST_CASE("csv: of a row with too many fields the first are kept, and the next row is whole") {
    diag::Diagnostics out;
    std::vector<std::size_t> sizes;
    const auto source =
        std::make_shared<const diag::Source>(diag::Source{"x.csv", "a,b,c,d,e\nf,g\n"});
    csv::read(source, out, [&](const Row& row) { sizes.push_back(row.size()); },
              {.maximum_fields = 3});
    CHECK(sizes == std::vector<std::size_t>{3, 2});
}

TEST_CASE("csv: what is printed reads back, whatever is in it") {
    const std::vector<std::string> fields{"plain",  "a,b", "say \"ah\"", "two\nlines",
                                          "cr\rlf", "",    " space ",    "кава"};
    CHECK(read(print(fields)) == Rows{fields});
    CHECK(print({"a", "b\"c", ""}) == "a,\"b\"\"c\",\r\n");
}

}  // namespace
}  // namespace gallipot::csv
