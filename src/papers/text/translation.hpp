#pragma once

#include <optional>
#include <string>

#include "papers/text/catalog.hpp"
#include "papers/text/po.hpp"

/// Between catalogs and the files that translators work with.
namespace gallipot::text {

/// Every text of English in the order of its file, with the comments that stand there, and what
/// `translated` (null: nothing yet) has for it.
PoFile to_translate(const Catalog& english, const Catalog* translated, const std::string& language);

/// A catalog's file made from translations.
struct Translation {
    std::string language;
    std::string yaml;         ///< of templates/text
    std::size_t missing = 0;  ///< texts that are not translated yet
};
/// Nothing, and everything that is wrong in `out` at its place in the PO file, where a text is
/// unknown, cannot be read as a message or asks for other arguments than the English one.
std::optional<Translation> from_translator(const Catalog& english, const PoFile& file,
                                           diag::Diagnostics& out);

}  // namespace gallipot::text
