#pragma once

#include "web/parts.hpp"

/// What the overview is put together from.
namespace gallipot::web {

enum class Reports { unread, all };

/// The reports of neighbours, the unread ones first; empty where there are none.
Html reports_list(const Page& page, Reports which);

/// A button that sends one thing to an address below the overview.
Html small_form(const Page& page, const std::string& action, const std::string& name,
                const std::string& value, const std::string& text, const std::string& label);

}  // namespace gallipot::web
