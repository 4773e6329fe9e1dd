#include "domain/job/tables.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <string>
#include <utility>
#include <vector>

#include "base/strings/ascii.hpp"
#include "domain/job/table.hpp"
#include "domain/yaml/mapping.hpp"

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

constexpr std::string_view ending = ".csv";

bool ends_as_table(std::string_view name) {
    return name.size() >= ending.size() &&
           strings::same_letters(name.substr(name.size() - ending.size()), ending);
}

bool is_table_name(const Node& node) {
    return node.kind == Kind::scalar && ends_as_table(node.text);
}

/// The last step of a path: "stations.csv" of "C:\hall\stations.csv".
std::string_view file_of(std::string_view path) {
    const auto slash = path.find_last_of("/\\");
    return slash == std::string_view::npos ? path : path.substr(slash + 1);
}

/// Whether each step of the path leads down: "tables/stations.csv".
bool stays_below(std::string_view path) {
    for (;;) {
        const auto slash = std::min(path.find('/'), path.size());
        const std::string_view step = path.substr(0, slash);
        if (step.empty() || step == "." || step == ".." || step.find('\\') != step.npos)
            return false;
        if (slash == path.size()) return true;
        path.remove_prefix(slash + 1);
    }
}

bool check_file_name(const At<std::string>& name, const Key& section, ReadContext& context) {
    if (!ends_as_table(*name) || file_of(*name).size() == ending.size()) {
        context.out.error("bad-file-name", name.place,
                          diag::say("'{}' is no name of a CSV file", *name),
                          "save the table as CSV in UTF-8 beside the job, and write the name of "
                          "that file, with .csv at its end");
        return false;
    }
    if (stays_below(*name)) return true;
    context.out.error("bad-file-name", name.place,
                      diag::say("'{}' is not in the job's folder", *name),
                      diag::say("put the table beside the job and write {}: {{ from: {} }}",
                                section.name(), file_of(*name)));
    return false;
}

std::size_t values_in(const Node& node) {
    std::size_t count = 1;
    for (const Node& item : node.items) count += values_in(item);
    for (const auto& [key, value] : node.entries) count += 1 + values_in(value);
    return count;
}

/// Reports what stands beside `from`, or has its place without being it.
void check_keys(const Node& mapping, const Key& section, ReadContext& context) {
    if (mapping.find("from") == nullptr) {
        const yaml::Mapping told(mapping, diag::say("'{}'", section.name()), {"from"}, "",
                                 context.out);
        return;
    }
    for (const auto& [key, value] : mapping.entries) {
        if (key.text == "from") continue;
        context.out.error("misplaced-key", key.place,
                          diag::say("'{}' stands beside a table", key.text),
                          diag::say("put it into the table, or take 'from' out and write all {} "
                                    "here",
                                    section.name()));
    }
}

/// Whether the section names a table, well or not: nobody then knows what stands in it.
bool names_table(const Node& section) {
    if (is_table_name(section)) return true;
    if (section.kind != Kind::mapping) return false;
    // A supply may be called "from".
    if (const Node* from = section.find("from")) return from->kind != Kind::mapping;
    return section.entries.size() == 1 && is_table_name(section.entries[0].second);
}

/// What the table holds; nothing when that cannot be said.
std::optional<Node> table_of(const Node& value, const Key& section, const OpenTable& open_table,
                             const yaml::Limits& limits, ReadContext& context) {
    if (value.kind == Kind::scalar) {
        context.out.error("wrong-type", value.place,
                          diag::say("'{}' takes a table's name behind 'from'", section.name()),
                          diag::say("write {}: {{ from: {} }}", section.name(), value.text));
        return {};
    }
    check_keys(value, section, context);
    const Node* from = value.find("from");
    if (from == nullptr) return {};
    const auto name = read_text(*from, *find_key(fmt::format("{}.from", section.name())), context);
    if (!name || !check_file_name(*name, section, context)) return {};
    const TableFile file =
        open_table ? open_table(**name) : TableFile{{}, "no tables are read here", "write it out"};
    if (file.source == nullptr) {
        context.out.error("no-table", name->place,
                          diag::say("cannot read '{}': {}", **name, file.why), file.remedy);
        return {};
    }
    return read_table(file.source, section, limits, context.out);
}

}  // namespace

void put_tables_in(Node& root, const OpenTable& open_table, const yaml::Limits& limits,
                   ReadContext& context) {
    for (const std::string_view name : {"supplies", "stations"}) {
        Node* value = root.find(name);
        if (value == nullptr || !names_table(*value)) continue;
        yaml::Limits left = limits;
        left.nodes -= std::min(values_in(root), left.nodes);
        auto table = table_of(*value, *find_key(name), open_table, left, context);
        if (table)
            *value = std::move(*table);
        else
            context.unread.insert(name);
    }
}

}  // namespace gallipot::job
