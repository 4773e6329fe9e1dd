#pragma once

#include <string>
#include <string_view>

namespace gallipot::yaml {

/// A UTF-8 text in Unicode's normal form C, in which an accented letter is one character wherever
/// there is one: "e" and a combining acute become "é". What comes from some keyboards and file
/// systems is written apart; fonts have no mark to put on top, and two such names would differ.
std::string composed(std::string_view text);

}  // namespace gallipot::yaml
