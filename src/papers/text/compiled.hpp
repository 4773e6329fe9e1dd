#pragma once

#include <memory>
#include <set>
#include <string>
#include <unicode/messagepattern.h>
#include <unicode/msgfmt.h>
#include <vector>

#include "papers/text/catalog.hpp"
#include "papers/text/messages.hpp"

namespace gallipot::text {

/// Finds what is wrong with a message: syntax, markup, arguments without a name.
void check_message(const std::string& key, const Message& message, diag::Diagnostics& out);

/// The arguments and plurals of a message that check_message passed.
Catalog::Shape shape_of(const Message& message);

/// Turns values into text for a message.
struct ValueWriter {
    virtual ~ValueWriter() = default;
    virtual std::string write(const Value& value) = 0;
};

/// A message ready for use. Most have no plural and no choice; those are put together from their
/// pieces, the others by ICU.
class CompiledMessage {
  public:
    CompiledMessage(const std::string& key, const Message& message, const icu::Locale& locale);

    /// Throws std::logic_error naming an argument that is not given.
    [[nodiscard]] StyledText format(const Arguments& arguments, ValueWriter& writer) const;

  private:
    struct Piece {
        std::string text;      ///< as it stands, or else
        std::string argument;  ///< the name of the value to put here
        bool bold = false;
    };
    [[nodiscard]] const Value& value_of(const std::string& name, const Arguments& arguments) const;
    [[nodiscard]] StyledText format_by_icu(const Arguments& arguments, ValueWriter& writer) const;

    std::string key_;
    std::vector<Piece> pieces_;
    std::vector<std::string> names_;           ///< for ICU
    std::set<std::string> chosen_by_;          ///< of those: words that choose a case
    std::unique_ptr<icu::MessageFormat> icu_;  ///< none when the pieces do
};

}  // namespace gallipot::text
