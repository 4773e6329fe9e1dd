#include "papers/text/compiled.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <stdexcept>

#include "papers/text/icu.hpp"
#include "papers/text/markup.hpp"

namespace gallipot::text {

namespace {

using icu::MessagePattern;

MessagePattern parse(const icu::UnicodeString& text, UParseError& where, UErrorCode& status) {
    return MessagePattern(text, &where, status);
}

/// Bold must begin and end within the same part of a message, and not twice.
bool marks_balanced(const MessagePattern& pattern) {
    const icu::UnicodeString& text = pattern.getPatternString();
    std::vector<bool> outer;
    bool bold = false;
    std::int32_t at = 0;
    const auto walk_to = [&](std::int32_t end) {
        for (; at < end; ++at) {
            if (text[at] != bold_begins && text[at] != bold_ends) continue;
            const bool begins = text[at] == bold_begins;
            if (begins == bold) return false;
            bold = begins;
        }
        return true;
    };
    for (std::int32_t i = 0; i < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        if (part.getType() == UMSGPAT_PART_TYPE_MSG_START) {
            if (!walk_to(part.getIndex())) return false;
            outer.push_back(bold);
        } else if (part.getType() == UMSGPAT_PART_TYPE_MSG_LIMIT) {
            if (!walk_to(part.getIndex()) || bold != outer.back()) return false;
            outer.pop_back();
        }
    }
    return !bold;
}

std::set<std::string> argument_names(const MessagePattern& pattern) {
    std::set<std::string> names;
    for (std::int32_t i = 0; i < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        const auto type = part.getType();
        if (type == UMSGPAT_PART_TYPE_ARG_NAME || type == UMSGPAT_PART_TYPE_ARG_NUMBER) {
            names.insert(to_utf8(pattern.getSubstring(part)));
        }
    }
    return names;
}

/// Those that are not simply put in: a plural or a format takes a number, and no word.
std::set<std::string> counted(const MessagePattern& pattern) {
    std::set<std::string> names;
    for (std::int32_t i = 0; i + 1 < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        const auto type = part.getArgType();
        if (part.getType() != UMSGPAT_PART_TYPE_ARG_START || type == UMSGPAT_ARG_TYPE_NONE ||
            type == UMSGPAT_ARG_TYPE_SELECT)
            continue;
        names.insert(to_utf8(pattern.getSubstring(pattern.getPart(i + 1))));
    }
    return names;
}

/// Those whose words choose among cases.
std::set<std::string> chosen_by(const MessagePattern& pattern) {
    std::set<std::string> names;
    for (std::int32_t i = 0; i + 1 < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        if (part.getType() == UMSGPAT_PART_TYPE_ARG_START &&
            part.getArgType() == UMSGPAT_ARG_TYPE_SELECT)
            names.insert(to_utf8(pattern.getSubstring(pattern.getPart(i + 1))));
    }
    return names;
}

std::vector<std::vector<std::string>> plural_cases(const MessagePattern& pattern) {
    std::vector<std::vector<std::string>> plurals;
    for (std::int32_t i = 0; i < pattern.countParts(); ++i) {
        const auto& start = pattern.getPart(i);
        if (start.getType() != UMSGPAT_PART_TYPE_ARG_START ||
            start.getArgType() != UMSGPAT_ARG_TYPE_PLURAL) {
            continue;
        }
        std::set<std::string> cases;
        const std::int32_t limit = pattern.getLimitPartIndex(i);
        for (std::int32_t j = i + 1; j < limit; ++j) {
            const auto& part = pattern.getPart(j);
            if (part.getType() == UMSGPAT_PART_TYPE_MSG_START) {
                j = pattern.getLimitPartIndex(j);
            } else if (part.getType() == UMSGPAT_PART_TYPE_ARG_SELECTOR) {
                cases.insert(to_utf8(pattern.getSubstring(part)));
            }
        }
        plurals.emplace_back(cases.begin(), cases.end());
    }
    return plurals;
}

/// No plural, no choice, no format: only text and {names}.
bool is_simple(const MessagePattern& pattern) {
    for (std::int32_t i = 0; i < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        if (part.getType() == UMSGPAT_PART_TYPE_ARG_START &&
            part.getArgType() != UMSGPAT_ARG_TYPE_NONE) {
            return false;
        }
    }
    return true;
}

std::string near(const UParseError& where) {
    return to_utf8(icu::UnicodeString(where.preContext) + icu::UnicodeString(where.postContext));
}

}  // namespace

void check_message(const std::string& key, const Message& message, diag::Diagnostics& out) {
    UErrorCode status = U_ZERO_ERROR;
    UParseError where{};
    const icu::UnicodeString text = with_marks(message.text);
    const MessagePattern pattern = parse(text, where, status);
    if (status == U_DEFAULT_KEYWORD_MISSING) {
        out.error("catalog-message", message.place,
                  diag::say("a plural or a choice in the message '{}' has no case 'other'", key),
                  "write other {...} as its last case");
        return;
    }
    if (U_FAILURE(status)) {
        out.error("catalog-message", message.place,
                  diag::say("the message '{}' cannot be read near '{}'", key, near(where)),
                  "write arguments as {name} and plurals as {n, plural, one {...} other {...}}, "
                  "with every { closed");
        return;
    }
    if (text.indexOf(u'<') >= 0) {
        out.error("catalog-message", message.place,
                  diag::say("the message '{}' holds a '<' that begins no markup", key),
                  "use <b> and </b> for bold and nothing else");
    } else if (!marks_balanced(pattern)) {
        out.error("catalog-message", message.place,
                  diag::say("<b> and </b> in the message '{}' do not match", key),
                  "close each <b> in the same case of the message, and put none inside another");
    }
    if (pattern.hasNumberedArguments()) {
        out.error("catalog-message", message.place,
                  diag::say("the message '{}' has an argument with a number for a name", key),
                  "use the names that the English message uses");
    }
}

Catalog::Shape shape_of(const Message& message) {
    UErrorCode status = U_ZERO_ERROR;
    UParseError where{};
    const MessagePattern pattern = parse(with_marks(message.text), where, status);
    require(status, "reading a message");
    const auto names = argument_names(pattern);
    const auto counts = counted(pattern);
    return {{names.begin(), names.end()},
            {counts.begin(), counts.end()},
            plural_cases(pattern),
            message.text,
            message.place};
}

CompiledMessage::CompiledMessage(const std::string& key, const Message& message,
                                 const icu::Locale& locale)
    : key_(key) {
    UErrorCode status = U_ZERO_ERROR;
    UParseError where{};
    const icu::UnicodeString text = with_marks(message.text);
    const MessagePattern pattern = parse(text, where, status);
    require(status, "reading the message '" + key + "'");
    if (!is_simple(pattern)) {
        const auto names = argument_names(pattern);
        names_.assign(names.begin(), names.end());
        chosen_by_ = chosen_by(pattern);
        icu_ = std::make_unique<icu::MessageFormat>(text, locale, where, status);
        require(status, "reading the message '" + key + "'");
        return;
    }
    bool bold = false;
    const auto add_text = [&](std::int32_t from, std::int32_t to) {
        for (std::int32_t start = from; start < to;) {
            std::int32_t end = start;
            while (end < to && text[end] != bold_begins && text[end] != bold_ends) ++end;
            if (end > start) {
                pieces_.push_back({to_utf8(text.tempSubStringBetween(start, end)), {}, bold});
            }
            if (end < to) bold = text[end] == bold_begins;
            start = end + 1;
        }
    };
    std::int32_t done = 0;
    for (std::int32_t i = 1; i < pattern.countParts(); ++i) {
        const auto& part = pattern.getPart(i);
        add_text(done, part.getIndex());
        if (part.getType() == UMSGPAT_PART_TYPE_ARG_START) {
            pieces_.push_back({{}, to_utf8(pattern.getSubstring(pattern.getPart(i + 1))), bold});
            i = pattern.getLimitPartIndex(i);
        }
        done = pattern.getPart(i).getLimit();
    }
}

const Value& CompiledMessage::value_of(const std::string& name, const Arguments& arguments) const {
    const auto found = std::find_if(arguments.begin(), arguments.end(),
                                    [&](const auto& argument) { return argument.first == name; });
    if (found == arguments.end()) {
        throw std::logic_error("the message '" + key_ + "' needs the argument '" + name + "'");
    }
    return found->second;
}

StyledText CompiledMessage::format(const Arguments& arguments, ValueWriter& writer) const {
    if (icu_) return format_by_icu(arguments, writer);
    StyledText runs;
    for (const Piece& piece : pieces_) {
        if (piece.argument.empty()) {
            append(runs, piece.text, piece.bold);
        } else {
            append(runs, writer.write(value_of(piece.argument, arguments)), piece.bold);
        }
    }
    return runs;
}

StyledText CompiledMessage::format_by_icu(const Arguments& arguments, ValueWriter& writer) const {
    std::vector<icu::UnicodeString> names;
    std::vector<icu::Formattable> values;
    for (const std::string& name : names_) {
        const Value& value = value_of(name, arguments);
        names.push_back(to_icu(name));
        if (const auto* count = std::get_if<std::int64_t>(&value)) {
            values.emplace_back(*count);
        } else if (const auto* number = std::get_if<double>(&value)) {
            values.emplace_back(*number);
        } else if (const auto* choice = std::get_if<std::string>(&value);
                   choice != nullptr && chosen_by_.contains(name)) {
            values.emplace_back(to_icu(*choice));
        } else {
            values.emplace_back(without_marks(writer.write(value)));
        }
    }
    UErrorCode status = U_ZERO_ERROR;
    icu::UnicodeString text;
    icu_->format(names.data(), values.data(), static_cast<std::int32_t>(names.size()), text,
                 status);
    require(status, "writing the message '" + key_ + "'");
    return split_at_marks(text);
}

}  // namespace gallipot::text
