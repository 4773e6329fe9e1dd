#include <cstdio>
#include <filesystem>

#include "base/system/files.hpp"
#include "papers/text/catalog.hpp"
#include "papers/text/compiled_catalog.hpp"
#include "papers/text/messages.hpp"

/// Part of the build: compiles the catalogs of all languages of a templates folder.
///
///     compile_catalogs TEMPLATES  for TEMPLATES/text/*.yaml, into compiled/ beside TEMPLATES
int main(int argc, char** argv) {
    using namespace gallipot;
    if (argc != 2) return 2;
    const std::string folder = argv[1];
    try {
        for (const auto& language : text::languages(folder)) {
            diag::Diagnostics found;
            const text::Catalog checked(folder, language, "", found);
            const auto messages = text::read_messages({folder}, language, "", found);
            if (found.has_errors()) {
                std::fputs(diag::print(found).c_str(), stderr);
                return 1;
            }
            const std::filesystem::path path = text::compiled_path(folder, language);
            system::make_folder(path.parent_path());
            const auto yaml =
                system::read_file(std::filesystem::path(folder) / "text" / (language + ".yaml"));
            system::write_whole(path, text::compiled_catalog(messages, yaml));
        }
    } catch (const system::SystemError& error) {
        std::fprintf(stderr, "%s\n", error.what());
        return 3;
    }
    return 0;
}
