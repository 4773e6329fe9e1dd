#pragma once

#include <chrono>
#include <map>
#include <memory>
#include <mutex>
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

    Runs rich(std::string_view key, const Arguments& arguments);
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

    const Messages& messages_;
    const icu::Locale& locale_;
    std::map<std::string, CompiledMessage, std::less<>> compiled_;
    std::map<std::string, DateWriter, std::less<>> dates_;
    std::map<UListFormatterType, std::unique_ptr<icu::ListFormatter>> lists_;
};

/// The writers of a catalog: as many as threads that have written with it at the same time. They
/// are lent, so that no thread waits while another one writes.
class Writers {
  public:
    /// A writer for as long as it lives.
    class Lent {
      public:
        Lent(Writers& owner, std::unique_ptr<Writer> writer)
            : owner_(owner), writer_(std::move(writer)) {}
        ~Lent() { owner_.take_back(std::move(writer_)); }
        Lent(const Lent&) = delete;
        Lent& operator=(const Lent&) = delete;
        Writer* operator->() const { return writer_.get(); }

      private:
        Writers& owner_;
        std::unique_ptr<Writer> writer_;
    };

    /// Keeps references to both.
    Writers(const Messages& messages, const icu::Locale& locale)
        : messages_(messages), locale_(locale) {}
    Lent lend();

  private:
    void take_back(std::unique_ptr<Writer> writer) noexcept;

    const Messages& messages_;
    const icu::Locale& locale_;
    std::mutex mutex_;
    std::vector<std::unique_ptr<Writer>> idle_;
};

}  // namespace gallipot::text
