#pragma once

#include <qrcodegen/qrcodegen.hpp>
#include <vector>

/// Which of the eight masks a symbol takes. The library scores them module by module, which is nine
/// tenths of the time it takes to make a symbol; here a line of modules is one word of bits.
namespace gallipot::qr {

/// Larger symbols are left to the library: their lines do not fit into a word.
inline constexpr int largest_version_scored = 10;

struct Masked {
    int mask = 0;            ///< 0 to 7
    std::vector<bool> dark;  ///< the symbol with that mask, row by row
};

/// The mask with the least penalty, of equal ones the first, as the library chooses it (ISO/IEC
/// 18004, evaluation of data masking results). `first` is the symbol made with mask 0, of a version
/// up to largest_version_scored. Tests hold mask and modules against the library's own symbol.
Masked best_masked(const qrcodegen::QrCode& first);

}  // namespace gallipot::qr
