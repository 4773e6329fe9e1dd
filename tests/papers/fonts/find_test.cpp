#include <filesystem>
#include <fstream>

#include "catch_all.hpp"

#include "papers/fonts/fonts.hpp"

using namespace gallipot;
namespace fs = std::filesystem;

namespace {

/// A folder that goes away with the test.
struct Folder {
    fs::path path = fs::temp_directory_path() / "gallipot-fonts-test";
    Folder() {
        fs::remove_all(path);
        fs::create_directories(path);
    }
    ~Folder() { fs::remove_all(path); }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    [[nodiscard]] std::string write(const std::string& name, const std::string& text) const {
        std::ofstream(path / name, std::ios::binary) << text;
        return (path / name).string();
    }
};

std::string message_of(const std::string& list, const std::string& own_folder = {}) {
    try {
        fonts::find(list, own_folder);
    } catch (const fonts::FontError& error) {
        return error.what();
    }
    return "found";
}

const std::string shipped_list = GALLIPOT_SOURCE_DIR "/fonts/fonts.yaml";

}  // namespace

TEST_CASE("the shipped list finds both faces") {
    const fonts::Faces faces = fonts::find(shipped_list);
    CHECK(fs::path(faces.regular->path()).filename() == "NotoSans-Regular.ttf");
    CHECK(fs::path(faces.bold->path()).filename() == "NotoSans-Bold.ttf");
}

TEST_CASE("the user's own folder comes first, and need not hold every face") {
    const Folder folder;
    const fonts::Faces system_faces = fonts::find(shipped_list);
    fs::copy_file(system_faces.bold->path(), folder.path / "NotoSans-Regular.ttf");
    const fonts::Faces faces = fonts::find(shipped_list, folder.path.string());
    CHECK(fs::path(faces.regular->path()).parent_path() == folder.path);
    CHECK(faces.regular->advance("DANGER") == system_faces.bold->advance("DANGER"));
    CHECK(faces.bold->path() == system_faces.bold->path());
}

TEST_CASE("a missing font says where it was looked for and what to install") {
    const Folder folder;
    const std::string list = folder.write("list.yaml",
                                          "faces: { regular: NoSuch.ttf, bold: NoSuch.ttf }\n"
                                          "folders: [/no/such/folder]\n"
                                          "package: some-package\n");
    CHECK(message_of(list, "/nor/this") ==
          "the font file NoSuch.ttf is in none of these folders: /nor/this, /no/such/folder; "
          "install the package some-package, or name a folder that holds it in GALLIPOT_FONTS");
}

TEST_CASE("a list that cannot be used says why") {
    const Folder folder;
    CHECK_THAT(message_of((folder.path / "none.yaml").string()),
               Catch::Matchers::ContainsSubstring("none.yaml"));
    CHECK_THAT(message_of(folder.write("bad.yaml", "faces: [\n")),
               Catch::Matchers::ContainsSubstring("bad.yaml"));
    CHECK_THAT(message_of(folder.write("bare.yaml", "faces: { regular: a.ttf }\n")),
               Catch::Matchers::ContainsSubstring("gives no 'bold'"));
}

TEST_CASE("a file that is no font, or not one libharu can embed, is refused by name") {
    const Folder folder;
    const std::string text = folder.write("text.ttf", "not a font");
    try {
        const fonts::Font font(text);
        FAIL("taken for a font");
    } catch (const fonts::FontError& error) {
        CHECK(error.what() == text + " is not a font file");
    }
    CHECK_THROWS_AS(fonts::Font((folder.path / "none.ttf").string()), fonts::FontError);
}

TEST_CASE("a font that was cut short or overwritten is told, and what to do") {
    const Folder folder;
    std::ifstream in(fonts::find(shipped_list).regular->path(), std::ios::binary);
    const std::string whole{std::istreambuf_iterator<char>(in), {}};
    std::string one_bit = whole;
    one_bit[whole.size() / 2] = static_cast<char>(one_bit[whole.size() / 2] ^ 1);
    for (const auto& broken : {whole.substr(0, whole.size() / 2), one_bit, std::string(),
                               std::string(5000, '\0'), std::string("no font")}) {
        static_cast<void>(folder.write("NotoSans-Regular.ttf", broken));
        CHECK_THAT(message_of(shipped_list, folder.path.string()),
                   Catch::Matchers::ContainsSubstring("NotoSans-Regular.ttf is") &&
                       Catch::Matchers::ContainsSubstring("put a good one in its place") &&
                       Catch::Matchers::ContainsSubstring("fonts-noto-core"));
    }
    static_cast<void>(folder.write("NotoSans-Regular.ttf", whole));
    CHECK(message_of(shipped_list, folder.path.string()) == "found");
}
