#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <string_view>
#include <unicode/listformatter.h>
#include <unicode/locid.h>
#include <utility>
#include <vector>

#include "papers/text/compiled.hpp"
#include "papers/text/dates.hpp"
#include "papers/text/figures.hpp"
#include "papers/text/messages.hpp"

namespace gallipot::text {

/// Writes messages and values in one language. What ICU needs for it is made on first use and kept;
/// none of that is for two threads at once.
class Writer : public ValueWriter {
  public:
    /// Keeps references to both.
    Writer(const Messages& messages, const icu::Locale& locale)
        : numbers(locale), messages_(messages), locale_(locale) {}

    StyledText rich(std::string_view key, const Arguments& arguments);
    std::string unit(std::string_view name, std::string figures);
    template <class Time>
    std::string date(std::string_view pattern_key, Time time) {
        return dates(pattern_key).write(time);
    }
    /// "a, b and c" or "a, b or c".
    std::string joined(const std::vector<std::string>& items, UListFormatterType type);
    std::string write(const Value& value) override;

    NumberWriter numbers;

  private:
    const DateWriter& dates(std::string_view pattern_key);
    [[nodiscard]] bool right_to_left();

    const Messages& messages_;
    const icu::Locale& locale_;
    std::optional<bool> right_to_left_;  ///< the language; nothing: not yet asked
    std::map<std::string, CompiledMessage, std::less<>> compiled_;
    std::map<std::string, DateWriter, std::less<>> dates_;
    std::map<UListFormatterType, std::unique_ptr<icu::ListFormatter>> lists_;
};

/// The writer of a catalog, for one thread at a time.
class SharedWriter {
  public:
    /// Keeps references to both.
    SharedWriter(const Messages& messages, const icu::Locale& locale) : writer_(messages, locale) {}

    /// The writer, locked for as long as this lives.
    class Locked {
      public:
        explicit Locked(SharedWriter& shared) : lock_(shared.mutex_), writer_(shared.writer_) {}
        Writer* operator->() const { return &writer_; }

      private:
        std::lock_guard<std::mutex> lock_;
        Writer& writer_;
    };
    Locked lock() { return Locked(*this); }

  private:
    std::mutex mutex_;
    Writer writer_;
};

}  // namespace gallipot::text
