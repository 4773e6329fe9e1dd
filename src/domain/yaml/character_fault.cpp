#include "domain/yaml/character_fault.hpp"

#include <fmt/format.h>

namespace gallipot::yaml {

std::optional<CharacterFault> fault_of(const diag::Character& character) {
    const char32_t code = character.code;
    if (!character.valid) {
        return CharacterFault{
            {"not-utf8", diag::say("byte 0x{:02X} is not UTF-8 text", static_cast<unsigned>(code)),
             "save the file as UTF-8"},
            true};
    }
    if (code == 0) {
        return CharacterFault{{"control-character", "a NUL byte: this is not a text file",
                               "check that this is the file you meant"},
                              true};
    }
    if (diag::is_control(code) && code != '\t' && code != '\n') {
        return CharacterFault{
            {"control-character", diag::say("control character {}", diag::code_point_name(code)),
             code == '\r' ? "end each line with a line feed" : "take it out"},
            true};
    }
    if (code == 0xFEFF) {
        return CharacterFault{{"control-character",
                               "a byte-order mark (U+FEFF) that does not begin the file",
                               "take it out; two files were perhaps put together"}};
    }
    if (diag::is_direction_control(code)) {
        return CharacterFault{{"control-character",
                               diag::say("{} makes text read differently from what it says",
                                         diag::code_point_name(code)),
                               "take it out"}};
    }
    return std::nullopt;
}

}  // namespace gallipot::yaml
