#include "layout/label_fitter.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

#include "layout/label_draw.hpp"
#include "layout/misfit.hpp"
#include "safety/type_sizes.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using document::Part;
using units::in_mm;
using units::mm;

/// Length of a single label on strip stock when the body it goes on is not known.
constexpr double loose_strip = 90;
/// Points; the band is no band with less.
constexpr double smallest_signal = 6;
/// Line distance over type size where no rule sets one: lines must not touch.
constexpr double smallest_leading = 1.1;

Box label_box(const templates::Stock& stock, const Label& label) {
    double width = in_mm(stock.label_width);
    if (stock.shape == templates::Shape::strip)
        width = label.diameter ? std::numbers::pi * in_mm(*label.diameter) + in_mm(stock.overlap)
                               : std::min(width, loose_strip);
    return {0, 0, width, in_mm(stock.label_height)};
}

}  // namespace

LabelFitter::LabelFitter(const LabelStock& stock, const fonts::Faces& faces)
    : stock_(stock), measurer_(faces) {}

const qr::Symbol& LabelFitter::symbol(const Label& label) {
    auto found = symbols_.find(label.code);
    if (found == symbols_.end()) {
        try {
            found = symbols_.emplace(label.code, qr::encode(label.code)).first;
        } catch (const qr::TooLong& error) {
            throw LayoutError({{fmt::format("label {}, code", label.name), error.message,
                                "give log.address, so that the code holds a link", 0, 0}});
        }
    }
    return found->second;
}

const Words& LabelFitter::id(const Label& label) {
    const auto& line = label.find(Part::id)->wordings.front().lines.front();
    auto& known = ids_[text::plain(line)];
    if (known == nullptr)
        known = std::make_shared<Words>(in_bold(line), measurer_.faces(), label.language,
                                        fmt::format("label {}, id", label.name));
    return *known;
}

/// Everything a fit depends on: all but the id's letters and the code's content.
std::string LabelFitter::key(const Label& label) {
    std::string key;
    const auto number = [&](double value) { key += fmt::format("{:.9g}\3", value); };
    for (const auto* one = &label; one != nullptr; one = one->otherwise.get()) {
        key += one->language;
        for (const auto& part : one->parts) {
            if (part.part == Part::id) continue;
            key += static_cast<char>('A' + static_cast<int>(part.part));
            key += part.required ? '!' : '?';
            for (const auto& wording : part.wordings) {
                key += '\4';
                for (const auto& line : wording.lines) {
                    key += '\5';
                    for (const auto& run : line) {
                        key += run.bold ? '\1' : '\2';
                        key += run.text;
                    }
                }
            }
        }
        key += '\6';
    }
    if (label.find(Part::id) != nullptr) number(id_room(id(label)));
    number(label.code.empty() ? 0 : symbol(label).modules);
    for (const auto pictogram : label.pictograms) number(static_cast<int>(pictogram));
    number(static_cast<int>(label.rules));
    number(label.capacity.si());
    number(label.panel ? label.panel->si() : 0);
    number(label.diameter ? label.diameter->si() : 0);
    return key;
}

const std::variant<Fitted, Unfit>& LabelFitter::operator()(const Label& label) {
    auto name = key(label);
    auto found = fitted_.find(name);
    if (found == fitted_.end()) found = fitted_.emplace(std::move(name), fit(label)).first;
    return found->second;
}

std::variant<Fitted, Unfit> LabelFitter::fit(const Label& label) {
    auto result = fit_one(label);
    const auto* unfit = std::get_if<Unfit>(&result);
    const Size lack = unfit != nullptr ? Size{unfit->lack.width, unfit->lack.height} : Size{};
    for (const auto* one = label.otherwise.get(); one != nullptr; one = one->otherwise.get()) {
        if (std::holds_alternative<Fitted>(result)) break;
        result = fit_one(*one);
        if (auto* fitted = std::get_if<Fitted>(&result)) {
            auto report = *fitted->report;
            report.languages_lack = lack;
            fitted->report = std::make_shared<LabelReport>(std::move(report));
        }
    }
    return result;
}

std::variant<Fitted, Unfit> LabelFitter::fit_one(const Label& label) {
    const auto& stock = stock_.stock;
    const auto& design = stock_.design;
    const Box box = label_box(stock, label);
    const auto least = least_types(label, safety::rectangle_panel(mm(box.width), mm(box.height)),
                                   measurer_.faces());
    const auto measured = measurer_(label, design, least);
    const LabelWords& words = *measured;
    const double circumference = stock.shape == templates::Shape::strip && label.diameter
                                     ? std::numbers::pi * in_mm(*label.diameter)
                                     : 0;
    const Canvas canvas{stock, design, measurer_.faces(), box, in_mm(stock.clear), circumference};

    Contents contents{words};
    contents.pictograms = label.pictograms;
    contents.band_least = std::max(least.signal_word, smallest_signal);
    contents.least_leading =
        label.rules == safety::RuleSet::clp_like ? safety::least_line_spacing : smallest_leading;
    const auto sizes = safety::label_size(label.capacity);
    contents.pictogram_least = in_mm(sizes.pictogram);
    contents.pictogram_easy = in_mm(sizes.pictogram_if_possible);
    if (!label.code.empty()) contents.modules = symbol(label).modules;

    auto limits = bounds(canvas, contents);
    if (contents.modules > 0 && label.diameter && stock.shape != templates::Shape::circle) {
        // A code need not grow further round a cup than a phone can see.
        const double widest = qr::width_at_edge_angle(qr::edge_angle_easy, in_mm(*label.diameter));
        limits.largest.module = std::max(
            limits.easy.module, std::min(limits.largest.module, widest / contents.modules));
    }

    const auto arrangement = arrange(canvas, contents);
    const auto found = layout::fit(*arrangement, limits);
    const Size size{box.width, box.height};
    if (const auto* lack = std::get_if<Lack>(&found)) return Unfit{*lack, size, limits.least.size};

    const auto& fit = std::get<Fit>(found);
    LabelReport report;
    report.type_points = fit.trial.size;
    report.easy = fit.easy;
    report.left_out = step_of(words, fit.trial).left_out;
    report.run_in = fit.trial.run_in;
    const auto [shorter, longer] = std::minmax(box.width, box.height);
    if (label.rules == safety::RuleSet::clp_like && !sizes.if_possible &&
        (longer < in_mm(sizes.width) || shorter < in_mm(sizes.height)))
        report.rules_ask = Size{in_mm(sizes.width), in_mm(sizes.height)};
    if (!label.pictograms.empty()) report.pictogram_mm = fit.trial.pictogram;
    if (contents.modules > 0) {
        const auto& code = symbol(label);
        report.module_mm = fit.trial.module;
        report.version = code.version;
        report.level = code.level;
        qr::Print print;
        print.module_mm = fit.trial.module;
        if (stock.dots_per_inch) print.dots_per_mm = *stock.dots_per_inch / 25.4;
        if (label.diameter && stock.shape != templates::Shape::circle)
            print.body_diameter_mm = in_mm(*label.diameter);
        report.checks = qr::check(code, print);
    }
    return Fitted{arrangement->draw(fit.trial), size,
                  std::make_shared<LabelReport>(std::move(report))};
}

}  // namespace gallipot::layout
