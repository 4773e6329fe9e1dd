#include "app/session.hpp"
#include "base/diag/utf8.hpp"
#include "base/system/files.hpp"

namespace gallipot::app {
namespace fs = std::filesystem;

fs::path installed_in() {
    return system::program_path().parent_path().parent_path();
}

DataFolders find_data(const fs::path& own_templates) {
    const fs::path share = installed_in() / "share" / "gallipot";
    std::error_code ignored;
    if (!fs::is_directory(share / "templates", ignored) ||
        !fs::is_directory(share / "fonts", ignored))
        throw system::SystemError("cannot find gallipot's templates and fonts in " +
                                  diag::quoted(share.string()) + "; install gallipot again");
    if (!own_templates.empty() && !fs::is_directory(own_templates, ignored))
        throw system::UsageError("cannot read the folder " + diag::quoted(own_templates.string()) +
                                 " given with --templates; check the name");
    return {own_templates.empty() ? std::nullopt : std::optional(own_templates),
            share / "templates", share / "fonts", share / "examples"};
}

std::string web_file(const DataFolders& data, const char* file) {
    const fs::path name = fs::path("web") / file;
    if (data.own_templates)
        if (auto own = system::read_if_there(*data.own_templates / name)) {
            if (own->find("</") == std::string::npos) return *own;
            throw system::SystemError{
                "'" + (*data.own_templates / name).string() +
                "' holds \"</\", which no style sheet or script of a page may; "
                "take it out"};
        }
    return system::read_file(data.templates / name);
}

}  // namespace gallipot::app
