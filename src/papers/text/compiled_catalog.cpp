#include "papers/text/compiled_catalog.hpp"

#include <charconv>
#include <cstdint>
#include <filesystem>

#include "base/strings/fnv1a.hpp"

namespace gallipot::text {

namespace {

constexpr std::string_view version = "gallipot texts 1";

/// Tells an edited file from the one that was read.
std::string fingerprint(std::string_view text) {
    return std::to_string(strings::fnv1a(text));
}

/// Cuts a compiled catalog up from its beginning. After a fault every answer is empty and good() is
/// false.
class Cutter {
  public:
    explicit Cutter(std::string_view compiled) : rest_(compiled) {}

    std::string_view line() {
        const auto end = rest_.find('\n');
        if (end == std::string_view::npos) return fail();
        const auto found = rest_.substr(0, end);
        rest_.remove_prefix(end + 1);
        return found;
    }
    int number() {
        int value = 0;
        const auto [end, error] = std::from_chars(rest_.data(), rest_.data() + rest_.size(), value);
        const auto used = static_cast<std::size_t>(end - rest_.data());
        if (error != std::errc() || used == rest_.size() || value < 0) {
            fail();
            return 0;
        }
        rest_.remove_prefix(used + 1);
        return value;
    }
    std::string_view bytes(int count) {
        const auto size = static_cast<std::size_t>(count);
        if (rest_.size() < size) return fail();
        const auto found = rest_.substr(0, size);
        rest_.remove_prefix(size);
        return found;
    }
    [[nodiscard]] bool good() const { return good_; }
    [[nodiscard]] bool done() const { return rest_.empty(); }

  private:
    std::string_view fail() {
        good_ = false;
        rest_ = {};
        return {};
    }

    std::string_view rest_;
    bool good_ = true;
};

}  // namespace

std::string compiled_path(const std::string& folder, const std::string& language) {
    const auto beside = std::filesystem::path(folder).parent_path() / "compiled";
    return (beside / (language + ".catalog")).string();
}

std::string compiled_catalog(const Messages& messages, std::string_view yaml) {
    std::string out(version);
    out += '\n';
    out += fingerprint(yaml);
    out += '\n' + std::to_string(messages.size()) + ' ';
    for (const auto& [key, message] : messages) {
        for (const auto number :
             {message.place.line, message.place.column, message.place.length,
              static_cast<int>(key.size()), static_cast<int>(message.text.size())}) {
            out += std::to_string(number);
            out += ' ';
        }
        out += key;
        out += message.text;
    }
    return out;
}

std::optional<Messages> read_compiled(std::string_view compiled, const diag::SourcePtr& source) {
    Cutter cut(compiled);
    if (cut.line() != version || cut.line() != fingerprint(source->text)) return std::nullopt;
    const int count = cut.number();
    Messages messages;
    for (int i = 0; i < count && cut.good(); ++i) {
        Message message;
        message.place.source = source;
        message.place.line = cut.number();
        message.place.column = cut.number();
        message.place.length = cut.number();
        message.checked = true;
        const int key_size = cut.number(), text_size = cut.number();
        const auto key = cut.bytes(key_size);
        message.text = cut.bytes(text_size);
        messages.emplace_hint(messages.end(), key, std::move(message));
    }
    if (!cut.good() || !cut.done()) return std::nullopt;
    return messages;
}

}  // namespace gallipot::text
