#include <algorithm>
#include <cstdint>
#include <cstring>
#include <random>
#include <string>
#include <vector>

#include "domain/job/keys.hpp"

/// Changes for files of lines and values, so that more of what the fuzzer makes is read to its end:
/// every other time another value, a line twice, gone or elsewhere.
extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t maximum);

namespace {

const std::vector<std::string>& values() {
    static const std::vector<std::string> all = [] {
        std::vector<std::string> words{"",
                                       "~",
                                       "[]",
                                       "{}",
                                       "-1",
                                       "0",
                                       "1e9",
                                       "010",
                                       "1,5",
                                       "rest",
                                       "true",
                                       "'1'",
                                       "999999999",
                                       "0.000001",
                                       "[[1, 2]]",
                                       "1/3",
                                       "100 %",
                                       "1 min",
                                       "1826 d",
                                       "0 mL",
                                       "9999-12-31",
                                       "1000-01-01",
                                       "K1-1",
                                       "&a x",
                                       "*a",
                                       "- x",
                                       "1000000",
                                       "left",
                                       "{n, plural, one {#} other {#}}",
                                       "<b>x</b>"};
        for (const auto& key : gallipot::job::keys()) {
            words.emplace_back(key.example);
            for (const auto& word : key.words()) words.push_back(word);
        }
        return words;
    }();
    return all;
}

std::vector<std::string> lines_of(const std::string& text) {
    std::vector<std::string> lines;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find('\n', from), text.size());
        lines.push_back(text.substr(from, end - from));
        from = end + 1;
    }
    if (lines.empty()) lines.emplace_back();
    return lines;
}

/// Puts `with` where a value stands: from a colon, or the beginning of a list's entry, to what ends
/// it.
void change_value(std::string& line, const std::string& with, std::mt19937& random) {
    const auto from = line.find_first_of(":[,", random() % (line.size() + 1));
    if (from == std::string::npos) return;
    const auto to = std::min(line.find_first_of(",]}", from + 1), line.size());
    line.replace(from + 1, to - from - 1, " " + with);
}

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size,
                                               std::size_t maximum, unsigned seed) {
    std::mt19937 random(seed);
    if (random() % 2 == 0) return LLVMFuzzerMutate(data, size, maximum);
    auto lines = lines_of(std::string(data, data + size));
    for (auto edits = 1 + random() % 3; edits > 0; --edits) {
        const auto at = random() % lines.size();
        const auto other = random() % lines.size();
        switch (random() % 6) {
            case 0:
                lines[at].clear();
                break;
            case 1:
                lines.insert(lines.begin() + static_cast<std::ptrdiff_t>(at),
                             std::string(lines[other]));
                break;
            case 2:
                std::swap(lines[at], lines[other]);
                break;
            default:
                change_value(lines[at], values()[random() % values().size()], random);
        }
    }
    std::string text;
    for (const auto& line : lines) text += line + '\n';
    text.resize(std::min(text.size(), maximum));
    std::copy(text.begin(), text.end(), data);
    return text.size();
}
