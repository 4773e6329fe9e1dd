#pragma once

#include <deque>
#include <map>
#include <memory>
#include <string>
#include <tuple>
#include <variant>
#include <vector>

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

/// Fits labels on one stock, those of a kin alike. Labels that differ only in id, place and code's
/// content are fitted once.
class LabelFitter {
  public:
    /// `stock` is kept by reference.
    LabelFitter(const LabelStock& stock, const fonts::Faces& faces);
    ~LabelFitter();

    /// Takes note of a label. The number is the same for labels that are set as one.
    std::size_t gather(const document::Label& label);
    /// What comes of the labels of a number, with all of their kin that were gathered.
    const FittingResult& operator()(std::size_t number);
    /// The same by a label that was gathered and asked for before. May be called by several
    /// threads at once while none gathers or asks.
    [[nodiscard]] const FittingResult& known(const document::Label& label) const;
    [[nodiscard]] const fonts::Faces& faces() const { return measurer_.faces(); }

  private:
    /// Everything a fit depends on: all but the content of what each label has of its own.
    struct Key {
        std::shared_ptr<const document::LabelBody> body;  ///< kept, so that it stays the same one
        double id_room = 0;                               ///< of what belongs nowhere
        int code_kind = 0, code_length = 0;
        auto operator<=>(const Key&) const = default;
    };
    struct Alike {
        document::Label like;  ///< the first of them
        FittingResult result;
    };
    struct Kin {
        std::vector<std::size_t> members;  ///< of alike_
        OwnRoom room;                      ///< of those that belong somewhere
        bool fitted = false;
    };
    struct Member;

    [[nodiscard]] Key key(const document::Label& label) const;
    void fit(Kin& kin);
    /// Sets these alike, if that can be without loss for any that belongs somewhere.
    bool fit_together(const std::vector<Member*>& members, bool at_any_loss);
    std::unique_ptr<Member> member(Alike& alike, const Kin& kin);
    void finish(Member& member, const FitResult& fit);
    /// Of the label's code: as many modules as every code of its kind and length has.
    const qr::Symbol& symbol(const document::Label& label);

    const LabelStock& stock_;
    Measurer measurer_;
    std::deque<Alike> alike_;
    std::map<Key, std::size_t> numbers_;
    std::map<std::string, Kin> kins_;
    std::map<std::pair<int, int>, qr::Symbol> symbols_;  ///< one of each kind and length
};

/// The symbol of a label's code. Throws LayoutError when there is none.
qr::Symbol code_of(const document::Label& label);

}  // namespace gallipot::layout
