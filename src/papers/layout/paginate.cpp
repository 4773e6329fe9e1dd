#include "papers/layout/paginate.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace gallipot::layout {

namespace {

constexpr double slack = 1e-6;

class Paginator {
  public:
    Paginator(const LineBoxes& line_boxes, double first, double other,
              std::vector<Overflow>& overflows)
        : line_boxes_(line_boxes), room_(first), other_(other), overflows_(overflows), pages_(1) {}

    std::vector<PageOfStrips> operator()() {
        std::size_t loose = 0;  // up to here a group has turned out higher than a page
        for (std::size_t i = 0; i < line_boxes_.size();) {
            // What should stay together, unless no page could hold it; then what must.
            std::size_t end = chain(i, i < loose ? Keep::always : Keep::if_possible);
            if (!fits_here(i, end) && !fits_on_new_page(i, end)) {
                loose = std::max(loose, end);
                end = chain(i, Keep::always);
            }
            if (!fits_here(i, end) && !fits_on_new_page(i, end)) end = i + 1;
            if (!fits_here(i, end)) {
                if (!fits_on_new_page(i, end)) report(line_boxes_[i]);
                if (!pages_.back().empty()) new_page();
            }
            for (; i < end; ++i) put(line_boxes_[i]);
        }
        return std::move(pages_);
    }

  private:
    /// One past the last strip chained to the one at `first` by at least this `keep`.
    [[nodiscard]] std::size_t chain(std::size_t first, Keep keep) const {
        std::size_t last = first;
        while (last + 1 < line_boxes_.size() && line_boxes_[last].keep >= keep) ++last;
        return last + 1;
    }

    [[nodiscard]] double height(std::size_t begin, std::size_t end, bool at_head) const {
        double sum = 0;
        for (std::size_t i = begin; i < end; ++i) {
            if (i > begin || !at_head) sum += line_boxes_[i].before;
            sum += line_boxes_[i].height;
        }
        if (at_head && line_boxes_[begin].heading) sum += line_boxes_[begin].heading->height;
        return sum;
    }

    [[nodiscard]] bool fits_here(std::size_t begin, std::size_t end) const {
        return height(begin, end, pages_.back().empty()) <= room_ - used_ + slack;
    }
    [[nodiscard]] bool fits_on_new_page(std::size_t begin, std::size_t end) const {
        return height(begin, end, true) <= other_ + slack;
    }

    void new_page() {
        pages_.emplace_back();
        used_ = 0;
        room_ = other_;
    }

    void put(const LineBox& line_box) {
        PageOfStrips& page = pages_.back();
        if (page.empty()) {
            if (line_box.heading && pages_.size() > 1) {
                page.push_back({line_box.heading.get(), 0});
                used_ = line_box.heading->height;
            }
        } else {
            used_ += line_box.before;
        }
        page.push_back({&line_box, used_});
        used_ += line_box.height;
    }

    void report(const LineBox& line_box) {
        const double needed = line_box.height + (line_box.heading ? line_box.heading->height : 0);
        overflows_.push_back(
            {line_box.name,
             fmt::format("it is {:.1f} mm high and a page has {:.1f} mm, {:.1f} mm less", needed,
                         other_, needed - other_),
             "shorten it or split it in two", needed, other_});
    }

    const LineBoxes& line_boxes_;
    double room_;
    double other_;
    double used_ = 0;
    std::vector<Overflow>& overflows_;
    std::vector<PageOfStrips> pages_;
};

}  // namespace

std::vector<PageOfStrips> paginate(const LineBoxes& line_boxes, double first, double other,
                                   std::vector<Overflow>& overflows) {
    return Paginator(line_boxes, first, other, overflows)();
}

}  // namespace gallipot::layout
