#include "domain/yaml/error_text.hpp"

#include <array>
#include <yaml-cpp/exceptions.h>

namespace gallipot::yaml {

namespace {

struct Row {
    std::string_view said;  // how the parser's message begins
    const char* message;
    const char* hint;
};

// The parser's messages that a file can cause, in plain words.
const std::array<Row, 22> rows = {{
    {YAML::ErrorMsg::MAP_VALUE, "a colon and a space are not expected here",
     "put quotes around a text that holds ': ', or check the line above and the indentation"},
    {YAML::ErrorMsg::MAP_KEY, "a key is not expected here",
     "line it up with the keys it belongs to"},
    {YAML::ErrorMsg::BLOCK_ENTRY, "a list entry is not expected here",
     "put '- ' at the start of a line of its own"},
    {YAML::ErrorMsg::END_OF_MAP_FLOW, "the { opened here is not closed",
     "close it with }, part its entries with commas, and put quotes around a text with brackets"},
    {YAML::ErrorMsg::END_OF_SEQ_FLOW, "the [ opened here is not closed",
     "close it with ], part its entries with commas, and put quotes around a text with brackets"},
    {YAML::ErrorMsg::FLOW_END, "a closing bracket without its opening one",
     "take it out, or open the bracket; { goes with } and [ with ]"},
    {YAML::ErrorMsg::END_OF_MAP, "this does not fit among the keys above it",
     "line it up with the keys it belongs to, or put quotes around the whole text"},
    {YAML::ErrorMsg::END_OF_SEQ, "this does not fit among the list entries above it",
     "line it up with the entries it belongs to"},
    {YAML::ErrorMsg::EOF_IN_SCALAR, "a quoted text is never closed", "put the closing quote"},
    {YAML::ErrorMsg::DOC_IN_SCALAR, "--- or ... inside a quoted text",
     "close the quotes before this line"},
    {YAML::ErrorMsg::CHAR_IN_SCALAR, "a character that does not belong in a text",
     "put quotes around the text"},
    {YAML::ErrorMsg::UNKNOWN_TOKEN, "a text cannot begin with this character",
     "put quotes around the text"},
    {YAML::ErrorMsg::INVALID_ESCAPE, "an unknown escape after \\",
     "use single quotes, in which \\ is an ordinary character"},
    {YAML::ErrorMsg::INVALID_HEX, "an escape with characters that are no hex digits",
     "use single quotes, in which \\ is an ordinary character"},
    {YAML::ErrorMsg::INVALID_UNICODE, "an escape that names no character",
     "write the character itself"},
    {YAML::ErrorMsg::TAB_IN_INDENTATION, "a tab indents this line; YAML takes only spaces",
     "indent with spaces"},
    {YAML::ErrorMsg::CHAR_IN_BLOCK, "text on the same line as | or >",
     "begin the text on the next line, indented"},
    {YAML::ErrorMsg::ZERO_INDENT_IN_BLOCK, "an indentation of zero after | or >",
     "take the zero out"},
    {YAML::ErrorMsg::UNKNOWN_ANCHOR, "* refers to an anchor that is not there",
     "put quotes around a text that begins with *"},
    {YAML::ErrorMsg::ALIAS_NOT_FOUND, "a * without the name of an anchor",
     "put quotes around a text that begins with *"},
    {YAML::ErrorMsg::ANCHOR_NOT_FOUND, "an & without a name",
     "put quotes around a text that begins with &"},
    {YAML::ErrorMsg::MULTIPLE_ANCHORS, "two anchors for one value", "leave one of them out"},
}};

}  // namespace

ErrorText error_text_for(std::string_view said) {
    for (const Row& row : rows) {
        if (said.starts_with(row.said)) {
            return {"yaml-syntax", row.message, row.hint};
        }
    }
    return {"yaml-syntax", diag::say("this is not YAML: {}", said),
            "check this line against the one above it"};
}

}  // namespace gallipot::yaml
