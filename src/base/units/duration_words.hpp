#pragma once

#include <string>

/// Lengths of time in English, for messages of check.
namespace gallipot::units {

/// "1 day", "2.5 days"; below one day "5 hours", below one hour "30 minutes". To three significant
/// figures, or whole.
std::string days_in_words(double days);

}  // namespace gallipot::units
