// src/domain/job/README.md is written by this test from the table of keys:
// GALLIPOT_UPDATE_GOLDEN=1.
#include <fmt/format.h>

#include "catch_all.hpp"

#include "base/units/unit_table.hpp"
#include "domain/job/bounds.hpp"
#include "domain/job/keys.hpp"
#include "golden.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using job::Key;
using job::Type;

namespace {

constexpr const char* beginning = R"(# Every key of a job file

One YAML 1.2 file, written by hand; `gallipot new` writes a commented one to start from, and
[examples](../../../examples) has whole ones. This page is made from the table that drives `check`
(`keys.cpp`): `GALLIPOT_UPDATE_GOLDEN=1 build/dev/tests/domain/job/test_job` writes it anew. `gallipot explain KEY` tells
the same in a terminal, and `gallipot schema` gives it to editors.

- A key that is not known, a unit that does not fit, a name that is nowhere else in the file: each is
  an error with its place and what to do, and all of a file are told in one run.
- `*` stands for a name of your own, or for each entry of a list.
- **Needed** keys must be there wherever what holds them is. Where a default is given, it is taken when the key is left out.
- Numbers have a decimal point and no exponent; `1/2`, `1 1/2` and `½` are numbers too. A number in quotes is a text.
- Words that can mean one thing only are read: `half a cup`, `1 and 1/2 cups`, `two`, `a week`, `yes`, `lid off`, and times such as
  `2027-03-02 6:00 pm`. What may mean two is an error that says both, as `6:00` without am or pm.
)";

/// In a table's cell.
std::string cell(std::string_view text) {
    std::string out;
    for (const char c : text) {
        if (c == '|') out += '\\';
        out += c;
    }
    return out;
}

std::string code(std::string_view text) {
    return text.empty() ? std::string() : fmt::format("`{}`", cell(text));
}

std::string heading(std::string_view path) {
    if (path.empty()) return "The job";
    std::string words;
    for (const char c : path) words += c == '.' ? std::string(" / ") : std::string(1, c);
    return words;
}

std::string row(const Key& key) {
    std::string value = job::type_in_words(key).english();
    if (const std::string bounds = job::bounds_in_words(key); !bounds.empty())
        value += fmt::format("; {}", bounds);
    std::string left_out = key.required ? "**needed**" : code(key.default_value);
    return fmt::format("| `{}` | {} | {} | {} | {} |\n", key.name(), cell(key.description),
                       cell(value), left_out, code(key.example));
}

/// The keys below `path`, then what is below each of them.
void write_section(std::string_view path, std::string& page) {
    const auto& keys = job::section_of(path).keys;
    page += fmt::format("\n## {}\n\n", heading(path));
    if (const Key* own = job::find_key(path)) page += fmt::format("{}.\n\n", own->description);
    page += "| Key | What it is | Write | Left out | Example |\n|---|---|---|---|---|\n";
    for (const Key* key : keys) page += row(*key);
    for (const Key* key : keys) {
        const bool deeper = std::any_of(job::keys().begin(), job::keys().end(), [&](const Key& k) {
            return k.path.starts_with(fmt::format("{}.", key->path));
        });
        if (deeper) write_section(key->path, page);
    }
}

constexpr const char* tables = R"(
## Tables in the place of stations and supplies

A long list is easier kept in a spreadsheet. `stations: { from: stations.csv }` reads it from a CSV file, and so does
`supplies: { from: supplies.csv }`; then nothing else stands under that key. All is checked as if it were written in the job,
and told with the table's line and column.

```csv
id,place,mix,container,count,near,at,inspected.by,inspected.on
K1,"Kitchen, behind the bins",syrup,cup,2,food; rain,3.2 1.1,,
K2,"Kitchen, sink",syrup,cup,,,4.0 1.1,,
K3,"Kitchen, window",syrup,cup,3,sun,,,
```

- **The file** lies in the job's folder or below it (`tables/stations.csv`), and its name ends in `.csv`. A link is followed as long as it
  stays in there. UTF-8, with or without a byte-order mark; lines end in CRLF or LF; quotes as in RFC 4180. At most 32 MB, 100,000
  bytes a line, 100 columns, and 1,750,000 values in the job and its tables together.
- **Between the cells** stands what comes first in the first row: a comma, a semicolon (spreadsheets write it where the decimal sign is a
  comma) or a tab.
- **The first row** names the columns as the keys above, in any order. A supply's own name stands in a column `name`.
  `inspected.by`, `density.from` or `strength.percent` stand for a key below another, `place.en` and `place.es` for a text in
  each language.
- **A cell** holds what would stand behind the key, and nothing is converted: `2027-03-02 19:30`, `8 C`, `3.20`, `yes` or `TRUE`. Let the
  spreadsheet keep such columns as text, lest it writes dates and decimals in its own way. Blanks at the ends do not
  count. An empty cell is a key left out, a row of empty cells nothing at all.
- **A list** is written `food; rain` or `food, rain`, **a point** `3.2 1.1` or `3.2, 1.1`. A comma between two digits separates nothing,
  for it may be a decimal comma, which is an error as everywhere.
)";

std::string units_section() {
    std::string page = R"(
## Units

Exactly as written here; each size stands with its source in [src/base/units](../../base/units/unit_table.cpp).
Spoons and cups without a word before them go by `spoons`.

Papers show an amount in the unit it is written in, with metric beside where that is not metric; where the region
knows another cup or spoon of that name they say whose it is, as in `2 cups (US, 473 mL)`. What nobody wrote, as a total,
goes by `units`. What is in a container is always in grams, as a poison centre asks for it.

| What | Units |
|---|---|
)";
    for (const auto dimension :
         {units::Dimension::volume, units::Dimension::mass, units::Dimension::length,
          units::Dimension::area, units::Dimension::duration, units::Dimension::density,
          units::Dimension::temperature, units::Dimension::share}) {
        std::string names;
        for (const std::string& name : units::unit_names(dimension))
            names += fmt::format("{}`{}`", names.empty() ? "" : " ", name);
        page += fmt::format("| {} | {} |\n", units::name_of(dimension), names);
    }
    return page;
}

}  // namespace

TEST_CASE("the page of all keys is what the table says") {
    std::string page = beginning;
    write_section("", page);
    page += tables;
    page += units_section();
    // A link in the page is seen by tests/docs/links.py.
    for (const Key& key : job::keys()) {
        INFO(key.path);
        CHECK(page.find(row(key)) != std::string::npos);
    }
    check_golden("../../src/domain/job/README.md", page);
}
