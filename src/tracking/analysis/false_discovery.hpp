#pragma once

#include <optional>
#include <span>
#include <vector>

namespace gallipot::analysis {

/// Which of many claims hold, so that of those made at most a share of `rate` is expected to be
/// false: of the chances in order, all up to the last that is at most rate x its rank / their
/// number. Without a chance there is no claim, and it does not count. Y. Benjamini, Y. Hochberg
/// 1995, J. Roy. Statist. Soc. B 57:289-300 (recalled); as R's p.adjust(method = "BH").
std::vector<bool> claims_that_hold(std::span<const std::optional<double>> chances, double rate);

}  // namespace gallipot::analysis
