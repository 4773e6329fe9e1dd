#include "domain/job/table.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <string>
#include <unordered_map>
#include <utility>
#include <vector>

#include "base/csv/csv.hpp"
#include "base/diag/utf8.hpp"
#include "domain/job/language.hpp"
#include "domain/job/table_cells.hpp"
#include "domain/job/table_text.hpp"
#include "domain/yaml/mapping.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

constexpr std::size_t maximum_columns = 100;
/// The column of a mapping's own names.
constexpr std::string_view name_column = "name";

/// A column of the table: "mix", or with a part of a key "inspected.by", "place.es".
struct Column {
    std::string key, part = {};
    const Key* rule = nullptr;  ///< of what stands in its cells; null where they are not read
    diag::Place unnamed = {};   ///< of the empty cell above it
};

bool is_blank(const csv::Row& row) {
    return std::ranges::all_of(row,
                               [](const csv::Field& field) { return trimmed(field).text.empty(); });
}

diag::Text called(char separator) {
    return separator == '\t' ? "tab" : separator == ';' ? "semicolon" : "comma";
}

class TableReader {
  public:
    TableReader(const diag::SourcePtr& csv, const Key& section, const yaml::Limits& limits,
                diag::Diagnostics& out)
        : csv_(csv),
          section_(section),
          limits_(limits),
          out_(out),
          separator_(csv::separator_of(csv->text)),
          entry_(fmt::format("{}.*", section.path)),
          named_(section.type == Type::named) {
        table_.kind = named_ ? Kind::mapping : Kind::sequence;
        table_.place = {csv, 1, 1, 1};
        if (named_) known_.emplace_back(name_column);
        for (const Key* key : section_of(entry_).keys) {
            if (key->type != Type::mapping) known_.emplace_back(key->name());
            for (const std::string& part : parts_of(*key)) known_.push_back(part);
        }
    }

    std::optional<Node> read() {
        if (!check_table_text(csv_, separator_, limits_, out_)) return {};
        errors_ = out_.errors();
        csv::read(csv_, out_, [&](const csv::Row& row) { take(row); },
                  {.separator = separator_, .maximum_fields = maximum_columns + 1});
        if (columns_.empty() && readable_) {
            out_.error("empty-file", {csv_, 1, 1, 1}, "there is nothing in this table",
                       diag::say("begin it with a row of column names: {}, and so on",
                                 fmt::join(required(), ", ")));
            return {};
        }
        if (!readable_) return {};
        if (rows_ == 0 && section_.minimum > 0) {
            out_.error("too-few", {csv_, 1, 1, 1}, "there is no row below the column names",
                       diag::say("add a row for each of the {}", section_.name()));
            return {};
        }
        // What was wrong in all of them has been said.
        if (rows_ > 0 && table_.items.empty() && table_.entries.empty()) return {};
        return std::move(table_);
    }

  private:
    /// The columns for what stands below a key: "inspected.by" and "inspected.on".
    [[nodiscard]] std::vector<std::string> parts_of(const Key& key) const {
        std::vector<std::string> all;
        if (key.type != Type::mapping && key.type != Type::density_or_range) return all;
        for (const Key* part : section_of(key.path).keys)
            all.push_back(fmt::format("{}.{}", key.name(), part->name()));
        return all;
    }

    [[nodiscard]] std::vector<std::string> required() const {
        std::vector<std::string> all;
        if (named_) all.emplace_back(name_column);
        for (const Key* key : section_of(entry_).keys)
            if (key->required) all.emplace_back(key->name());
        return all;
    }

    void take(const csv::Row& row) {
        // What stands behind a quote out of place may be in any column.
        const bool spoilt = out_.errors() > errors_;
        if (readable_ && !is_blank(row)) {
            if (columns_.empty())
                readable_ = !spoilt && take_head(row);
            else if (++rows_; !spoilt)
                readable_ = take_row(row);
        }
        errors_ = out_.errors();
    }

