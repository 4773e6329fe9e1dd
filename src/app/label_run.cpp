#include "app/label_run.hpp"

#include <algorithm>
#include <fmt/format.h>

namespace gallipot::app {

LabelRun::LabelRun(std::shared_ptr<const document::LabelMaker> maker,
                   std::shared_ptr<const layout::LabelImposer> imposer,
                   std::vector<document::LabelChoice> which, std::string name)
    : maker_(std::move(maker)),
      imposer_(std::move(imposer)),
      which_(std::move(which)),
      name_(std::move(name)) {
    const auto a_page = static_cast<std::size_t>(imposer_->stock().stock.per_page());
    room_ = std::max<std::size_t>(1, labels_a_volume / a_page) * a_page;
    taken_ = static_cast<std::size_t>(imposer_->options().start_at - 1);
    copies_ = static_cast<std::size_t>(imposer_->options().copies);
    const std::size_t places = taken_ + which_.size() * copies_;
    volumes_ = std::max<std::size_t>(1, (places + room_ - 1) / room_);
}

std::string LabelRun::file(std::size_t volume) const {
    if (volumes_ == 1) return name_ + ".pdf";
    const auto digits = fmt::formatted_size("{}", volumes_);
    return fmt::format("{}-{:0{}}.pdf", name_, volume + 1, digits);
}

layout::Paper LabelRun::paper(std::size_t volume) const {
    // Of all copies, counted from the first label's.
    const std::size_t first = volume == 0 ? 0 : volume * room_ - taken_;
    const std::size_t end = std::min((volume + 1) * room_ - taken_, which_.size() * copies_);
    const std::size_t first_label = first / copies_;
    const std::size_t end_label = (end + copies_ - 1) / copies_;
    auto labels = (*maker_)(std::span(which_).subspan(first_label, end_label - first_label));
    if (volumes_ > 1) labels.title += fmt::format(" {}/{}", volume + 1, volumes_);
    const std::size_t before = first_label * copies_;
    return imposer_->place(labels, {first - before, end - before, volume == 0}).paper;
}

}  // namespace gallipot::app
