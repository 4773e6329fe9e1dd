#pragma once

#include <map>

#include "catch_all.hpp"

#include "papers/text/catalog.hpp"

namespace gallipot::tests {

/// A likely value for each argument of a message, by the argument's name.
inline text::Arguments sample_arguments(const text::Catalog& words, const std::string& key) {
    static const std::map<std::string, text::Value> values = {
        {"n", std::int64_t{3}},
        {"total", std::int64_t{4}},
        {"count", std::int64_t{2}},
        {"coats", std::int64_t{2}},
        {"phone", "13 11 26"},
        {"emergency", "000"},
        {"name", "borax"},
        {"contact", "the caretaker"},
        {"bait", "ant and cockroach"},
        {"pests", "ants"},
        {"day", "1 April"},
        {"job", "Millrace Hall"},
        {"substances", "borax"},
        {"source", "poisonsinfo.health.qld.gov.au"},
        {"area", "6 m²"},
        {"contents", "borax 12 g, water"},
        {"hours", "24/7"},
        {"made", "2 March 2027"},
    };
    text::Arguments arguments;
    for (const std::string& name : words.shape(key).arguments) {
        const auto found = values.find(name);
        arguments.emplace_back(name, found == values.end() ? text::Value("x") : found->second);
    }
    // Where a plural asks for a number, any argument without a sample must be one.
    return arguments;
}

}  // namespace gallipot::tests