    bool take_head(const csv::Row& row) {
        if (row.size() > maximum_columns) {
            out_.error("too-many", row[0].place,
                       diag::say("a table of more than {} columns", maximum_columns),
                       "take out the columns that are not named as keys");
            return false;
        }
        std::unordered_map<std::string, std::size_t> columns;
        for (std::size_t i = 0; i < row.size(); ++i) columns.emplace(trimmed(row[i]).text, i);
        Node unknown;
        unknown.kind = Kind::mapping;
        for (std::size_t i = 0; i < row.size(); ++i) {
            const csv::Field name = trimmed(row[i]);
            Column column = column_of(name.text);
            if (name.text.empty()) {
                column.unnamed = name.place;
            } else if (columns.at(name.text) != i) {
                out_.error("duplicate-key", name.place,
                           diag::say("there are two columns '{}'", name.text),
                           "keep one of the two");
                column = {};
            } else if (!is_known(name, column)) {
                unknown.entries.add(scalar(name.text, name.place), Node());
                // It is read as what was probably meant, lest every row lacks that.
                const std::string meant = diag::nearest(name.text, known_);
                column = columns.contains(meant) ? Column{} : column_of(meant);
            }
            columns_.push_back(std::move(column));
        }
        const yaml::Mapping told(unknown, "the first row of the table", known_, "", out_);
        return has_required(row[0].place);
    }

    /// Reports a key that takes other columns; false for what is no key.
    bool is_known(const csv::Field& name, Column& column) {
        if (const Key* key = below_entry(name.text); key && key->type == Type::mapping) {
            out_.error("wrong-type", name.place,
                       diag::say("'{}' takes a column for each of its parts", name.text),
                       diag::say("write {}", diag::chained(parts_of(*key), "{} and {}")));
        } else if (column.rule == nullptr) {
            return false;
        } else if (column.rule->type == Type::local_text && !column.part.empty() &&
                   !is_language_tag(column.part)) {
            out_.error("bad-language", name.place,
                       diag::say("'{}' is no language tag", column.part),
                       diag::say("write {0}, or {0}.en and {0}.es for a text in each language",
                                 column.key));
            column.rule = nullptr;
        }
        return true;
    }

    [[nodiscard]] const Key* below_entry(std::string_view name) const {
        return find_key(fmt::format("{}.{}", entry_, name));
    }

    /// Without a rule when there is none of that name.
    [[nodiscard]] Column column_of(const std::string& name) const {
        if (named_ && name == name_column) return {name, {}, find_key(entry_)};
        const auto dot = std::min(name.find('.'), name.size());
        Column column{name.substr(0, dot)};
        if (dot < name.size()) column.part = name.substr(dot + 1);
        const Key* key = below_entry(column.key);
        if (key != nullptr && key->type == Type::local_text) {
            column.rule = key;
        } else if (std::ranges::find(known_, name) != known_.end()) {
            column.rule = below_entry(name);
        }
        return column;
    }

    bool has_required(const diag::Place& head) {
        bool all = true;
        for (const std::string& name : required()) {
            if (std::ranges::any_of(columns_, [&](const Column& it) { return it.key == name; }))
                continue;
            out_.error("missing-key", head, diag::say("the table needs a column '{}'", name),
                       diag::say("write {} at the top of the column that holds it", name));
            all = false;
        }
        return all;
    }

    /// False when no more can be read.
    bool take_row(const csv::Row& row) {
        if (row.size() > columns_.size()) {
            out_.error(
                "csv-columns", row[columns_.size()].place,
                diag::say("this cell stands behind the last of the {} columns", columns_.size()),
                diag::say("put quotes around a cell that holds a {}, or take it out",
                          called(separator_)));
            return true;
        }
        Node name, entry;
        entry.kind = Kind::mapping;
        entry.place = row[0].place;
        std::vector<std::pair<Node, Node>> divided;  // keys of which parts have columns
        for (std::size_t i = 0; i < row.size(); ++i) {
            csv::Field cell = trimmed(row[i]);
            if (cell.text.empty() || !has_column(columns_[i])) continue;
            check_text(cell);
            Node value = value_of(cell, columns_[i].rule->type);
            if (!is_point(value, columns_[i].rule->type)) continue;
            spent_ += 2 + value.items.size();
            if (columns_[i].rule == find_key(entry_))
                name = std::move(value);
            else
                put(columns_[i], std::move(value), entry, divided);
        }
        for (auto& [key, value] : divided) entry.entries.add(std::move(key), std::move(value));
        entry.entries.close();
        add(row, std::move(name), std::move(entry));
        if (++spent_ <= limits_.nodes) return true;
        out_.error("too-many-values", row[0].place, "the job and its tables hold too many values",
                   "split the job into several files");
        return false;
    }

