#include "papers/templates/library.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <set>

#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"

namespace gallipot::templates {

namespace fs = std::filesystem;

namespace {

constexpr auto stocks_folder = "stocks";
constexpr auto designs_folder = "labels";
constexpr auto ending = ".yaml";

/// A name goes into a path: letters, digits, "-" and "_" only.
bool well_formed(const std::string& name) {
    return !name.empty() && std::all_of(name.begin(), name.end(), [](char c) {
        return strings::is_letter_or_digit(c) || c == '-' || c == '_';
    });
}

std::string_view shape_name(Shape shape) {
    return shape == Shape::circle ? "circle" : shape == Shape::strip ? "strip" : "rectangle";
}

}  // namespace

diag::SourcePtr Library::read(const std::string& kind, const std::string& name) const {
    if (!well_formed(name)) return nullptr;
    for (const auto& folder : folders_) {
        const auto path = folder / kind / (name + ending);
        if (auto text = system::read_if_there(path))
            return std::make_shared<diag::Source>(diag::Source{path.string(), std::move(*text)});
    }
    return nullptr;
}

std::vector<std::string> Library::names(const std::string& kind) const {
    std::set<std::string> found;
    for (const auto& folder : folders_) {
        std::error_code none;
        for (const auto& entry : fs::directory_iterator(folder / kind, none)) {
            const auto stem = entry.path().stem().string();
            if (entry.path().extension() == ending && well_formed(stem)) found.insert(stem);
        }
    }
    return {found.begin(), found.end()};
}

std::vector<std::string> Library::stock_names() const {
    return names(stocks_folder);
}

std::optional<Stock> Library::stock(const diag::At<std::string>& wanted,
                                    diag::Diagnostics& out) const {
    const auto file = read(stocks_folder, *wanted);
    if (file == nullptr) {
        const auto known = stock_names();
        const auto near = diag::nearest(*wanted, known);
        std::string all;
        for (const auto& one : known) all += (all.empty() ? "" : ", ") + one;
        out.error("unknown-stock", wanted.place,
                  diag::say("there is no label sheet called '{}'", *wanted),
                  near.empty() ? diag::say("use one of: {}", all)
                               : diag::say("did you mean '{}'?", near));
        return {};
    }
    diag::Diagnostics found;
    auto stock = read_stock(file, *wanted, found);
    out.append(found);
    if (found.has_errors()) return {};
    return stock;
}

std::optional<Design> Library::design(const Stock& stock, diag::Diagnostics& out) const {
    const auto file = read(designs_folder, stock.design);
    if (file == nullptr) {
        const auto known = names(designs_folder);
        const auto near = diag::nearest(stock.design, known);
        std::string all;
        for (const auto& one : known) all += (all.empty() ? "" : ", ") + one;
        out.error("unknown-design", stock.place,
                  diag::say("there is no label design called '{}'", stock.design),
                  near.empty() ? diag::say("use one of: {}", all)
                               : diag::say("did you mean '{}'?", near));
        return {};
    }
    diag::Diagnostics found;
    auto design = read_design(file, stock.design, found);
    out.append(found);
    if (found.has_errors()) return {};
    if (design.shape != stock.shape) {
        out.error("wrong-shape", stock.place,
                  diag::say("stock '{}' is a {}, but its design '{}' is made for a {}", stock.name,
                            shape_name(stock.shape), design.name, shape_name(design.shape)),
                  diag::say("name a design whose shape is {}", shape_name(stock.shape)));
        return {};
    }
    return design;
}

std::vector<Stock> Library::stocks() const {
    std::vector<Stock> good;
    for (const auto& name : stock_names()) {
        diag::Diagnostics found;
        if (auto one = stock({name, {}}, found)) good.push_back(std::move(*one));
    }
    return good;
}

}  // namespace gallipot::templates
