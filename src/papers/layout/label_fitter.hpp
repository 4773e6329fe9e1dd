#pragma once

#include <map>
#include <memory>
#include <tuple>
#include <variant>

#include "papers/layout/label_fit.hpp"
#include "papers/layout/labels.hpp"
#include "papers/qr/symbol.hpp"

namespace gallipot::layout {

/// A label set at its best.
struct Fitted {
    Drawn drawn;
    Size size;  ///< of the label: strips are as long as their cup is round
    std::shared_ptr<const LabelReport> report;
};

using FittingResult = std::variant<Fitted, std::shared_ptr<const LabelOverflow>>;

/// Fits labels on one stock, remembering everything that labels have in common.
class LabelFitter {
  public:
    /// `stock` is kept by reference.
    LabelFitter(const LabelStock& stock, const fonts::Faces& faces);

    /// Tries the label, then its forms in fewer languages.
    const FittingResult& operator()(const document::Label& label);
    /// What came of a label that was tried before, or of one like it. May be called by several
    /// threads at once while none tries a label.
    [[nodiscard]] const FittingResult& known(const document::Label& label) const;
    [[nodiscard]] const fonts::Faces& faces() const { return measurer_.faces(); }

  private:
    /// Everything a fit depends on: all but the id's letters and the code's content.
    struct Key {
        std::shared_ptr<const document::LabelBody> body;  ///< kept, so that it stays the same one
        double id_room = 0;
        int code_kind = 0, code_length = 0;
        auto operator<=>(const Key&) const = default;
    };
    [[nodiscard]] Key key(const document::Label& label) const;
    FittingResult fit(const document::Label& label);
    FittingResult fit_one(const document::Label& label, const document::LabelBody& body);
    /// Of the label's code: as many modules as every code of its kind and length has.
    const qr::Symbol& symbol(const document::Label& label);

    const LabelStock& stock_;
    Measurer measurer_;
    std::map<Key, FittingResult> fitted_;
    std::map<std::pair<int, int>, qr::Symbol> symbols_;  ///< one of each kind and length
};

/// The symbol of a label's code. Throws LayoutError when there is none.
qr::Symbol code_of(const document::Label& label);

}  // namespace gallipot::layout
