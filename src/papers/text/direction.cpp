#include "papers/text/direction.hpp"

#include <algorithm>
#include <memory>
#include <unicode/ubidi.h>
#include <unicode/uchar.h>
#include <unicode/uloc.h>
#include <unicode/unistr.h>

#include "base/diag/utf8.hpp"
#include "papers/text/icu.hpp"

namespace gallipot::text {

namespace {

struct CloseBidi {
    void operator()(UBiDi* bidi) const { ubidi_close(bidi); }
};

}  // namespace

bool has_right_to_left(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const diag::Character character = diag::character_at(text, at);
        at += character.bytes;
        const UCharDirection direction = u_charDirection(static_cast<UChar32>(character.code));
        if (direction == U_RIGHT_TO_LEFT || direction == U_RIGHT_TO_LEFT_ARABIC) return true;
    }
    return false;
}

bool runs_right_to_left(const std::string& language) {
    return uloc_isRightToLeft(language.c_str()) != 0;
}

std::vector<DirectionRun> visual_runs(std::string_view paragraph, std::size_t begin,
                                      std::size_t end, bool right_to_left) {
    icu::UnicodeString units;
    std::vector<std::size_t> byte_of;  // of each unit, and of the end
    for (std::size_t at = 0; at < paragraph.size();) {
        const diag::Character character = diag::character_at(paragraph, at);
        const auto before = units.length();
        units.append(static_cast<UChar32>(character.code));
        byte_of.resize(byte_of.size() + static_cast<std::size_t>(units.length() - before), at);
        at += character.bytes;
    }
    byte_of.push_back(paragraph.size());
    const auto unit_at = [&](std::size_t byte) {
        return static_cast<int32_t>(std::ranges::lower_bound(byte_of, byte) - byte_of.begin());
    };
    UErrorCode status = U_ZERO_ERROR;
    const std::unique_ptr<UBiDi, CloseBidi> bidi(ubidi_open()), line(ubidi_open());
    if (!bidi || !line) throw std::bad_alloc();
    ubidi_setPara(bidi.get(), units.getBuffer(), units.length(),
                  right_to_left ? UBiDiLevel{1} : UBiDiLevel{0}, nullptr, &status);
    const int32_t first = unit_at(begin);
    ubidi_setLine(bidi.get(), first, unit_at(end), line.get(), &status);
    const int32_t count = ubidi_countRuns(line.get(), &status);
    require(status, "ordering a line");
    std::vector<DirectionRun> runs;
    for (int32_t i = 0; i < count; ++i) {
        int32_t start = 0, length = 0;
        const UBiDiDirection direction = ubidi_getVisualRun(line.get(), i, &start, &length);
        runs.push_back({byte_of[static_cast<std::size_t>(first + start)],
                        byte_of[static_cast<std::size_t>(first + start + length)],
                        direction == UBIDI_RTL});
    }
    return runs;
}

std::string isolated(const std::string& text, bool among) {
    const bool figure = std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
    if (figure || (!among && !has_right_to_left(text))) return text;
    const bool of_pieces = among && has_isolates(text);
    return diag::utf8(of_pieces ? right_to_left_isolate : first_strong_isolate) + text +
           diag::utf8(pop_isolate);
}

bool has_isolates(std::string_view text) {
    return text.find(diag::utf8(pop_isolate)) != std::string_view::npos;
}

std::string without_isolates(std::string text) {
    for (const char32_t character : {right_to_left_isolate, first_strong_isolate, pop_isolate}) {
        const std::string one = diag::utf8(character);
        for (auto at = text.find(one); at != std::string::npos; at = text.find(one, at))
            text.erase(at, one.size());
    }
    return text;
}

char32_t mirrored(char32_t character) {
    return static_cast<char32_t>(u_charMirror(static_cast<UChar32>(character)));
}

}  // namespace gallipot::text
