#include "papers/layout/label_fitter.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <stdexcept>

#include "domain/safety/type_sizes.hpp"
#include "papers/layout/label_draw.hpp"
#include "papers/layout/overflow.hpp"

namespace gallipot::layout {

namespace {

using document::Label;
using document::LabelBody;
using units::in_mm;
using units::mm;

/// Length of a single label on strip stock when the body it goes on is not known.
constexpr double loose_strip = 90;
/// Points; the band is no band with less.
constexpr double smallest_signal = 6;

Box label_box(const templates::Stock& stock, const LabelBody& label) {
    double width = in_mm(stock.label_width);
    if (stock.shape == templates::Shape::strip)
        width = label.diameter ? std::numbers::pi * in_mm(*label.diameter) + in_mm(stock.overlap)
                               : std::min(width, loose_strip);
    return {0, 0, width, in_mm(stock.label_height)};
}

}  // namespace

LabelFitter::LabelFitter(const LabelStock& stock, const fonts::Faces& faces)
    : stock_(stock), measurer_(faces) {}

qr::Symbol code_of(const Label& label) {
    try {
        return qr::encode(label.code);
    } catch (const qr::TooLong& error) {
        throw LayoutError({{fmt::format("label {}, code", label.name), error.message,
                            "give log.address, so that the code holds a link", 0, 0}});
    }
}

const qr::Symbol& LabelFitter::symbol(const Label& label) {
    const std::pair<int, int> extent{static_cast<int>(qr::mode(label.code)),
                                     static_cast<int>(label.code.size())};
    auto found = symbols_.find(extent);
    if (found == symbols_.end()) found = symbols_.emplace(extent, code_of(label)).first;
    return found->second;
}

LabelFitter::Key LabelFitter::key(const Label& label) const {
    return {label.body, id_room(label.id, faces()), static_cast<int>(qr::mode(label.code)),
            static_cast<int>(label.code.size())};
}

const FittingResult& LabelFitter::operator()(const Label& label) {
    auto name = key(label);
    auto found = fitted_.find(name);
    if (found == fitted_.end()) found = fitted_.emplace(std::move(name), fit(label)).first;
    return found->second;
}

const FittingResult& LabelFitter::known(const Label& label) const {
    const auto found = fitted_.find(key(label));
    if (found == fitted_.end())
        throw std::logic_error("label " + label.name + " is placed before it was fitted");
    return found->second;
}

FittingResult LabelFitter::fit(const Label& label) {
    auto result = fit_one(label, *label.body);
    const auto* overflow = std::get_if<std::shared_ptr<const LabelOverflow>>(&result);
    const Size shortfall = overflow != nullptr ? (*overflow)->shortfall : Size{};
    for (const auto* one = label.body->otherwise.get(); one != nullptr;
         one = one->otherwise.get()) {
        if (std::holds_alternative<Fitted>(result)) break;
        result = fit_one(label, *one);
        if (auto* fitted = std::get_if<Fitted>(&result)) {
            auto report = *fitted->report;
            report.languages_lack = shortfall;
            fitted->report = std::make_shared<LabelReport>(std::move(report));
        }
    }
    return result;
}

FittingResult LabelFitter::fit_one(const Label& label, const LabelBody& body) {
    const auto& stock = stock_.stock;
    const auto& design = stock_.design;
    const Box box = label_box(stock, body);
    const auto minimum = minimum_types(body, safety::rectangle_panel(mm(box.width), mm(box.height)),
                                       measurer_.faces());
    const auto measured = measurer_(label, body, design, minimum);
    const LabelWords& words = *measured;
    const double circumference = stock.shape == templates::Shape::strip && body.diameter
                                     ? std::numbers::pi * in_mm(*body.diameter)
                                     : 0;
    const Canvas canvas{stock, design, measurer_.faces(), box, in_mm(stock.clear), circumference};

    Contents contents{words};
    contents.pictograms = body.pictograms;
    contents.band_minimum = std::max(minimum.signal_word, smallest_signal);
    // Where no rule sets one it keeps a tilde on a capital clear of the tails above it all the
    // same.
    contents.minimum_leading = safety::minimum_line_spacing;
    const auto sizes = safety::label_size(body.capacity);
    contents.pictogram_minimum = in_mm(sizes.pictogram);
    contents.pictogram_preferred = in_mm(sizes.pictogram_if_possible);
    if (!label.code.empty()) contents.modules = symbol(label).modules;

    auto limits = bounds(canvas, contents);
    if (contents.modules > 0 && body.diameter && stock.shape != templates::Shape::circle) {
        // A code need not grow further round a cup than a phone can see.
        const double widest =
            qr::width_at_edge_angle(qr::edge_angle_preferred, in_mm(*body.diameter));
        limits.maximum.module = std::max(
            limits.preferred.module, std::min(limits.maximum.module, widest / contents.modules));
    }

    const auto arrangement = arrange(canvas, contents);
    const auto found = layout::fit(*arrangement, limits);
    const Size size{box.width, box.height};
    const auto overflow = [&](Size by, double points) {
        return std::make_shared<const LabelOverflow>(LabelOverflow{by, size, points});
    };
    if (const auto* shortfall = std::get_if<Shortfall>(&found))
        return overflow({shortfall->width, shortfall->height}, limits.minimum.size);

    const auto& fit = std::get<FitResult>(found);
    // A strip longer than its stock.
    if (const double over = size.width - in_mm(stock.label_width); over > 1e-6)
        return overflow({over, 0}, fit.sizing.size);
    LabelReport report;
    report.type_points = fit.sizing.size;
    report.preferred = fit.preferred;
    const auto& step = step_of(words, fit.sizing);
    report.left_out = step.left_out;
    report.shortest = step.shortest;
    report.statements = step.statements;
    report.statements_left_out = step.statements_left_out;
    report.run_on = fit.sizing.run_on != RunOn::parts;
    const auto [shorter, longer] = std::minmax(box.width, box.height);
    if (body.rules == safety::RuleSet::clp_like && !sizes.if_possible &&
        (longer < in_mm(sizes.width) || shorter < in_mm(sizes.height)))
        report.rules_ask = Size{in_mm(sizes.width), in_mm(sizes.height)};
    if (!body.pictograms.empty()) report.pictogram_mm = fit.sizing.pictogram;
    if (contents.modules > 0) {
        const auto& code = symbol(label);
        report.module_mm = fit.sizing.module;
        report.version = code.version;
        report.level = code.level;
        qr::Print print;
        print.module_mm = fit.sizing.module;
        if (stock.dots_per_inch) print.dots_per_mm = *stock.dots_per_inch / 25.4;
        if (body.diameter && stock.shape != templates::Shape::circle)
            print.body_diameter_mm = in_mm(*body.diameter);
        report.checks = qr::check(code, print);
    }
    return Fitted{arrangement->draw(fit.sizing), size,
                  std::make_shared<LabelReport>(std::move(report))};
}

}  // namespace gallipot::layout
