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

/// What the label of a container takes from where it stands; nothing of what stands nowhere yet.
struct OfStation {
    bool near_pets = false;  ///< animals come by
    bool operator==(const OfStation&) const = default;
};
OfStation of_station(const job::Station& station);

class LabelWriter {
  public:
    /// All are kept by reference.
    LabelWriter(const job::Job& job, const plan::Plan& plan, const safety::WhoToCall& who,
                const text::Catalog& words)
        : job_(job), plan_(plan), who_(who), words_(words) {}

    [[nodiscard]] const text::Catalog& words() const { return words_; }

    /// What the label of a container of the plan says, but for its id and code.
    [[nodiscard]] LabelBody body(const plan::Filling& filling, const OfStation& station) const;
    /// What it is called, in large letters: "K1-2", "BOTTLE".
    [[nodiscard]] text::StyledText id(const plan::Container& container) const;
    /// Where the containers of a station belong, as a line of their labels.
    [[nodiscard]] text::StyledText place(const job::Station& station) const;
    /// What it is bookmarked under: mix, then station.
    [[nodiscard]] std::vector<std::string> section(const plan::Container& container) const;
    /// What its code holds: the link, or for a cup without one enough for whoever finds it; empty
    /// for what has no code.
    [[nodiscard]] std::string code(const plan::Container& container) const;

  private:
    [[nodiscard]] Wording say(std::string_view key, const text::Arguments& arguments = {}) const;
    void warn(LabelBody& label, const plan::Filling& filling, const OfStation& station,
              bool bait) const;
    void add_help(LabelBody& label, safety::RuleSet rules, bool near_pets) const;
    void add_contact(LabelBody& label, bool near_pets) const;
    void add_contents(LabelBody& label, const plan::Mix& mix, const std::string& against,
                      Wording contents) const;
    void add_hazards(LabelBody& label, const safety::Hazard& hazard) const;
    void add_precautions(LabelBody& label, const safety::Hazard& hazard,
                         safety::Setting setting) const;
    void add_origin(LabelBody& label, const safety::Hazard& hazard) const;
    void add_cup(LabelBody& label, const plan::Filling& cup) const;
    void add_store(LabelBody& label, const plan::Filling& store) const;
    void add_decanted(LabelBody& label, const plan::Filling& jar) const;
    [[nodiscard]] text::StyledText for_pets() const;
    [[nodiscard]] std::string facts(const plan::Container& cup) const;
    /// "bottle", "sprayer", "mixing_jar", "left": ends the keys of its texts.
    [[nodiscard]] std::string store_name(const plan::Filling& store) const;
    [[nodiscard]] std::string decanted_name(const plan::Filling& jar) const;
    /// Of all with their figures; the same for borates alone; borates alone where there are any.
    enum class Told { all, all_names, borates };
    [[nodiscard]] std::string ingredients(const plan::Mix& mix, const plan::Contents* contents,
                                          Told told) const;
    [[nodiscard]] std::vector<Wording> ingredients(const plan::Mix& mix,
                                                   const plan::Contents* contents) const;
    [[nodiscard]] std::vector<Wording> dates(const plan::Filling& filling) const;

    const job::Job& job_;
    const plan::Plan& plan_;
    const safety::WhoToCall& who_;
    const text::Catalog& words_;
};

}  // namespace gallipot::document
