#include "papers/templates/design.hpp"

#include "loaded.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/layout/overflow.hpp"
#include "placed.hpp"

/// A file that says how a label is arranged, and labels set by it on a stock of its shape.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    const std::string text = text_of(data, size);
    diag::Diagnostics found;
    const auto design = templates::read_design(source_of("design.yaml", text), "design", found);
    check_told(found);
    if (found.has_errors()) return 0;

    static const auto labels = document::LabelMaker(hall().job, hall().plan, hall().who,
                                                    {words("en", "AU"), words("es", "AU")})();
    std::vector<const layout::LabelStock*> same;
    for (const auto& stock : stocks())
        if (stock.stock.shape == design.shape) same.push_back(&stock);
    require(!same.empty(), "there is a stock of the shape");
    const std::size_t one = way(text, same.size());
    for (std::size_t i = 0; i < same.size(); ++i) {
        if (!thorough && i != one) continue;
        try {
            const auto reports = layout::fit_labels(labels, {same[i]->stock, design}, faces());
            require(reports.size() == labels.labels.size(), "every label is tried");
            for (const auto& report : reports)
                if (report != nullptr)
                    require(report->type_points > 0 && report->type_points < 1000 &&
                                report->module_mm >= 0,
                            "sizes make sense");
        } catch (const layout::LayoutError& error) {
            require(!error.overflows().empty(), "what does not fit is named");
        }
    }
    return 0;
}
