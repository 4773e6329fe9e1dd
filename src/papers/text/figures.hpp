#pragma once

#include <map>
#include <string>
#include <unicode/numberformatter.h>

#include "papers/text/catalog.hpp"

namespace gallipot::text {

/// Numbers written as a locale does. Not for two threads at once.
class NumberWriter {
  public:
    /// Keeps a reference to it.
    explicit NumberWriter(const icu::Locale& locale) : locale_(locale) {}

    std::string write(double value, Figures figures);
    std::string with_decimals(double value, int decimals);
    /// Up to three significant figures, no zeros at the end: "1.25", "1.5".
    std::string up_to_three(double value);
    /// The rule for amounts: see Catalog::amount.
    std::string amount(double value);
    /// "¾", "1½": what a spoon or cup is marked with; empty for what is no such fraction.
    std::string with_fraction(double value);
    /// In full what comes out even with at most four decimals or as such a fraction, else up to
    /// three significant figures.
    std::string in_full_or_three(double value);

  private:
    using Formatter = icu::number::LocalizedNumberFormatter;
    std::string write(const std::string& name, const icu::number::Precision& precision,
                      double value);

    const icu::Locale& locale_;
    std::map<std::string, Formatter> formatters_;  ///< costly to make, so kept
};

/// How many decimals show `significant` figures of a positive `value`, after rounding to them.
int decimals_for(double value, int significant);

/// Whether an amount is a whole number but for the noise of its way through SI units.
bool whole(double value);

}  // namespace gallipot::text
