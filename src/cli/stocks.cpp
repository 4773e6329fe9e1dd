#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <memory>
#include <numbers>
#include <ostream>

#include "cli/figure.hpp"
#include "cli/messages.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"
#include "papers/templates/library.hpp"

namespace gallipot::cli {
namespace {

using templates::Shape;
using templates::Stock;

std::vector<Stock> stocks(const app::DataFolders& data) {
    std::vector<std::filesystem::path> folders;
    if (data.own_templates) folders.push_back(*data.own_templates);
    folders.push_back(data.templates);
    return templates::Library(folders).stocks();
}

/// The widest round wall that a strip goes round, overlap and all.
units::Length widest_body(const Stock& stock) {
    return (stock.label_width - stock.overlap) / std::numbers::pi;
}
/// The narrowest round wall that a flat label does not meet itself on.
units::Length narrowest_body(const Stock& stock) {
    return stock.label_width / std::numbers::pi;
}

const char* word(Shape shape) {
    switch (shape) {
        case Shape::rectangle:
            return "rectangle";
        case Shape::circle:
            return "circle";
        case Shape::strip:
            break;
    }
    return "strip";
}

Json json(const Stock& stock) {
    const auto mm = [](units::Length length) { return figure(units::in_mm(length)); };
    Json fits;
    if (stock.shape == Shape::circle) fits["lid_least_mm"] = mm(stock.label_width);
    if (stock.shape == Shape::strip) fits["wall_diameter_most_mm"] = mm(widest_body(stock));
    if (stock.shape == Shape::rectangle) fits["wall_diameter_least_mm"] = mm(narrowest_body(stock));
    if (stock.shape != Shape::circle) fits["wall_height_least_mm"] = mm(stock.label_height);
    return {{"name", stock.name},
            {"about", stock.about},
            {"shape", word(stock.shape)},
            {"label_width_mm", mm(stock.label_width)},
            {"label_height_mm", mm(stock.label_height)},
            {"page_width_mm", mm(stock.page_width)},
            {"page_height_mm", mm(stock.page_height)},
            {"columns", stock.columns},
            {"rows", stock.rows},
            {"cut_marks", stock.cut_marks},
            {"dots_per_inch", figure(stock.dots_per_inch)},
            {"design", stock.design},
            {"fits", std::move(fits)}};
}

class List {
  public:
    explicit List(const text::Catalog& words) : words_(words) {}

    [[nodiscard]] std::string text(const std::vector<Stock>& stocks,
                                   const Terminal& terminal) const {
        Table table({{say("name"), false, true},
                     {say("label"), true},
                     {say("per_page"), true},
                     {say("about")},
                     {say("fits")}});
        for (const Stock& stock : stocks)
            table.row({stock.name, label(stock),
                       words_.number(stock.per_page(), text::Figures::whole), stock.about,
                       fits(stock)});
        return table.text(terminal, words_.language());
    }

  private:
    [[nodiscard]] std::string say(const char* key, const text::Arguments& arguments = {}) const {
        return words_(std::string("terminal.list.") + key, arguments);
    }
    [[nodiscard]] std::string mm(units::Length length) const {
        const double value = units::in_mm(length);
        const bool whole = std::abs(value - std::round(value)) < 0.05;
        return words_.number(value, whole ? text::Figures::whole : text::Figures::one_decimal);
    }
    [[nodiscard]] std::string label(const Stock& stock) const {
        if (stock.shape == Shape::circle) return say("round", {{"across", mm(stock.label_width)}});
        if (stock.shape == Shape::strip)
            return say("strip",
                       {{"length", mm(stock.label_width)}, {"height", mm(stock.label_height)}});
        return mm(stock.label_width) + " × " + mm(stock.label_height);
    }
    [[nodiscard]] std::string fits(const Stock& stock) const {
        if (stock.shape == Shape::circle)
            return say("fits_lid", {{"across", mm(stock.label_width)}});
        const bool strip = stock.shape == Shape::strip;
        return say(strip ? "fits_strip" : "fits_wall",
                   {{"height", mm(stock.label_height)},
                    {"across", mm(strip ? widest_body(stock) : narrowest_body(stock))}});
    }

    const text::Catalog& words_;
};

}  // namespace

void add_stocks(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string templates;
        bool json = false;
    };
    auto* command = app.add_subcommand("stocks", "The label sheets there are, by their geometry");
    auto options = std::make_shared<Options>();
    command->add_flag("--json", options->json, "As JSON, lengths in mm, for programs");
    command->add_option("--templates", options->templates, "Also those in a folder of your own");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            const app::DataFolders data = app::find_data(options->templates);
            const auto all = stocks(data);
            if (options->json) {
                Json list = Json::array();
                for (const Stock& stock : all) list.push_back(json(stock));
                environment.out << Json{{"stocks", std::move(list)}}.dump(2) << '\n';
                return ExitCode::ok;
            }
            diag::Diagnostics found;
            const text::Catalog words = words_for_person(data, environment, found);
            if (found.has_errors()) {
                environment.err << print(found, data, environment);
                return ExitCode::bad_input;
            }
            environment.out << List(words).text(all, terminal_of_results(environment));
            return ExitCode::ok;
        };
    });
}

}  // namespace gallipot::cli
