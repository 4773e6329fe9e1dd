#pragma once

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>

namespace gallipot::tests {

/// What another program, sqlite3, says when it runs `statements` on a file.
inline std::string run_sql(const std::filesystem::path& file, const std::string& statements) {
    const std::string script = file.string() + ".sql";
    std::ofstream(script) << statements;
    const std::string command = "sqlite3 '" + file.string() + "' <'" + script + "' 2>&1";
    std::string answer;
    FILE* pipe = ::popen(command.c_str(), "r");
    if (pipe == nullptr) return "sqlite3 does not run";
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) answer += static_cast<char>(c);
    ::pclose(pipe);
    std::filesystem::remove(script);
    return answer;
}

}  // namespace gallipot::tests
