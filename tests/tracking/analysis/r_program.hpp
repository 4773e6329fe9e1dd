#pragma once

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>
#include <string>
#include <unistd.h>
#include <vector>

#include "catch_all.hpp"

/// R, the statistics program, as the reference for the analysis (Debian: r-base-core).
namespace gallipot::tests {

/// What R's "NA" reads as is no number.
inline double number_of_r(const std::string& text) {
    return text == "NA" ? std::numeric_limits<double>::quiet_NaN() : std::stod(text);
}

/// StyledText `script` of tests/tracking/analysis over a CSV file of `table`; the lines it prints
/// after its heading, split at commas.
inline std::vector<std::vector<std::string>> run_r(const std::string& script,
                                                   const std::string& table) {
    const auto in = std::filesystem::temp_directory_path() /
                    ("gallipot-" + script + "-" + std::to_string(::getpid()) + ".csv");
    std::ofstream(in) << table;
    const std::string command = "Rscript --vanilla '" GALLIPOT_SOURCE_DIR
                                "/tests/tracking/analysis/" +
                                script + "' '" + in.string() + "'";
    std::FILE* pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) text += static_cast<char>(c);
    INFO("R runs as Rscript; on Debian: apt-get install r-base-core");
    REQUIRE(::pclose(pipe) == 0);
    std::filesystem::remove(in);
    std::istringstream lines(text);
    std::string line;
    std::getline(lines, line);
    std::vector<std::vector<std::string>> rows;
    while (std::getline(lines, line)) {
        std::istringstream fields(line);
        rows.emplace_back();
        for (std::string field; std::getline(fields, field, ',');) rows.back().push_back(field);
    }
    return rows;
}

}  // namespace gallipot::tests
