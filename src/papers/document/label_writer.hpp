#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/first_aid.hpp"
#include "domain/safety/precautions.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/document/label.hpp"

/// What the labels of a job say in one language.
namespace gallipot::document {

class LabelWriter {
  public:
    /// All are kept by reference.
    LabelWriter(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                const text::Catalog& words)
        : job_(job), plan_(plan), who_(who), words_(words) {}

    [[nodiscard]] const text::Catalog& words() const { return words_; }

    /// A container at a station of the plan. Containers of one mix, kind, day of placing and of
    /// replacing, all with a link or all without, have the same.
    [[nodiscard]] LabelBody container(const plan::Station& planned,
                                      const job::Station& asked) const;
    /// What a code says when there is no log to open: enough for whoever finds the container.
    [[nodiscard]] std::string facts(const std::string& id, const plan::Station& planned) const;
    /// What a mix is made in ("sprayer", "bottle", "mixing_jar"; the card says the same), or what
    /// is left of it ("left").
    [[nodiscard]] LabelBody store(const plan::Mix& mix, const std::string& kind) const;
    [[nodiscard]] std::string vessel_of(const plan::Mix& mix) const;
    /// A borate out of its packet.
    [[nodiscard]] LabelBody decanted(const plan::Mix& mix,
                                     const plan::Ingredient& ingredient) const;

  private:
    [[nodiscard]] Wording say(std::string_view key, const text::Arguments& arguments = {}) const;
    void warn(LabelBody& label, const safety::Hazard& hazard, safety::Setting setting,
              bool bait) const;
    void add_help(LabelBody& label) const;
    void add_hazards(LabelBody& label, const safety::Hazard& hazard) const;
    void add_precautions(LabelBody& label, const safety::Hazard& hazard,
                         safety::Setting setting) const;
    void add_origin(LabelBody& label, const safety::Hazard& hazard) const;
    [[nodiscard]] std::string ingredients(const plan::Mix& mix, const plan::Contents* contents,
                                          bool all) const;
    [[nodiscard]] std::vector<Wording> dates(const std::optional<plan::LocalTime>& placed,
                                             const std::optional<plan::Date>& replace) const;

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const text::Catalog& words_;
};

}  // namespace gallipot::document
