#pragma once

#include "web/context.hpp"
#include "web/visit_form.hpp"

/// What the log says that a form is made from, and held against.
namespace gallipot::web {

/// Empty too where the log cannot be read.
Levels level_now(const Context& context, const Place& place);

/// `old` is the entry that the form corrects. Throws system::SystemError where the log cannot be
/// read.
Before before_form(const Context& context, const Place& place, const FormData& data,
                   const std::optional<log::Entry>& old);

}  // namespace gallipot::web
