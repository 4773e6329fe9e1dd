#pragma once

#include "web/form_fields.hpp"
#include "web/pages.hpp"

namespace gallipot::web {

/// The form of a visit with what was typed into it. `action` is where it goes.
Html visit_form(const Page& page, const Place& place, const FormData& data,
                const FormErrors& errors, const std::string& action);

/// A level that can be chosen: what the form sends, and the key of its text.
struct Level {
    const char* value;
    const char* key;
};
std::span<const Level> usual_levels();

/// Of a form that was opened long before it was sent: when what it says was seen.
Html when_group(const Fields& fields, const Page& page, log::LocalTime opened,
                const std::string& data);

/// A text that says what is the matter, and more on it; it takes the focus.
Html trouble(const Page& page, const std::string& key, const Html& more = {});

/// "All well, same level (75 %)".
std::string well_text(const Page& page, const Levels& levels);

/// What went wrong, above the form, each with a link to its field. Empty when nothing did.
Html trouble_box(const Page& page, const FormErrors& errors);

}  // namespace gallipot::web
