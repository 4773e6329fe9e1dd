#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "papers/text/catalog.hpp"

/// Pieces put together with the marks of a language: French sets a space before a colon, Chinese
/// and Arabic have commas of their own. The marks stand in the catalogs under `join`.
namespace gallipot::document {

/// "Kitchen:", as before what is said of it.
std::string headed(const text::Catalog& words, const std::string& name);
/// "Kitchen: behind the bins".
std::string headed(const text::Catalog& words, const std::string& name, const std::string& text);

/// What stands between two pieces: ": ", ", " or "; ".
enum class Join { colon, comma, semicolon };
std::string mark(const text::Catalog& words, Join join);

/// "K1-1, K1-2, K2".
std::string joined(const text::Catalog& words, Join join, const std::vector<std::string>& items);
/// Adds to `runs` with the mark between.
void add_joined(text::StyledText& runs, const text::Catalog& words, Join join,
                text::StyledText next);

/// With a full stop, where it does not end with one.
std::string sentence(const text::Catalog& words, const std::string& text);
void end_sentence(text::StyledText& runs, const text::Catalog& words);

}  // namespace gallipot::document
