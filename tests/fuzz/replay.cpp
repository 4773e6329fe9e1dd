#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <vector>

#include "fuzz.hpp"

/// Gives every file of the folders named to the target, so that what a fuzzer once found stays
/// mended. A fault ends the program with the name of the seed last on standard output.
int main(int argc, char** argv) {
    gallipot::fuzz::thorough = true;
    std::size_t seeds = 0;
    for (int i = 1; i < argc; ++i) {
        std::vector<std::filesystem::path> files;
        for (const auto& entry : std::filesystem::directory_iterator(argv[i]))
            if (entry.is_regular_file()) files.push_back(entry.path());
        std::sort(files.begin(), files.end());
        for (const auto& file : files) {
            std::printf("%s\n", file.c_str());
            std::fflush(stdout);
            std::ifstream in(file, std::ios::binary);
            const std::vector<char> bytes{std::istreambuf_iterator<char>(in), {}};
            const std::vector<std::uint8_t> data(bytes.begin(), bytes.end());
            try {
                LLVMFuzzerTestOneInput(data.data(), data.size());
            } catch (const std::exception& error) {
                std::fprintf(stderr, "an exception that nothing declares: %s\n", error.what());
                return 1;
            }
            ++seeds;
        }
    }
    std::printf("%zu seeds\n", seeds);
    return seeds > 0 ? 0 : 1;
}
