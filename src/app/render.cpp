#include "app/render.hpp"

#include "base/system/files.hpp"

namespace gallipot::app {

std::vector<std::filesystem::path> write_papers(const Papers& papers,
                                                const std::filesystem::path& folder,
                                                const Resources& resources,
                                                const std::function<void()>& one_drawn) {
    // All is drawn, out of sight, before anything is put in its place: a fault leaves no half a
    // set, and of a large one no more is kept than what is being drawn.
    const auto names = files_of(papers);
    system::make_folder(folder);
    system::FileSet set;
    draw(papers, resources, [&](std::size_t file, std::string_view bytes) {
        const bool opens_all = names[file].starts_with("caretaker-");
        set.add(folder / names[file], bytes,
                opens_all ? system::Privacy::owner_only : system::Privacy::shared);
        one_drawn();
    });
    set.put_in_place();
    std::vector<std::filesystem::path> written;
    written.reserve(names.size());
    for (const auto& name : names) written.push_back(folder / name);
    return written;
}

}  // namespace gallipot::app
