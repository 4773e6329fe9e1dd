#include "papers/templates/library.hpp"

#include <filesystem>
#include <fstream>
#include <unistd.h>

#include "catch_all.hpp"

#include "papers/templates/found.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using units::in_mm;

namespace {

const std::filesystem::path ours = GALLIPOT_SOURCE_DIR "/templates";

/// A templates folder of a user's own, which goes away with the test.
class OwnFolder {
  public:
    OwnFolder() {
        path_ = std::filesystem::temp_directory_path() /
                ("gallipot-templates-" + std::to_string(getpid()));
        std::filesystem::create_directories(path_ / "stocks");
        std::filesystem::create_directories(path_ / "labels");
    }
    ~OwnFolder() {
        std::error_code ignored;
        std::filesystem::remove_all(path_, ignored);
    }
    OwnFolder(const OwnFolder&) = delete;
    OwnFolder& operator=(const OwnFolder&) = delete;
    void write(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name) << text;
    }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

}  // namespace

TEST_CASE("every shipped stock is read, lies on its page, and has a design of its shape") {
    const templates::Library library({ours});
    const auto names = library.stock_names();
    int a4 = 0, letter = 0;
    for (const auto& name : names) {
        INFO(name);
        diag::Diagnostics found;
        const auto stock = library.stock({name, {}}, found);
        REQUIRE(stock);
        CHECK(library.design(*stock, found));
        CHECK(listed(found) == "");
        CHECK_FALSE(stock->about.empty());
        const auto reach = [](auto start, auto size, auto gap, int count) {
            return in_mm(start) + count * in_mm(size) + (count - 1) * in_mm(gap);
        };
        CHECK(reach(stock->left, stock->label_width, stock->gap_across, stock->columns) <=
              in_mm(stock->page_width) + 1e-6);
        CHECK(reach(stock->top, stock->label_height, stock->gap_down, stock->rows) <=
              in_mm(stock->page_height) + 1e-6);
        a4 += name.starts_with("a4-") ? 1 : 0;
        letter += name.starts_with("letter-") ? 1 : 0;
        // Its name is its geometry: columns and rows, or size and dots.
        if (stock->shape == templates::Shape::rectangle && stock->per_page() > 1)
            CHECK(
                name.ends_with(std::to_string(stock->columns) + "x" + std::to_string(stock->rows)));
        if (stock->dots_per_inch)
            CHECK(name.ends_with(std::to_string(static_cast<int>(*stock->dots_per_inch))));
    }
    CHECK(names.size() >= 30);
    CHECK(a4 >= 8);
    CHECK(letter >= 8);
}

TEST_CASE("a stock that is not there is answered with the nearest name") {
    const templates::Library library({ours});
    diag::Diagnostics found;
    CHECK_FALSE(library.stock({"a4-3x77", {}}, found));
    REQUIRE(found.in_order().size() == 1);
    CHECK(found.in_order()[0].code == "unknown-stock");
    CHECK(found.in_order()[0].hint.english() == "did you mean 'a4-3x7'?");
    CHECK_FALSE(library.stock({"../stocks/a4-3x7", {}}, found));  // no path out of the folder
}

TEST_CASE("a user's own stock and design come before ours, and errors point into them") {
    const OwnFolder own;
    const templates::Library library({own.path(), ours});
    own.write("stocks/a4-3x7.yaml",
              "about: mine\nlabel: { width: 80 mm, height: 50 mm }\ndesign: mine\n");
    own.write("labels/mine.yaml", "about: mine\nband: none\n");
    diag::Diagnostics found;
    const auto stock = library.stock({"a4-3x7", {}}, found);
    REQUIRE(stock);
    CHECK(stock->about == "mine");
    CHECK_FALSE(library.design(*stock, found));
    REQUIRE(found.has_errors());
    const auto first = found.in_order().front();
    CHECK(first.place.source->name == (own.path() / "labels/mine.yaml").string());
    CHECK(first.place.line > 0);
}

TEST_CASE("a design made for another shape is refused") {
    const OwnFolder own;
    const templates::Library library({own.path(), ours});
    own.write("stocks/odd.yaml",
              "about: odd\nlabel: { width: 80 mm, height: 50 mm }\ndesign: lid\n");
    diag::Diagnostics found;
    const auto stock = library.stock({"odd", {}}, found);
    REQUIRE(stock);
    CHECK_FALSE(library.design(*stock, found));
    CHECK(listed(found).find("wrong-shape") != std::string::npos);
}

TEST_CASE("the formats as templates/README.md shows them are read without an error") {
    std::ifstream in(GALLIPOT_SOURCE_DIR "/templates/README.md");
    const std::string text{std::istreambuf_iterator<char>(in), {}};
    const auto example = [&](const std::string& heading) {
        const auto begin = text.find("```yaml\n", text.find(heading)) + 8;
        return text.substr(begin, text.find("```", begin) - begin);
    };
    diag::Diagnostics found;
    const auto stock =
        templates::read_stock(file("stock", example("**`stocks/NAME.yaml`**")), "x", found);
    const auto design =
        templates::read_design(file("design", example("**`labels/NAME.yaml`**")), "x", found);
    CHECK(listed(found) == "");
    CHECK(stock.per_page() == 21);
    CHECK(design.words.size() == (design.compact ? 3 : 11));
}
