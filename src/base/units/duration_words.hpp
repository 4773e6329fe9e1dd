#pragma once

#include "base/diag/text.hpp"

/// Lengths of time, for messages of check.
namespace gallipot::units {

/// "1 day", "2.5 days"; below one day "5 hours", below one hour "30 minutes". To three significant
/// figures, or whole.
diag::Text days_in_words(double days);

}  // namespace gallipot::units
