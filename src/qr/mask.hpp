#pragma once

#include <qrcodegen/qrcodegen.hpp>

/// Which of the eight masks a symbol takes. The library scores them module by module, which is nine
/// tenths of the time it takes to make a symbol; here a line of modules is one word of bits.
namespace gallipot::qr {

/// Larger symbols are left to the library: their lines do not fit into a word.
inline constexpr int largest_version_scored = 10;

/// The mask (0 to 7) with the least penalty, of equal ones the first, as the library chooses it
/// (ISO/IEC 18004, evaluation of data masking results). `unmasked` is the symbol made with mask 0,
/// of a version up to largest_version_scored. Tests hold it against the library's own choice.
int best_mask(const qrcodegen::QrCode& unmasked);

}  // namespace gallipot::qr
