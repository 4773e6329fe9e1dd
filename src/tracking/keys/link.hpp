#pragma once

#include <string>
#include <string_view>

namespace gallipot::keys {

/// Whether `address` is a page of the user's own: it holds "{station}".
bool own_page(std::string_view address);

/// %XX for every byte but letters, digits, "-" and ".", which need no escape in a path (RFC 3986).
/// "_" and "~" need none either, but would push a code out of its dense mode.
std::string percent_encoded(std::string_view text);

/// What a station's code opens: ADDRESS/S/STATION/KEY in capitals, so that it fits the denser mode
/// of a code. Scheme, host and port do not mind capitals; a path in the address does, and is kept
/// as it stands. An address with "{station}" is used as it stands, the id put in and the key left
/// out. What may not stand in a link is written as %XX.
std::string link(std::string_view address, std::string_view station, std::string_view key);

/// The same for the page that shows every station: ADDRESS/ALL/KEY. Empty for a page of the
/// user's own.
std::string overview_link(std::string_view address, std::string_view key);
/// And for the household sheet's: ADDRESS/HOME/KEY.
std::string household_link(std::string_view address, std::string_view key);

}  // namespace gallipot::keys
