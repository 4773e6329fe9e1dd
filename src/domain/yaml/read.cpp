#include <cstddef>
#include <fmt/format.h>
#include <sstream>
#include <string>
#include <string_view>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/parser.h>

#include "domain/yaml/builder.hpp"
#include "domain/yaml/node.hpp"
#include "domain/yaml/raw_text.hpp"

namespace gallipot::yaml {

namespace {

/// What a file is that somebody gives by mistake, by how it begins; empty for all others.
std::string_view kind_of_binary(std::string_view text) {
    using namespace std::string_view_literals;
    struct Kind {
        std::string_view begins, called;
    };
    // The signatures of ISO 32000-1 (7.5.2), PKWARE's APPNOTE (4.3.7), the PNG specification (5.2),
    // JPEG files and https://www.sqlite.org/fileformat2.html (1.3).
    constexpr Kind kinds[] = {{"%PDF-"sv, "a PDF"},
                              {"PK\x03\x04"sv, "a spreadsheet, a document or a packed folder"},
                              {"\x89PNG"sv, "a picture"},
                              {"\xFF\xD8\xFF"sv, "a picture"},
                              {"SQLite format 3"sv, "a database, perhaps the visit log"}};
    for (const Kind& kind : kinds)
        if (text.starts_with(kind.begins)) return kind.called;
    return {};
}

}  // namespace

Node read(const diag::SourcePtr& source, diag::Diagnostics& out, const Limits& limits) {
    std::string_view text = source->text;
    if (text.size() > limits.bytes) {
        out.error(
            "file-too-large", {source, 0, 0, 1},
            diag::say("the file has {} bytes; at most {} are read", text.size(), limits.bytes),
            "split it into several files");
        return {};
    }
    if (const std::string_view kind = kind_of_binary(text); !kind.empty()) {
        out.error("not-text", {source, 0, 0, 1},
                  diag::say("this is {}, not a text file", diag::term(kind)),
                  "give a text file in its place; the name of a job usually ends in .yaml");
        return {};
    }
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());

    const Positions positions(text);
    if (!check_raw_text(text, source, positions, limits, out)) return {};

    Builder builder(text, source, positions, limits, out);
    std::istringstream stream{std::string(text)};
    try {
        YAML::Parser parser(stream);
        try {
            while (parser.HandleNextDocument(builder)) {
            }
        } catch (const YAML::Exception& problem) {
            builder.report(problem);
        }
        Node root = builder.take();
        // An empty file is reported at 1:1.
        if (root.place.line == 0) root.place = {source, 1, 1, 1};
        return root;
    } catch (const Stop&) {
        return {};
    }
}

}  // namespace gallipot::yaml
