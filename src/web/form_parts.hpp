#pragma once

#include "web/pages.hpp"

namespace gallipot::web {

/// The form of a visit with what was typed into it. `action` is where it goes.
Html visit_form(const Page& page, const Place& place, const FormData& data,
                const FormErrors& errors, const std::string& action);

/// What went wrong, above the form, each with a link to its field. Empty when nothing did.
Html trouble_box(const Page& page, const FormErrors& errors);

}  // namespace gallipot::web
