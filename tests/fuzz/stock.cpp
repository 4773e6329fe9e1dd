#include "papers/templates/stock.hpp"

#include "loaded.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/layout/overflow.hpp"
#include "placed.hpp"

/// A file of label stock, and the page to align it by.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    const std::string text = text_of(data, size);
    diag::Diagnostics found;
    const auto stock = templates::read_stock(source_of("stock.yaml", text), "stock", found);
    check_told(found);
    if (found.has_errors()) return 0;
    require(stock.columns > 0 && stock.rows > 0 && stock.label_width.si() > 0 &&
                stock.label_height.si() > 0 && stock.page_width >= stock.label_width &&
                stock.page_height >= stock.label_height,
            "labels lie on their page");

    static const auto labels =
        document::LabelMaker(hall().job, hall().plan, hall().who, {words("en", "AU")})();
    try {
        layout::alignment_page(stock, faces(), "alignment");
        for (const auto& other : stocks()) {
            if (other.stock.design != stock.design || other.stock.shape != stock.shape) continue;
            const layout::LabelStock both{stock, other.design};
            require(
                layout::place_labels(labels, both, faces()).labels.size() == labels.labels.size(),
                "every label is placed");
            break;
        }
    } catch (const layout::LayoutError& error) {
        require(!error.overflows().empty(), "what does not fit is named");
    }
    return 0;
}
