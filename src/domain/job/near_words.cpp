#include "domain/job/near_words.hpp"

#include <algorithm>
#include <string>

#include "base/strings/ascii.hpp"

namespace gallipot::job {

namespace {

struct NearWord {
    std::string_view path, written, meant;  ///< `written` in small letters, of one thing
};
constexpr std::string_view near = "stations.*.near.*";
constexpr std::string_view form = "mixes.*.form";
constexpr std::string_view premises = "premises";
constexpr NearWord words[] = {
    {near, "kid", "children"},
    {near, "child", "children"},
    {near, "toddler", "children"},
    {near, "baby", "children"},
    {near, "babies", "children"},
    {near, "infant", "children"},
    {near, "pet", "pets"},
    {near, "cat", "pets"},
    {near, "dog", "pets"},
    {near, "puppy", "pets"},
    {near, "kitten", "pets"},
    {near, "animal", "pets"},
    {near, "rabbit", "pets"},
    {near, "bird", "pets"},
    {near, "chicken", "pets"},
    {near, "hen", "pets"},
    {near, "pantry", "food"},
    {near, "larder", "food"},
    {near, "dish", "food"},
    {near, "dishes", "food"},
    {near, "worktop", "food"},
    {near, "drain", "water"},
    {near, "sink", "water"},
    {near, "pond", "water"},
    {near, "tank", "water"},
    {near, "aquarium", "water"},
    {near, "fish", "water"},
    {near, "well", "water"},
    {near, "gutter", "water"},
    {near, "heater", "heat"},
    {near, "radiator", "heat"},
    {near, "stove", "heat"},
    {near, "oven", "heat"},
    {near, "boiler", "heat"},
    {near, "fireplace", "heat"},
    {near, "hot", "heat"},
    {near, "fridge", "cold"},
    {near, "freezer", "cold"},
    {near, "frost", "cold"},
    {near, "sunshine", "sun"},
    {near, "sunlight", "sun"},
    {near, "window", "sun"},
    {near, "socket", "sockets"},
    {near, "outlet", "sockets"},
    {near, "cable", "sockets"},
    {near, "wire", "sockets"},
    {near, "wiring", "sockets"},
    {near, "plug", "sockets"},
    {near, "plant", "plants"},
    {near, "flower", "plants"},
    {near, "garden", "plants"},
    {near, "lawn", "plants"},
    {near, "soil", "plants"},
    {form, "powder", "dry"},
    {form, "dust", "dry"},
    {form, "syrup", "liquid"},
    {form, "solution", "liquid"},
    {form, "gel", "paste"},
    {form, "dough", "paste"},
    {premises, "house", "home"},
    {premises, "apartment", "flats"},
    {premises, "nursery", "childcare"},
    {premises, "restaurant", "food business"},
};

}  // namespace

std::string_view choice_meant(const Key& key, std::string_view word) {
    const std::string small = strings::to_lower(word);
    const auto found = std::find_if(std::begin(words), std::end(words), [&](const NearWord& it) {
        return it.path == key.path &&
               (small == it.written || small == std::string(it.written) + "s");
    });
    return found == std::end(words) ? std::string_view() : found->meant;
}

std::string name_begun(std::string_view word, const std::vector<std::string>& names) {
    const std::string start = std::string(word) + ' ';
    const auto found = std::find_if(names.begin(), names.end(), [&](const std::string& name) {
        return name.starts_with(start);
    });
    return found == names.end() ? std::string() : *found;
}

}  // namespace gallipot::job
