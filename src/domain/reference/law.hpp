#pragma once

#include <string_view>
#include <vector>

namespace gallipot::reference {

/// Something known to restrict home-made pest control, or the sale of what goes into it. Not legal
/// advice: each text ends by sending the reader to those who know. All were read: what is only
/// recalled is not printed.
struct LawNote {
    std::string_view key;     ///< of the text in the catalogs: "law.us_own_use"; takes {source}
    std::string_view source;  ///< to be printed: title and date, or when it was read
    std::string_view date;    ///< ISO 8601 as far as it is known: "2012-10"; empty when undated
    /// It says that making or using such a mix is not allowed, or an offence, as long as nobody has
    /// registered or authorised it.
    bool forbids = false;
    bool shared_buildings = false;  ///< it is about buildings that several households use
};

/// What is known for a region (ISO 3166-1 alpha-2), in the order to print it: sources that disagree
/// stand beside each other. Never empty: where nothing is known, that is the note.
std::vector<LawNote> law_notes(std::string_view region);

/// Whether one of the region's notes forbids it.
bool law_forbids(std::string_view region);

}  // namespace gallipot::reference
