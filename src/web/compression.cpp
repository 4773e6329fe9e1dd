#include "web/compression.hpp"

#include <algorithm>
#include <charconv>
#include <libdeflate.h>
#include <memory>

#include "base/strings/ascii.hpp"

namespace gallipot::web {
namespace {

constexpr int level = 6;

struct Free {
    void operator()(libdeflate_compressor* compressor) const {
        libdeflate_free_compressor(compressor);
    }
};

/// The weight of "gzip;q=0.5": 1 where none is given, 0 where it is malformed.
double weight(std::string_view parameters) {
    const auto q = parameters.find("q=");
    if (q == std::string_view::npos) return 1;
    double value = 0;
    std::from_chars(parameters.data() + q + 2, parameters.data() + parameters.size(), value);
    return value;
}

std::string_view trimmed(std::string_view text) {
    while (text.starts_with(' ') || text.starts_with('\t')) text.remove_prefix(1);
    while (text.ends_with(' ') || text.ends_with('\t')) text.remove_suffix(1);
    return text;
}

}  // namespace

bool takes_gzip(std::string_view accept_encoding) {
    bool any = false;
    while (!accept_encoding.empty()) {
        const auto end = std::min(accept_encoding.find(','), accept_encoding.size());
        const std::string_view item = accept_encoding.substr(0, end);
        accept_encoding.remove_prefix(std::min(end + 1, accept_encoding.size()));
        const auto semicolon = std::min(item.find(';'), item.size());
        const std::string_view name = trimmed(item.substr(0, semicolon));
        const bool wanted = weight(item.substr(semicolon)) > 0;
        if (strings::same_letters(name, "gzip") || strings::same_letters(name, "x-gzip"))
            return wanted;
        if (name == "*") any = wanted;
    }
    return any;
}

void compress(const Request& request, Response& response) {
    if (response.file || response.body.size() < compressed_from || response.others_words ||
        !response.type.starts_with("text/") || !takes_gzip(request.header("accept-encoding")))
        return;
    const std::unique_ptr<libdeflate_compressor, Free> compressor(
        libdeflate_alloc_compressor(level));
    if (!compressor) return;
    std::string packed(libdeflate_gzip_compress_bound(compressor.get(), response.body.size()),
                       '\0');
    const std::size_t size = libdeflate_gzip_compress(
        compressor.get(), response.body.data(), response.body.size(), packed.data(), packed.size());
    if (size == 0) return;
    packed.resize(size);
    response.body = std::move(packed);
    response.headers.emplace_back("Content-Encoding", "gzip");
}

}  // namespace gallipot::web
