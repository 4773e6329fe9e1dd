#include "papers/layout/label_fitter.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>
#include <stdexcept>

#include "domain/safety/type_sizes.hpp"
#include "papers/layout/label_draw.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/text/direction.hpp"

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
/// Of a wall's circumference, what is seen at once.
constexpr double panel_share = 0.4;
constexpr double tolerance = 0.5;  // mm, of measuring a cup

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

LabelFitter::~LabelFitter() = default;

LabelFitter::Key LabelFitter::key(const Label& label) const {
    return {label.body, label.place.empty() ? id_room(label.id, faces()) : 0,
            static_cast<int>(qr::mode(label.code)), static_cast<int>(label.code.size())};
}

std::size_t LabelFitter::gather(const Label& label) {
    Kin& kin = kins_[label.kin];
    const auto [at, is_new] = numbers_.try_emplace(key(label), alike_.size());
    if (is_new) {
        kin.members.push_back(alike_.size());
        alike_.push_back({label, {}});
        kin.fitted = false;
    }
    if (label.place.empty()) return at->second;
    const double id = std::max(kin.room.id_ems, id_room(label.id, faces()));
    const bool larger = kin.room.place.add(measurer_.place_extents(label));
    if (larger || id > kin.room.id_ems) kin.fitted = false;
    kin.room.id_ems = id;
    return at->second;
}

const FittingResult& LabelFitter::operator()(std::size_t number) {
    Alike& alike = alike_.at(number);
    Kin& kin = kins_[alike.like.kin];
    if (!kin.fitted) fit(kin);
    return alike.result;
}

const FittingResult& LabelFitter::known(const Label& label) const {
    const auto found = numbers_.find(key(label));
    if (found == numbers_.end() || !kins_.at(label.kin).fitted)
        throw std::logic_error("label " + label.name + " is placed before it was fitted");
    return alike_.at(found->second).result;
}

/// A label ready to be tried; it points into itself.
struct LabelFitter::Member {
    Alike& alike;
    std::unique_ptr<const LabelWords> words;
    Canvas canvas;
    Contents contents;
    safety::LabelSize sizes;
    Bounds limits;
    std::unique_ptr<Arrangement> arrangement;

    [[nodiscard]] const LabelBody& body() const { return *alike.like.body; }
    [[nodiscard]] bool stands() const { return !alike.like.place.empty(); }
    [[nodiscard]] Trial trial() const {
        return [this](const Sizing& sizing) { return arrangement->shortfall(sizing); };
    }
    /// What a step leaves out of what should be there.
    [[nodiscard]] std::size_t loss(const Sizing& sizing) const {
        const Step& step = step_of(*words, sizing);
        return step.statements_left_out.size() + step.shortest.size();
    }
};

std::unique_ptr<LabelFitter::Member> LabelFitter::member(Alike& alike, const Kin& kin) {
    const auto& stock = stock_.stock;
    const LabelBody& body = *alike.like.body;
    const Box box = label_box(stock, body);
    const auto minimum = minimum_types(body, safety::rectangle_panel(mm(box.width), mm(box.height)),
                                       measurer_.faces());
    auto words = measurer_(alike.like, alike.like.place.empty() ? OwnRoom{} : kin.room,
                           stock_.design, minimum);
    const double circumference = stock.shape == templates::Shape::strip && body.diameter
                                     ? std::numbers::pi * in_mm(*body.diameter)
                                     : 0;
    Contents contents{*words};
    if (!stock_.design.compact) contents.pictograms = body.pictograms;
    contents.band_minimum = std::max(minimum.signal_word, smallest_signal);
    // Where no rule sets one it keeps a tilde on a capital clear of the tails above it all the
    // same.
    contents.minimum_leading = safety::minimum_line_spacing;
    contents.least_leading = least_leading(words->ink);
    const auto sizes = safety::label_size(body.capacity);
    contents.pictogram_minimum = in_mm(sizes.pictogram);
    contents.pictogram_preferred = in_mm(sizes.pictogram_if_possible);
    if (!alike.like.code.empty()) contents.modules = symbol(alike.like).modules;
    const fonts::Ink beyond{std::max(0.0, words->ink.above - usual_ink.above),
                            std::max(0.0, words->ink.below - measurer_.faces().bold->descent())};
    auto made = std::unique_ptr<Member>(
        new Member{alike,
                   std::move(words),
                   Canvas{stock, stock_.design, measurer_.faces(), box, in_mm(stock.clear),
                          circumference, beyond, text::runs_right_to_left(body.language)},
                   std::move(contents),
                   sizes,
                   {},
                   nullptr});
    made->limits = bounds(made->canvas, made->contents);
    if (made->contents.modules > 0 && body.diameter && stock.shape != templates::Shape::circle) {
        // A code need not grow further round a cup than a phone can see.
        const double widest =
            qr::width_at_edge_angle(qr::edge_angle_preferred, in_mm(*body.diameter));
        auto& limits = made->limits;
        limits.maximum.module =
            std::max(limits.preferred.module,
                     std::min(limits.maximum.module, widest / made->contents.modules));
    }
    made->arrangement = arrange(made->canvas, made->contents);
    return made;
}

