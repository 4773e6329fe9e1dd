#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"

/// Files of translators: PO (GNU gettext manual, "The Format of PO Files"). A message of ours is
/// one text with its plurals inside (ICU), so the plural forms of the format are not used.
namespace gallipot::text {

struct PoEntry {
    std::vector<std::string> comments{};  ///< for the translator, a line each
    std::string key;                      ///< msgctxt
    std::string english;                  ///< msgid
    std::string text{};                   ///< msgstr; empty: not translated yet
    bool fuzzy = false;                   ///< a guess that somebody must look at: counts as none
    diag::Place key_place{};
    diag::Place place{};  ///< of the msgstr
};

struct PoFile {
    std::string language;  ///< BCP 47
    std::vector<PoEntry> entries;
};

/// `program` is its name and version, `time` when this was written ("2027-03-02 19:30+0000").
std::string print_po(const PoFile& file, std::string_view program, std::string_view time);

/// Reads such a file, whoever wrote it. Errors go to `out`; then what is returned is not whole.
PoFile read_po(const diag::SourcePtr& source, diag::Diagnostics& out);

}  // namespace gallipot::text
