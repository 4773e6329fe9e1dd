#include "papers/document/make_labels.hpp"

#include <algorithm>
#include <mutex>
#include <stdexcept>
#include <unordered_map>
#include <unordered_set>

#include "papers/document/joins.hpp"
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
struct Source {
    plan::Filling filling;
    OfStation station;
    Speech speech = Speech::both;
    bool operator==(const Source&) const = default;
};
struct HashSource {
    /// Of what most differ in; equality decides.
    std::size_t operator()(const Source& source) const {
        const plan::Filling& filling = source.filling;
        const auto text = std::hash<std::string>();
        std::size_t sum = text(filling.mix) + 3 * text(filling.supply) + 5 * text(filling.type);
        if (filling.placed)
            sum += static_cast<std::size_t>(filling.placed->time_since_epoch().count());
        return 13 * (7 * sum + static_cast<std::size_t>(filling.kind)) +
               static_cast<std::size_t>(source.speech);
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
        for (const job::Station& station : job.stations) stations.emplace(*station.id, &station);
        const auto stored = std::ranges::find_if(plan.containers, [](const auto& container) {
            return container.kind != plan::ContainerKind::cup;
        });
        cups = static_cast<std::size_t>(stored - plan.containers.begin());
    }

    [[nodiscard]] const LabelWriter& main() const { return writers.front(); }
    /// Whose words come first on it.
    [[nodiscard]] const LabelWriter& writer(Speech speech) const {
        return speech == Speech::second ? writers.back() : writers.front();
    }

    /// The one body that says the same, so that labels alike in all they say share one.
    [[nodiscard]] Body shared(Body body) const {
        const std::lock_guard lock(mutex);
        return *bodies.insert(std::move(body)).first;
    }

    [[nodiscard]] Body written(const Source& source) const {
        auto made = std::make_shared<const LabelBody>(
            writer(source.speech).body(source.filling, source.station));
        if (source.speech != Speech::both || writers.size() < 2) return shared(std::move(made));
        return shared(in_both(*made, writers.back().body(source.filling, source.station)));
    }

    /// Written once for equal sources.
    [[nodiscard]] Body body(const plan::Container& container, Speech speech) const {
        const auto station = of_stations.find(container.station);
        const Source source{container, station == of_stations.end() ? OfStation() : station->second,
                            speech};
        {
            const std::lock_guard lock(mutex);
            const auto at = known.find(source);
            if (at != known.end()) return at->second;
        }
        Body made = written(source);
        const std::lock_guard lock(mutex);
        return known.emplace(source, std::move(made)).first->second;
    }

    /// A line for each language; one where both say the same.
    [[nodiscard]] std::vector<text::StyledText> place(const plan::Container& container,
                                                      Speech speech) const {
        if (container.kind != plan::ContainerKind::cup) return {};
        const job::Station& station = *stations.at(container.station);
        std::vector<text::StyledText> lines{writer(speech).place(station)};
        if (speech != Speech::both || writers.size() < 2) return lines;
        if (auto second = writers.back().place(station); second != lines.front())
            lines.push_back(in_language(std::move(second), writers.back().words().tag()));
        return lines;
    }

    [[nodiscard]] Label label(const LabelChoice& choice) const {
        const plan::Container& container = plan.containers.at(choice.container);
        const LabelWriter& words = writer(choice.speech);
        Label made;
        made.name = container.id;
        if (choice.speech != Speech::both) made.name += " (" + words.words().tag() + ")";
        made.id = words.id(container);
        made.place = place(container, choice.speech);
        made.kin = container.mix;
        made.section = main().section(container);
        made.code = words.code(container);
        made.body = body(container, choice.speech);
        return made;
    }

    const job::Job& job;
    const plan::Plan& plan;
    std::size_t cups = 0;              ///< they come first among the plan's containers
    std::vector<LabelWriter> writers;  ///< of the main language, and of the second if there is one
    mutable std::mutex mutex;          ///< for the bodies
    mutable std::unordered_set<Body, HashContent, SameContent> bodies;
    mutable std::unordered_map<Source, Body, HashSource> known;
    std::unordered_map<std::string, OfStation> of_stations;         ///< by id
    std::unordered_map<std::string, const job::Station*> stations;  ///< by id
};

LabelMaker::LabelMaker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                       const std::vector<const text::Catalog*>& languages)
    : impl_(std::make_unique<Impl>(job, plan, who, languages)) {}

LabelMaker::~LabelMaker() = default;

std::size_t LabelMaker::size() const {
    return impl_->plan.containers.size();
}

std::size_t LabelMaker::containers() const {
    return impl_->cups;
}

bool LabelMaker::two_languages() const {
    return impl_->writers.size() > 1;
}

Labels LabelMaker::operator()(std::span<const LabelChoice> which) const {
    const auto& words = impl_->main().words();
    Labels made;
    made.title = headed(words, impl_->job.title->in(words.tag()), words("paper.labels"));
    made.author = impl_->job.by ? (*impl_->job.by)->in(words.tag()) : "";
    made.language = words.tag();
    made.labels.reserve(which.size());
    for (const LabelChoice& one : which) made.labels.push_back(impl_->label(one));
    return made;
}

Labels LabelMaker::operator()() const {
    std::vector<LabelChoice> all(size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i].container = i;
    return (*this)(all);
}

}  // namespace gallipot::document
