#pragma once

#include <filesystem>
#include <map>
#include <sstream>
#include <vector>

#include "catch_all.hpp"

#include "base/system/files.hpp"
#include "cli/command.hpp"
#include "folder.hpp"

namespace gallipot::tests {

/// What a command answered.
struct Ran {
    int exit = 0;
    std::string out, err;

    [[nodiscard]] bool says(const std::string& part) const {
        return out.find(part) != std::string::npos;
    }
    [[nodiscard]] bool complains(const std::string& part) const {
        return err.find(part) != std::string::npos;
    }
};

/// The hall of the examples in a folder of its own, and the command line.
class Hall {
  public:
    Hall() {
        std::filesystem::copy_file(
            std::filesystem::path(GALLIPOT_SOURCE_DIR) / "examples" / "hall.yaml", job);
    }

    using Variables = std::map<std::string, std::string>;

    static Ran run(const std::vector<std::string>& arguments, const Variables& variables = {},
                   const cli::Terminals& terminals = {}) {
        std::vector<const char*> words{"gallipot"};
        for (const std::string& argument : arguments) words.push_back(argument.c_str());
        std::ostringstream out;
        std::ostringstream err;
        cli::Environment environment{out, err,
                                     [&](const char* name) -> std::optional<std::string> {
                                         const auto found = variables.find(name);
                                         if (found == variables.end()) return std::nullopt;
                                         return found->second;
                                     },
                                     terminals};
        const auto exit = cli::run(static_cast<int>(words.size()), words.data(), environment);
        return {static_cast<int>(exit), out.str(), err.str()};
    }
    /// `gallipot visit` at a fixed time, so that the log's text can be compared.
    [[nodiscard]] Ran visit(const std::string& station, std::vector<std::string> more) const {
        more.insert(more.begin(), {"visit", job, station, "--at", "2026-03-18 08:05"});
        return run(more);
    }
    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        system::write_whole(folder / name, text);
        return folder / name;
    }

    Folder folder;
    const std::string job = folder / "hall.yaml";
};

}  // namespace gallipot::tests
