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

Node read(const diag::SourcePtr& source, diag::Diagnostics& out, const Limits& limits) {
    std::string_view text = source->text;
    if (text.size() > limits.bytes) {
        out.error(
            "file-too-large", {source, 0, 0, 1},
            fmt::format("the file has {} bytes; at most {} are read", text.size(), limits.bytes),
            "split it into several files");
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
