#include "papers/document/make_labels.hpp"

#include <algorithm>
#include <mutex>
#include <numeric>
#include <stdexcept>
#include <unordered_map>
#include <unordered_set>

#include "papers/document/label_languages.hpp"
#include "papers/document/label_writer.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using Body = std::shared_ptr<const LabelBody>;

struct HashContent {
    std::size_t operator()(const Body& body) const { return hash(*body); }
};
/// What a body is made of, and nothing else.
using Source = std::pair<plan::Filling, OfStation>;
struct HashSource {
    /// Of what most differ in; equality decides.
    std::size_t operator()(const Source& source) const {
        const plan::Filling& filling = source.first;
        const auto text = std::hash<std::string>();
        std::size_t sum = text(filling.mix) + 3 * text(filling.supply) + 5 * text(filling.type);
        if (filling.placed)
            sum += static_cast<std::size_t>(filling.placed->time_since_epoch().count());
        return 7 * sum + static_cast<std::size_t>(filling.kind);
    }
};
struct SameContent {
    bool operator()(const Body& a, const Body& b) const { return *a == *b; }
};

}  // namespace

struct LabelMaker::Impl {
    Impl(const job::Job& of_job, const plan::Plan& of_plan, const safety::WhoToCall& who,
         const std::vector<const text::Catalog*>& languages)
        : job(of_job), plan(of_plan) {
        if (languages.empty()) throw std::logic_error("LabelMaker: no language");
        for (std::size_t i = 0; i < std::min<std::size_t>(languages.size(), 2); ++i)
            writers.emplace_back(job, plan, who, *languages[i]);
        for (const job::Station& station : job.stations)
            of_stations.emplace(*station.id, of_station(station));
    }

    [[nodiscard]] const LabelWriter& main() const { return writers.front(); }

    /// The one body that says the same, so that labels alike in all they say share one.
    [[nodiscard]] Body shared(Body body) const {
        const std::lock_guard lock(mutex);
        return *bodies.insert(std::move(body)).first;
    }

    /// In the one language, or both.
    [[nodiscard]] Body written(const Source& source) const {
        const auto& [filling, station] = source;
        Body made = shared(std::make_shared<const LabelBody>(main().body(filling, station)));
        if (writers.size() < 2) return made;
        return shared(in_both(made, writers.back().body(filling, station)));
    }

    /// Written once for equal sources.
    [[nodiscard]] Body body(const plan::Container& container) const {
        const auto station = of_stations.find(container.station);
        const Source source{container,
                            station == of_stations.end() ? OfStation() : station->second};
        {
            const std::lock_guard lock(mutex);
            const auto at = known.find(source);
            if (at != known.end()) return at->second;
        }
        Body made = written(source);
        const std::lock_guard lock(mutex);
        return known.emplace(source, std::move(made)).first->second;
    }

    [[nodiscard]] Label label(std::size_t index) const {
        const plan::Container& container = plan.containers.at(index);
        Label made;
        made.name = container.id;
        made.id = main().id(container);
        made.section = main().section(container);
        made.code = main().code(container);
        made.body = body(container);
        return made;
    }

    const job::Job& job;
    const plan::Plan& plan;
    std::vector<LabelWriter> writers;  ///< of the main language, and of the second if there is one
    mutable std::mutex mutex;          ///< for the bodies
    mutable std::unordered_set<Body, HashContent, SameContent> bodies;
    mutable std::unordered_map<Source, Body, HashSource> known;
    std::unordered_map<std::string, OfStation> of_stations;  ///< by id
};

LabelMaker::LabelMaker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                       const std::vector<const text::Catalog*>& languages)
    : impl_(std::make_unique<Impl>(job, plan, who, languages)) {}

LabelMaker::~LabelMaker() = default;

std::size_t LabelMaker::size() const {
    return impl_->plan.containers.size();
}

std::size_t LabelMaker::containers() const {
    const auto& all = impl_->plan.containers;
    const auto stored = std::ranges::find_if(all, [](const plan::Container& container) {
        return container.kind != plan::ContainerKind::cup;
    });
    return static_cast<std::size_t>(stored - all.begin());
}

Labels LabelMaker::operator()(std::span<const std::size_t> which) const {
    const auto& words = impl_->main().words();
    Labels made;
    made.title = impl_->job.title->in(words.tag()) + ": " + words("paper.labels");
    made.author = impl_->job.by ? (*impl_->job.by)->in(words.tag()) : "";
    made.language = words.tag();
    made.labels.reserve(which.size());
    for (const std::size_t i : which) made.labels.push_back(impl_->label(i));
    return made;
}

Labels LabelMaker::operator()() const {
    std::vector<std::size_t> all(size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return (*this)(all);
}

}  // namespace gallipot::document
