#include "cli/misfits.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <string_view>

#include "base/diag/utf8.hpp"
#include "domain/yaml/raw_text.hpp"

namespace gallipot::command {
namespace {

/// Where each letter of a file first stands outside a comment.
std::map<char32_t, diag::Place> places_of(const std::vector<char32_t>& letters,
                                          const diag::SourcePtr& file) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    std::string_view text = file->text;
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    const yaml::Positions positions(text);
    std::map<char32_t, diag::Place> places;
    bool after_space = true, comment = false;
    for (std::size_t i = 0; i < text.size();) {
        const auto [code, bytes, valid] = diag::character_at(text, i);
        if (code == U'#' && after_space) comment = true;
        if (code == U'\n') comment = false;
        if (!comment && std::find(letters.begin(), letters.end(), code) != letters.end())
            places.try_emplace(code, positions.place(file, i));
        after_space = code == U' ' || code == U'\t' || code == U'\n';
        i += bytes;
    }
    return places;
}

}  // namespace

void tell_misfits(const std::vector<layout::Misfit>& misfits, const diag::SourcePtr& job,
                  diag::Diagnostics& out) {
    std::vector<char32_t> letters;
    for (const auto& misfit : misfits)
        for (const char32_t letter : misfit.letters)
            if (std::find(letters.begin(), letters.end(), letter) == letters.end())
                letters.push_back(letter);
    const auto places =
        letters.empty() ? std::map<char32_t, diag::Place>() : places_of(letters, job);
    for (const auto& [letter, place] : places)
        out.error("no-letter", place,
                  fmt::format("no font has a letter for {}", diag::code_point_name(letter)),
                  "write it another way");
    for (const auto& misfit : misfits) {
        const bool told =
            !misfit.letters.empty() &&
            std::all_of(misfit.letters.begin(), misfit.letters.end(),
                        [&](char32_t letter) { return places.find(letter) != places.end(); });
        if (!told)
            out.error("does-not-fit", {job, 0, 0, 1}, misfit.what + ": " + misfit.problem,
                      misfit.remedy);
    }
}

}  // namespace gallipot::command
