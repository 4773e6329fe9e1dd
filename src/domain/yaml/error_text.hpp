#pragma once

#include <string>
#include <string_view>

#include "base/diag/text.hpp"

namespace gallipot::yaml {

/// What to say to a user in place of the parser's own words.
struct ErrorText {
    std::string code;
    diag::Text message;
    diag::Text hint;
};

/// `said` is the parser's message. What is not known here is passed on as it is.
ErrorText error_text_for(std::string_view said);

}  // namespace gallipot::yaml
