#include "papers/document/make_labels.hpp"

#include <algorithm>
#include <map>
#include <mutex>
#include <numeric>
#include <set>
#include <stdexcept>
#include <tuple>

#include "papers/document/label_languages.hpp"
#include "papers/document/label_writer.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

struct LabelMaker::Impl {
    using Body = std::shared_ptr<const LabelBody>;
    /// All that the body of a container's label depends on.
    using Key = std::tuple<std::string, std::string, std::optional<plan::Date>,
                           std::optional<plan::Date>, bool>;

    Impl(const job::Job& of_job, const plan::Plan& of_plan, const safety::WhoToCall& who,
         const std::vector<const text::Catalog*>& languages)
        : job(of_job), plan(of_plan) {
        if (languages.empty()) throw std::logic_error("LabelMaker: no language");
        for (std::size_t i = 0; i < std::min<std::size_t>(languages.size(), 2); ++i)
            writers.emplace_back(job, plan, who, *languages[i]);
        for (const auto& station : plan.stations) {
            begins.push_back(containers);
            containers += station.container_ids.size();
        }
        for (const auto& mix : plan.mixes) add_vessels(mix);
        std::set<std::string> done;
        for (const auto& mix : plan.mixes)
            for (const auto& ingredient : mix.ingredients)
                if (ingredient.borate && done.insert(ingredient.name).second)
                    add_jar(mix, ingredient);
    }

    [[nodiscard]] const LabelWriter& main() const { return writers.front(); }

    /// In the one language, or both.
    template <class Write>
    [[nodiscard]] Body body(const Write& write) const {
        Body made = std::make_shared<const LabelBody>(write(main()));
        return writers.size() < 2 ? made : in_both(std::move(made), write(writers.back()));
    }

    void add_vessels(const plan::Mix& mix) {
        const auto vessel = main().vessel_of(mix);
        for (const std::string& kind : {vessel, std::string("left")}) {
            const std::string name = kind == "mixing_jar" ? "jar" : kind;
            const auto& words = main().words();
            const auto id = words.rich("label.id_" + name);
            others.push_back({name + " " + mix.id,
                              id,
                              {*job.mix(mix.id)->title, text::plain(id)},
                              {},
                              body([&](const LabelWriter& in) { return in.store(mix, kind); })});
        }
    }

    void add_jar(const plan::Mix& mix, const plan::Ingredient& ingredient) {
        const auto& words = main().words();
        others.push_back(
            {"jar of " + ingredient.name,
             words.rich("label.id_jar"),
             {words("label.jars"), ingredient_name(job, ingredient, words)},
             {},
             body([&](const LabelWriter& in) { return in.decanted(mix, ingredient); })});
    }

    [[nodiscard]] Body container_body(const plan::Station& planned,
                                      const job::Station& asked) const {
        std::optional<plan::Date> placed;
        if (planned.placed)
            placed = plan::Date{std::chrono::floor<std::chrono::days>(*planned.placed)};
        const Key key{planned.mix, **asked.container, placed, planned.replace_by,
                      planned.link.empty()};
        const std::lock_guard lock(mutex);
        auto& known = bodies[key];
        if (known == nullptr)
            known = body([&](const LabelWriter& in) { return in.container(planned, asked); });
        return known;
    }

    [[nodiscard]] Label container(std::size_t index) const {
        const auto after = std::upper_bound(begins.begin(), begins.end(), index);
        const auto station = static_cast<std::size_t>(after - begins.begin()) - 1;
        const auto& planned = plan.stations[station];
        const auto& id = planned.container_ids[index - begins[station]];
        const auto& title = *job.mix(planned.mix)->title;
        return {id,
                {text::Run{id, false}},
                {title, planned.id},
                planned.link.empty() ? main().facts(id, planned) : planned.link,
                container_body(planned, job.stations[station])};
    }

    const job::Job& job;
    const plan::Plan& plan;
    std::vector<LabelWriter> writers;  ///< of the main language, and of the second if there is one
    std::vector<std::size_t> begins;   ///< of each station, the index of its first container
    std::size_t containers = 0;
    std::vector<Label> others;  ///< of vessels and jars
    mutable std::mutex mutex;   ///< for the bodies
    mutable std::map<Key, Body> bodies;
};

LabelMaker::LabelMaker(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                       const std::vector<const text::Catalog*>& languages)
    : impl_(std::make_unique<Impl>(job, plan, who, languages)) {}

LabelMaker::~LabelMaker() = default;

std::size_t LabelMaker::size() const {
    return impl_->containers + impl_->others.size();
}

std::size_t LabelMaker::containers() const {
    return impl_->containers;
}

Labels LabelMaker::operator()(std::span<const std::size_t> which) const {
    const auto& words = impl_->main().words();
    Labels made;
    made.title = *impl_->job.title + ": " + words("paper.labels");
    made.author = impl_->job.by ? **impl_->job.by : "";
    made.language = words.tag();
    made.labels.reserve(which.size());
    for (const std::size_t i : which)
        made.labels.push_back(i < impl_->containers ? impl_->container(i)
                                                    : impl_->others.at(i - impl_->containers));
    return made;
}

Labels LabelMaker::operator()() const {
    std::vector<std::size_t> all(size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return (*this)(all);
}

}  // namespace gallipot::document
