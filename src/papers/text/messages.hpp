#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"

namespace gallipot::text {

/// A message as its file has it.
struct Message {
    std::string text;
    diag::Place place;
    bool checked = false;  ///< found to be sound when it was compiled
};

/// By dotted key: "card.title".
using Messages = std::map<std::string, Message, std::less<>>;

/// A language's files, read strictly: a tree of mappings with texts at its ends, keys joined by
/// dots. The first folder with text/<language>.yaml gives the whole; the region's file there and
/// the files in later folders may only replace what that one has.
Messages read_messages(const std::vector<std::string>& folders, const std::string& language,
                       const std::string& region, diag::Diagnostics& out);

/// Throws std::logic_error for a key that is not there.
const Message& message(const Messages& messages, std::string_view key);

}  // namespace gallipot::text
