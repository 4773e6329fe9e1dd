#pragma once

#include <string>

#include "base/diag/diagnostic.hpp"

namespace gallipot::job {

/// Whether `address` may be what QR codes open: http or https, a host, no blanks. One that holds
/// "{station}" is a page of the user's own; any other is where the visit log is served, so that
/// nothing may follow its path.
bool check_address(const diag::At<std::string>& address, diag::Diagnostics& out);

}  // namespace gallipot::job
