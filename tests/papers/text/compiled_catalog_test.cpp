#include "papers/text/compiled_catalog.hpp"

#include "catch_all.hpp"

#include "../../folder.hpp"
#include "base/system/files.hpp"
#include "golden.hpp"
#include "papers/text/catalog.hpp"

using namespace gallipot;

namespace {

const std::string templates = GALLIPOT_SOURCE_DIR "/templates";

diag::SourcePtr source_of(const std::string& text) {
    return std::make_shared<const diag::Source>(diag::Source{"en.yaml", text});
}

}  // namespace

TEST_CASE("a compiled catalog holds the texts, each with its place") {
    for (const auto& language : text::languages(templates)) {
        diag::Diagnostics out;
        const auto read = text::read_messages({templates}, language, "", out);
        REQUIRE_FALSE(out.has_errors());
        const auto yaml = tests::slurp(templates + "/text/" + language + ".yaml");
        const auto back = text::read_compiled(text::compiled_catalog(read, yaml), source_of(yaml));
        REQUIRE(back);
        REQUIRE(back->size() == read.size());
        for (const auto& [key, message] : read) {
            const auto& other = back->at(key);
            INFO(key);
            CHECK(other.text == message.text);
            CHECK(other.place.line == message.place.line);
            CHECK(other.place.column == message.place.column);
            CHECK(other.place.length == message.place.length);
            CHECK(other.checked);
        }
    }
}

TEST_CASE("a catalog compiled from another text, or not whole, counts for nothing") {
    const text::Messages messages{{"a.b", {"text", {}, false}}, {"c", {"{n} mL\nmore", {}, false}}};
    const std::string yaml = "a: { b: text }\n";
    const auto compiled = text::compiled_catalog(messages, yaml);
    REQUIRE(text::read_compiled(compiled, source_of(yaml)));
    CHECK_FALSE(text::read_compiled(compiled, source_of(yaml + " ")));
    CHECK_FALSE(text::read_compiled("gallipot texts 0" + compiled.substr(16), source_of(yaml)));
    for (std::size_t size = 0; size < compiled.size(); ++size)
        CHECK_FALSE(text::read_compiled(compiled.substr(0, size), source_of(yaml)));
    CHECK_FALSE(text::read_compiled(compiled + "x", source_of(yaml)));
}

TEST_CASE("texts come compiled, and from the file itself once it is edited") {
    const tests::Folder folder;
    const std::string yaml = "label: { call: \"Call {phone}\" }\n";
    const auto write = [&](const std::string& name, const std::string& bytes) {
        system::make_folder((folder / name).parent_path());
        system::write_whole(folder / name, bytes);
    };
    write("templates/text/en.yaml", yaml);
    const text::Messages other{{"label.call", {"Ready {phone}", {}, false}}};
    write("compiled/en.catalog", text::compiled_catalog(other, yaml));
    const auto call = [&] {
        diag::Diagnostics out;
        const text::Catalog words((folder / "templates").string(), "en", "", out);
        return words("label.call", {{"phone", std::string("13 11 26")}});
    };
    CHECK(call() == "Ready 13 11 26");
    write("templates/text/en.yaml", yaml + "# edited\n");
    CHECK(call() == "Call 13 11 26");
}
