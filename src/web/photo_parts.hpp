#pragma once

#include "web/form_fields.hpp"
#include "web/parts.hpp"

/// Photos on the pages.
namespace gallipot::web {

/// The photos of an entry, small, each a link to the whole one; empty where it has none. One that
/// is not there any more says so.
Html photos_of(const Page& page, const log::Entry& entry);

/// The field to choose photos in, and those that are kept already, each with a tick to leave it
/// out.
Html photo_field(const Page& page, const Fields& fields, const FormData& data);

}  // namespace gallipot::web