    /// Whether the column's cells are read; one that is filled must have a name.
    bool has_column(Column& column) {
        if (column.unnamed.source != nullptr) {
            out_.error("csv-columns", column.unnamed, "a column that is filled has no name",
                       "write the key at its top, or empty the column");
        }
        return column.rule != nullptr;
    }

    /// Reports a line break or a text that is too long, and makes one line of the cell.
    void check_text(csv::Field& cell) {
        if (cell.text.find_first_of("\n\t") != std::string::npos) {
            out_.error("line-break", cell.place, "a line break or tab in a cell",
                       "write the cell on one line");
            std::ranges::replace_if(
                cell.text, [](char c) { return c == '\r' || c == '\n' || c == '\t'; }, ' ');
        }
        if (cell.text.size() > limits_.text_length &&
            diag::count_characters(cell.text) > limits_.text_length)
            out_.error("text-too-long", cell.place,
                       diag::say("a text of more than {} characters", limits_.text_length),
                       "shorten it");
    }

    /// What else may be wrong with it the reader of the job says.
    bool is_point(const Node& value, Type type) {
        constexpr std::size_t coordinates = 2;
        if (type != Type::point || value.items.size() == coordinates) return true;
        out_.error("wrong-type", value.place, "a point is two numbers, in metres",
                   "write the two with a blank between them, and a point in a number that has "
                   "decimals");
        return false;
    }

    void put(const Column& column, Node value, Node& entry,
             std::vector<std::pair<Node, Node>>& divided) {
        const diag::Place place = value.place;
        const auto whole =
            std::ranges::find(divided, column.key, [](const auto& it) { return it.first.text; });
        const bool there = entry.find(column.key) != nullptr;
        if (column.part.empty() ? whole != divided.end() || there : there) {
            out_.error("duplicate-key", place,
                       diag::say("'{}' is filled in two columns of this row", column.key),
                       "keep one of the two");
            return;
        }
        if (column.part.empty()) {
            entry.entries.add(scalar(column.key, place), std::move(value));
            return;
        }
        Node* parts = nullptr;
        if (whole == divided.end()) {
            divided.emplace_back(scalar(column.key, place), Node());
            parts = &divided.back().second;
            parts->kind = Kind::mapping;
            parts->place = place;
        } else {
            parts = &whole->second;
        }
        parts->entries.add(scalar(column.part, place), std::move(value));
    }

    void add(const csv::Row& row, Node name, Node entry) {
        if (!named_) {
            table_.items.add(std::move(entry));
            return;
        }
        if (name.kind == Kind::null) {
            out_.error("missing-key", row[0].place, "this row has no name",
                       diag::say("fill in the column '{}'", name_column));
            return;
        }
        const auto [first, is_new] = names_.emplace(name.text, name.place.line);
        if (!is_new) {
            out_.error("duplicate-key", name.place,
                       diag::say("'{}' is there twice; first on line {}", name.text, first->second),
                       "keep one of the two");
            return;
        }
        table_.entries.add(std::move(name), std::move(entry));
    }

    const diag::SourcePtr& csv_;
    const Key& section_;
    const yaml::Limits& limits_;
    diag::Diagnostics& out_;
    char separator_;
    std::string entry_;  ///< the path of what a row holds: "stations.*"
    bool named_;
    std::vector<std::string> known_;  ///< every column but those of single languages
    std::vector<Column> columns_;
    std::unordered_map<std::string, int> names_;
    Node table_;
    std::size_t rows_ = 0;
    std::size_t spent_ = 0;
    std::size_t errors_ = 0;  ///< when the last row was done
    bool readable_ = true;
};

}  // namespace

std::optional<Node> read_table(const diag::SourcePtr& csv, const Key& section,
                               const yaml::Limits& limits, diag::Diagnostics& out) {
    return TableReader(csv, section, limits, out).read();
}

}  // namespace gallipot::job
