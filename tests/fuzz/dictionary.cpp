#include <cstdio>
#include <set>
#include <string>

#include "domain/job/keys.hpp"

/// The words of a job file for the fuzzer, from the table of keys: one in quotes a line.
int main() {
    std::set<std::string> words;
    for (const auto& key : gallipot::job::keys()) {
        if (key.name() != "*") words.insert(std::string(key.name()) + ": ");
        for (const auto& word : key.words()) words.insert(word);
        words.emplace(key.example);
    }
    words.erase("");
    for (const auto& word : words) {
        std::string escaped;
        for (const char c : word) {
            if (c == '"' || c == '\\') escaped += '\\';
            escaped += c;
        }
        std::printf("\"%s\"\n", escaped.c_str());
    }
    return 0;
}
