#include "domain/job/fields.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <stdexcept>
#include <utility>

namespace gallipot::job {

namespace {

using yaml::Kind;
using yaml::Node;

bool counted(std::size_t size, const Key& key, const Node& node, diag::Diagnostics& out) {
    const auto count = static_cast<double>(size);
    if (count < key.minimum) {
        out.error(
            "too-few", node.place,
            diag::say("'{}' has {} entries; it needs {} or more", key.name(), size, key.minimum),
            write_example(key));
        return false;
    }
    if (count > key.maximum) {
        out.error(
            "too-many", node.place,
            diag::say("'{}' has {} entries; at most {} are read", key.name(), size, key.maximum),
            "split the job into several files");
        return false;
    }
    return true;
}

std::string example_of(std::string_view section) {
    const Key* key = find_key(section);
    return key != nullptr ? own_to_fill_in(key->example) : std::string();
}

}  // namespace

Fields::Fields(const Node& node, std::string_view section, diag::Text who, ReadContext& context)
    : mapping_(node, std::move(who), section_of(section).names,
               node.kind == Kind::mapping ? "" : example_of(section), context.out),
      section_(section_of(section)),
      path_(section),
      reading_(context) {
    for (const Key* key : section_.keys) {
        if (!key->required || has(key->name())) continue;
        mapping_.require(key->name(), add_example(*key));
    }
}

const Node* Fields::find(std::string_view key) const {
    return mapping_.find(rule(key).name());
}

const Key& Fields::rule(std::string_view key) const {
    for (const Key* known : section_.keys) {
        if (known->name() == key) return *known;
    }
    throw std::logic_error("no key '" + std::string(key) + "' below '" + path_ + "'");
}

const Key& Fields::rule(std::string_view key, Type type) const {
    const Key& known = rule(key);
    if (known.type != type)
        throw std::logic_error("read as another type: " + std::string(known.path));
    return known;
}

template <class Read>
auto Fields::value(std::string_view key, Type type, Read read) const {
    const Key& known = rule(key, type);
    if (const Node* found = mapping_.find(key)) return read(*found, known, reading_);
    using Result = decltype(read(node(), known, reading_));
    if (known.default_value.empty()) return Result{};
    Node default_value;
    default_value.kind = Kind::scalar;
    default_value.text = known.default_value;
    default_value.place = node().place;
    return read(default_value, known, reading_);
}

std::optional<At<std::string>> Fields::text(std::string_view key) const {
    return value(key, Type::text, read_text);
}
std::optional<At<LocalText>> Fields::local_text(std::string_view key) const {
    return value(key, Type::local_text, read_local_text);
}
std::optional<At<std::string>> Fields::id(std::string_view key) const {
    return value(key, Type::id, read_id);
}
std::optional<At<double>> Fields::number(std::string_view key) const {
    return value(key, Type::number, read_number);
}
std::optional<At<int>> Fields::whole(std::string_view key) const {
    return value(key, Type::whole, read_whole);
}
std::optional<At<bool>> Fields::flag(std::string_view key) const {
    return value(key, Type::flag, read_flag);
}
std::optional<At<std::size_t>> Fields::choice(std::string_view key) const {
    return value(key, Type::choice, read_choice);
}
std::optional<At<units::Volume>> Fields::volume(std::string_view key) const {
    return value(key, Type::volume, read_volume);
}
std::optional<At<units::Mass>> Fields::mass(std::string_view key) const {
    return value(key, Type::mass, read_mass);
}
units::WrittenUnit Fields::unit(std::string_view key) const {
    const Node* node = mapping_.find(key);
    return node == nullptr ? units::WrittenUnit{}
                           : units::written_unit(node->text, reading_.kitchen);
}
std::optional<At<units::Length>> Fields::length(std::string_view key) const {
    return value(key, Type::length, read_length);
}
std::optional<At<units::Area>> Fields::area(std::string_view key) const {
    return value(key, Type::area, read_area);
}
std::optional<At<units::Duration>> Fields::duration(std::string_view key) const {
    return value(key, Type::duration, read_duration);
}
std::optional<At<units::Density>> Fields::density(std::string_view key) const {
    return value(key, Type::density, read_density);
}
std::optional<At<units::Celsius>> Fields::temperature(std::string_view key) const {
    return value(key, Type::temperature, read_temperature);
}
std::optional<At<units::Share>> Fields::share(std::string_view key) const {
    return value(key, Type::share, read_share);
}
std::optional<At<Date>> Fields::date(std::string_view key) const {
    return value(key, Type::date, read_date);
}
std::optional<At<LocalTime>> Fields::time(std::string_view key) const {
    return value(key, Type::time, read_time);
}
std::optional<At<Point>> Fields::point(std::string_view key) const {
    return value(key, Type::point, read_point);
}

const std::vector<Node>& Fields::list_at(const Node& node, const Key& known) const {
    static const std::vector<Node> none;
    if (node.kind != Kind::sequence) {
        const bool one = node.kind == Kind::scalar;
        reading_.out.error(
            node.kind == Kind::null ? "empty-value" : "wrong-type", node.place,
            diag::say("'{}' takes a list", known.name()),
            one ? diag::say("write {}: [{}]", known.name(), node.text) : write_example(known));
        return none;
    }
    return counted(node.items.size(), known, node, reading_.out) ? node.items.all() : none;
}

const std::vector<Node>& Fields::list(std::string_view key) const {
    static const std::vector<Node> none;
    const Key& known = rule(key, Type::list);
    const Node* node = mapping_.find(key);
    return node == nullptr ? none : list_at(*node, known);
}

std::vector<Node> Fields::fallback_items(const Key& known) const {
    std::vector<Node> items;
    std::string_view rest = known.default_value;
    if (rest.starts_with('[')) rest = rest.substr(1, rest.size() - 2);
    while (!rest.empty()) {
        const auto comma = std::min(rest.find(", "), rest.size());
        Node& item = items.emplace_back();
        item.kind = Kind::scalar;
        item.place = node().place;
        item.text = rest.substr(0, comma);
        rest.remove_prefix(std::min(comma + 2, rest.size()));
    }
    return items;
}

const std::vector<std::pair<Node, Node>>& Fields::named(std::string_view key) const {
    static const std::vector<std::pair<Node, Node>> none;
    const Key& known = rule(key, Type::named);
    const Node* node = mapping_.find(key);
    if (node == nullptr) return none;
    if (node->kind != Kind::mapping) {
        reading_.out.error(node->kind == Kind::null ? "empty-value" : "wrong-type", node->place,
                           diag::say("'{}' takes names with something behind each", key),
                           write_example(known));
        return none;
    }
    return counted(node->entries.size(), known, *node, reading_.out) ? node->entries.all() : none;
}

std::vector<At<units::Duration>> Fields::rising(const std::vector<Node>& items,
                                                const Key& entry) const {
    std::vector<At<units::Duration>> all;
    std::vector<std::pair<units::Duration, std::string>> written;
    std::optional<At<diag::Text>> early;  // the first that is, which is the one slip there is
    for (const Node& item : items) {
        const auto time = read_duration(item, entry, reading_);
        if (!time) continue;
        if (!all.empty() && !early && **time <= *all.back())
            early = {diag::say("'{}' comes after '{}'", item.text, written.back().second),
                     item.place};
        all.push_back(*time);
        written.emplace_back(**time, item.text);
    }
    if (!early) return all;
    std::stable_sort(written.begin(), written.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    const auto again = std::unique(written.begin(), written.end(),
                                   [](const auto& a, const auto& b) { return a.first == b.first; });
    std::string in_order;
    for (auto at = written.begin(); at != again; ++at)
        in_order += (in_order.empty() ? "" : ", ") + at->second;
    reading_.out.error(
        "visit-order", early->place,
        diag::say("{}, but each visit must be later than the one before it", early->value),
        diag::say("write them in order, each once: [{}]", in_order));
    return all;
}

std::optional<PlannedVisits> Fields::visits(std::string_view key) const {
    const Key& known = rule(key, Type::visits);
    const Node* written = mapping_.find(key);
    if (written == nullptr && known.default_value.empty()) return {};
    const std::string path(known.path);
    const bool of_job = path_.empty();

    Node nothing;
    nothing.kind = Kind::mapping;
    nothing.place = node().place;
    const bool in_full = written != nullptr && written->kind == Kind::mapping;
    PlannedVisits planned;
    std::optional<Fields> below;
    if (in_full || of_job)
        below.emplace(in_full ? *written : nothing, path,
                      of_job ? "the visits" : "the visits of one mix or station", reading_);
    if (of_job) planned.within = below->duration("within");

    const Key& entry = *find_key(path + ".every.*");
    if (in_full && below->has("every"))
        planned.every = rising(below->list("every"), entry);
    else if (in_full || written == nullptr)
        planned.every = rising(fallback_items(*find_key(path + ".every")), entry);
    else
        planned.every = rising(list_at(*written, known), entry);
    return planned;
}

}  // namespace gallipot::job
