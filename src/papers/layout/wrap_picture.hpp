#pragma once

#include "papers/layout/page.hpp"

namespace gallipot::layout {

/// How a strip goes round a cup, without words: its end goes over its beginning, the black band
/// above. As large as `room` allows; none, and false, where that is under
/// 20 x 14 mm.
bool add_wrap_picture(Page& page, const Box& room);

}  // namespace gallipot::layout
