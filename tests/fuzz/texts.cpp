#include <fstream>

#include "folder.hpp"
#include "fuzz.hpp"
#include "loaded.hpp"
#include "papers/text/catalog.hpp"

/// A user's own file of texts: read, held against the shipped ones, and every message written. It
/// stands in a folder, for that is how a catalog reads its files.
namespace gallipot::fuzz {
namespace {

/// A value of any kind for an argument, by its name; a date only where it can be written.
text::Value value_for(const std::string& name, bool dates) {
    switch (way(name, dates ? 4 : 3)) {
        case 0:
            return std::int64_t{3};
        case 1:
            return 0.25;
        case 2:
            return std::string("<b>{x}'");
        default:
            return std::chrono::year_month_day(std::chrono::year(2027), std::chrono::March,
                                               std::chrono::day(2));
    }
}

}  // namespace
}  // namespace gallipot::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    static const tests::Folder folder;
    static const std::string file = (folder / "text/en.yaml").string();
    static const bool made = std::filesystem::create_directories(folder / "text");
    require(made, "there is a folder to write to");
    std::ofstream(file, std::ios::binary) << text_of(data, size);

    diag::Diagnostics found;
    const text::Catalog catalog((folder / "").string(), "en", "AU", found);
    check_told(found);
    if (found.has_errors()) return 0;
    text::compare(*words("en", "AU"), catalog, found);
    for (const std::string& key : catalog.keys()) {
        if (key.starts_with("format.")) continue;
        text::Arguments arguments;
        for (const std::string& name : catalog.shape(key).arguments)
            arguments.emplace_back(name, value_for(name, catalog.has("format.date")));
        try {
            static_cast<void>(catalog.rich(key, arguments));
        } catch (const std::runtime_error&) {
            // A word where a message wants a number: compare() holds those against the shipped
            // ones.
        }
    }
    return 0;
}
