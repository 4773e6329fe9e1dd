#pragma once

#include <memory>
#include <string>
#include <unordered_map>
#include <variant>

#include "layout/label_fit.hpp"
#include "layout/labels.hpp"
#include "qr/symbol.hpp"

namespace gallipot::layout {

/// A label set at its best.
struct Fitted {
    Drawn drawn;
    Size size;  ///< of the label: strips are as long as their cup is round
    std::shared_ptr<const LabelReport> report;
};

/// Why it cannot be.
struct Unfit {
    Lack lack;
    Size size;
    double least_points = 0;
};

/// Fits labels on one stock, remembering everything that labels have in common.
class LabelFitter {
  public:
    LabelFitter(const LabelStock& stock, const fonts::Faces& faces);

    /// Tries the label, then its forms in fewer languages.
    const std::variant<Fitted, Unfit>& operator()(const document::Label& label);
    /// Of the label's code; the label must have one.
    const qr::Symbol& symbol(const document::Label& label);
    const Words& id(const document::Label& label);

  private:
    std::variant<Fitted, Unfit> fit(const document::Label& label);
    std::variant<Fitted, Unfit> fit_one(const document::Label& label);
    std::string key(const document::Label& label);

    const LabelStock& stock_;
    Measurer measurer_;
    std::unordered_map<std::string, std::variant<Fitted, Unfit>> fitted_;
    std::unordered_map<std::string, qr::Symbol> symbols_;
    std::unordered_map<std::string, std::shared_ptr<const Words>> ids_;
};

}  // namespace gallipot::layout
