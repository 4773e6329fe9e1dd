#include "app/overflows.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <set>
#include <string_view>

#include "base/diag/utf8.hpp"
#include "domain/yaml/raw_text.hpp"
#include "papers/fonts/script_fonts.hpp"

namespace gallipot::app {
namespace {

std::string_view without_mark(std::string_view text) {
    constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
    if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
    return text;
}

/// Looks for what the papers say in the text of the job, outside its comments.
class JobText {
  public:
    explicit JobText(const diag::SourcePtr& file)
        : file_(file), text_(without_mark(file->text)), positions_(text_) {}

    /// Where a word stands first; no line when it stands nowhere.
    [[nodiscard]] diag::Place find(const std::string& word) const {
        if (word.empty()) return {};
        auto at = text_.find(word);
        while (at != std::string_view::npos && in_comment(at)) at = text_.find(word, at + 1);
        if (at == std::string_view::npos) return {};
        return positions_.place(file_, at, static_cast<int>(diag::count_characters(word)));
    }

  private:
    [[nodiscard]] bool in_comment(std::size_t offset) const {
        const auto line_end_before = text_.rfind('\n', offset);
        const std::size_t begin =
            line_end_before == std::string_view::npos ? 0 : line_end_before + 1;
        for (std::size_t i = begin; i < offset; ++i)
            if (text_[i] == '#' && (i == begin || text_[i - 1] == ' ' || text_[i - 1] == '\t'))
                return true;
        return false;
    }

    const diag::SourcePtr& file_;
    std::string_view text_;
    yaml::Positions positions_;
};

/// Whether a piece of paper is named so: "label K1-1 on a4-3x7", "stock a4-3x7", "labels a4-3x7".
bool is_of_labels(const layout::Overflow& overflow) {
    const std::string& what = overflow.what.english();
    return what.starts_with("label") || what.starts_with("stock ");
}

diag::Place place_of(const layout::Overflow& overflow, const JobText& text, const job::Job& job,
                     const std::string& stock_option) {
    if (const diag::Place word = text.find(overflow.word); word.line > 0) return word;
    if (is_of_labels(overflow)) return place_of_stock(job, stock_option);
    for (const job::Mix& mix : job.mixes)
        for (const auto& language : job.languages)
            if (overflow.what.english().starts_with(mix.title->in(*language)))
                return mix.title.place;
    return job.title.place;
}

}  // namespace

diag::Place place_of_option(const std::string& option, const std::string& value) {
    const auto line =
        std::make_shared<const diag::Source>(diag::Source{"command line", option + " " + value});
    return {line, 1, static_cast<int>(diag::count_characters(option)) + 2,
            static_cast<int>(diag::count_characters(value))};
}

diag::Place place_of_stock(const job::Job& job, const std::string& stock_option) {
    if (!stock_option.empty()) return place_of_option("--stock", stock_option);
    return job.labels.place.line > 0 ? job.labels.place : job.title.place;
}

void tell_overflows(const std::vector<layout::Overflow>& overflows, const job::Job& job,
                    const std::string& stock_option, diag::Diagnostics& out) {
    if (overflows.empty()) return;
    const JobText text(job.source);
    std::map<char32_t, diag::Place> places;  // no line: it does not come from the job
    std::set<std::pair<int, std::string>> told_scripts;
    for (const auto& overflow : overflows)
        for (const char32_t letter : overflow.letters) {
            if (places.count(letter) > 0) continue;
            const diag::Place place = places[letter] = text.find(diag::utf8(letter));
            if (place.line == 0) continue;
            // With a package to install: once for all letters of a script in one text.
            if (overflow.package.empty())
                out.error(
                    "no-letter", place,
                    diag::say("the papers cannot print {} ({}): no font has a letter for it",
                              diag::quoted(diag::utf8(letter)), diag::code_point_name(letter)),
                    "remove it, or write it in words");
            else if (const auto script = fonts::script_of(letter);
                     told_scripts.emplace(place.line, script).second)
                out.error(
                    "no-letter", place,
                    diag::say("the papers cannot print {}: no font for {} is installed",
                              diag::quoted(diag::utf8(letter)), script),
                    diag::say("install the package {}, or write it in words", overflow.package));
        }
    for (const auto& overflow : overflows) {
        const bool told = !overflow.letters.empty() &&
                          std::all_of(overflow.letters.begin(), overflow.letters.end(),
                                      [&](char32_t letter) { return places.at(letter).line > 0; });
        if (!told)
            out.error("does-not-fit", place_of(overflow, text, job, stock_option),
                      diag::say("{}: {}", overflow.what, overflow.problem), overflow.remedy);
    }
}

}  // namespace gallipot::app
