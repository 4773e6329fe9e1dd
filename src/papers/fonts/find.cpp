#include <filesystem>
#include <fmt/core.h>
#include <fmt/ranges.h>

#include "base/system/files.hpp"
#include "base/system/parallel.hpp"
#include "domain/yaml/node.hpp"
#include "papers/fonts/about.hpp"
#include "papers/fonts/fonts.hpp"
#include "papers/fonts/script_fonts.hpp"

namespace gallipot::fonts {

namespace {

/// What fonts/fonts.yaml says.
struct List {
    std::string regular, bold;         ///< file names
    std::vector<std::string> folders;  ///< where a system keeps them
    std::vector<ScriptFiles> scripts;
    About about;
};

List read_list(const std::string& path) {
    const std::string text = system::read_file(path);
    const auto source = std::make_shared<const diag::Source>(diag::Source{path, text});
    diag::Diagnostics found;
    const yaml::Node root = yaml::read(source, found);
    if (found.has_errors()) throw FontError{diag::print(found)};

    const auto scalar = [&](const yaml::Node* parent, std::string_view key) {
        const yaml::Node* node = parent == nullptr ? nullptr : parent->find(key);
        if (node == nullptr || node->kind != yaml::Kind::scalar || node->text.empty()) {
            throw FontError{fmt::format("the list of fonts {} gives no '{}'", path, key)};
        }
        return node->text;
    };
    const yaml::Node* faces = root.find("faces");
    const auto items = [&](std::string_view key) {
        std::vector<std::string> all;
        if (const yaml::Node* node = root.find(key); node != nullptr) {
            for (const yaml::Node& item : node->items) all.push_back(item.text);
        }
        return all;
    };
    List list{scalar(faces, "regular"), scalar(faces, "bold"), items("folders"), {}, {}};
    if (const yaml::Node* scripts = root.find("other scripts"); scripts != nullptr)
        for (const yaml::Node& one : scripts->items) {
            const yaml::Node* bold = one.find("bold");
            list.scripts.push_back({scalar(&one, "script"), scalar(&one, "regular"),
                                    bold == nullptr ? "" : bold->text, scalar(&one, "package")});
        }
    list.about = {items("scripts"), "", scalar(&root, "package")};
    if (root.find("licence") != nullptr) list.about.licence = scalar(&root, "licence");
    return list;
}

std::shared_ptr<const Font> open(const List& list, const std::string& name) {
    for (const std::string& folder : list.folders) {
        const auto path = std::filesystem::path(folder) / name;
        auto bytes = system::read_if_there(path);
        if (!bytes) continue;
        try {
            return std::make_shared<const Font>(path.string(), std::move(*bytes));
        } catch (const FontError& error) {
            throw FontError{
                fmt::format("{}; put a good one in its place, or install the package {} again",
                            error.what(), list.about.package)};
        }
    }
    throw FontError{fmt::format(
        "the font file {} is in none of these folders: {}; install the package {}, or name a "
        "folder that holds it in GALLIPOT_FONTS",
        name, fmt::join(list.folders, ", "), list.about.package)};
}

}  // namespace

About about(const std::string& list_path) {
    return read_list(list_path).about;
}

Faces find(const std::string& list_path, const std::string& own_folder, std::size_t threads) {
    try {
        List list = read_list(list_path);
        if (!own_folder.empty()) list.folders.insert(list.folders.begin(), own_folder);
        Faces faces;
        system::in_parallel(2, threads, [&](std::size_t i) {
            (i == 0 ? faces.regular : faces.bold) = open(list, i == 0 ? list.regular : list.bold);
        });
        faces.others = std::make_shared<const ScriptFonts>(list.scripts, list.folders);
        return faces;
    } catch (const system::SystemError& error) {
        throw FontError{error.what()};
    }
}

}  // namespace gallipot::fonts