void LabelFitter::fit(Kin& kin) {
    std::vector<std::unique_ptr<Member>> all;
    std::vector<Member*> fitting, standing, others;
    for (const std::size_t number : kin.members) {
        all.push_back(member(alike_.at(number), kin));
        Member& one = *all.back();
        if (!fits_at_least(one.trial(), one.limits)) {
            // In a circle there may be more room at another size.
            const auto found = layout::fit(one.trial(), one.limits);
            if (const auto* by = std::get_if<Shortfall>(&found)) {
                one.alike.result = std::make_shared<const LabelOverflow>(
                    LabelOverflow{{by->width, by->height},
                                  {one.canvas.label.width, one.canvas.label.height},
                                  one.limits.minimum.size});
                continue;
            }
        }
        fitting.push_back(&one);
        (one.stands() ? standing : others).push_back(&one);
    }
    // What a bottle must say beyond a cup's label does not cost the cup's a word.
    if (!fit_together(fitting, others.empty() || standing.empty())) {
        for (const auto* group : {&standing, &others}) {
            if (fit_together(*group, true)) continue;
            for (Member* one : *group) fit_together({one}, true);
        }
    }
    kin.fitted = true;
}

bool LabelFitter::fit_together(const std::vector<Member*>& members, bool at_any_loss) {
    if (members.empty()) return true;
    std::vector<Bounds> each;
    for (const Member* member : members) each.push_back(member->limits);
    std::size_t hardest = 0;  // which failed last: asked first
    const Trial all = [&](const Sizing& sizing) {
        Shortfall most;
        for (std::size_t i = 0; i < members.size(); ++i) {
            const std::size_t at = (hardest + i) % members.size();
            const auto one = members[at]->arrangement->shortfall(sizing);
            if (one.fits()) continue;
            hardest = at;
            return one;
        }
        return most;
    };
    const auto found = layout::fit(all, layout::together(each));
    const auto* fit = std::get_if<FitResult>(&found);
    if (fit == nullptr) return false;
    if (!at_any_loss)
        for (const Member* member : members)
            if (member->loss(fit->sizing) > 0) return false;
    for (Member* member : members) {
        FitResult own = *fit;
        // Where that costs one of them what another has no room for either, each says what it can.
        for (int step = 0; step < fit->sizing.step && member->loss(fit->sizing) > 0; ++step) {
            own.sizing.step = step;
            if (member->arrangement->shortfall(own.sizing).fits()) break;
            own.sizing.step = fit->sizing.step;
        }
        finish(*member, own);
    }
    return true;
}

namespace {

/// What there is to stick a label on, where that is smaller; a wall is seen from one side over
/// 40 % of its circumference (16 CFR 1500.121(c)(1), found).
std::optional<Size> smaller_container(const LabelBody& body, templates::Shape shape,
                                      const Size& label) {
    std::optional<Size> smaller;
    if (body.lid) {
        const double lid = in_mm(*body.lid);
        const double across =
            shape == templates::Shape::circle ? label.width : std::hypot(label.width, label.height);
        if (shape != templates::Shape::strip && across <= lid + tolerance) return {};
        smaller = Size{lid, lid};
    }
    if (!body.height) return smaller;
    const double height = in_mm(*body.height);
    if (shape == templates::Shape::strip || !body.diameter) {
        if (label.height <= height + tolerance) return {};
        return Size{label.width, height};
    }
    const double seen = panel_share * std::numbers::pi * in_mm(*body.diameter);
    if (label.height <= height + tolerance && label.width <= seen + tolerance) return {};
    return Size{seen, height};
}

}  // namespace

void LabelFitter::finish(Member& member, const FitResult& fit) {
    const auto& stock = stock_.stock;
    const LabelBody& body = member.body();
    const Size size{member.canvas.label.width, member.canvas.label.height};
    // A strip longer than its stock.
    if (const double over = size.width - in_mm(stock.label_width); over > 1e-6) {
        member.alike.result =
            std::make_shared<const LabelOverflow>(LabelOverflow{{over, 0}, size, fit.sizing.size});
        return;
    }
    LabelReport report;
    report.type_points = fit.sizing.size;
    report.preferred = fit.preferred;
    const auto& step = step_of(*member.words, fit.sizing);
    report.left_out = step.left_out;
    report.shortest = step.shortest;
    report.statements = step.statements;
    report.statements_left_out = step.statements_left_out;
    report.without_frame =
        fit.sizing.run_on == RunOn::bare && std::ranges::any_of(body.parts, [](const auto& part) {
            return templates::in_frame(part.part);
        });
    report.run_on = fit.sizing.run_on != RunOn::parts;
    if (stock_.design.compact) {
        // It stands on the label beside it.
        report.left_out.clear();
        report.shortest.clear();
    }
    const auto& sizes = member.sizes;
    const auto [shorter, longer] = std::minmax(size.width, size.height);
    if (body.rules == safety::RuleSet::clp_like && !sizes.if_possible &&
        (longer < in_mm(sizes.width) || shorter < in_mm(sizes.height)))
        report.rules_ask = Size{in_mm(sizes.width), in_mm(sizes.height)};
    if (member.stands()) report.container = smaller_container(body, stock.shape, size);
    if (!member.contents.pictograms.empty()) report.pictogram_mm = fit.sizing.pictogram;
    if (member.contents.modules > 0) {
        const auto& code = symbol(member.alike.like);
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
    member.alike.result = Fitted{member.arrangement->draw(fit.sizing), size,
                                 std::make_shared<LabelReport>(std::move(report))};
}

}  // namespace gallipot::layout
