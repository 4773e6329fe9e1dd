#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/reference/cited.hpp"

namespace gallipot::safety {

/// The source of a number that the job alone gives.
inline constexpr const char* of_the_job = "the job";

/// A number that papers show, and how far it can be trusted.
struct ShownNumber {
    std::string phone;
    /// of_the_job, or the table's: also where the job gives the number that the table has, as a
    /// starter does, so that papers go on to ask for a look.
    std::string source;
    std::optional<job::Date> shown_on;  ///< the last day its source is known to have shown it
    bool vouched = false;               ///< the job gave it: the user answers for it

    /// Whether it is to be looked up again before a job of that day: its source showed it more than
    /// two years before, or nobody knows when. Never one that the job alone gave.
    [[nodiscard]] bool is_old(job::Date prepared) const;
};

/// Whom a paper tells its reader to call.
struct WhoToCall {
    job::LocalText name;  ///< of the poison centre
    std::string phone;
    std::string hours;   ///< "24/7"; empty when not known
    std::string source;  ///< as ShownNumber has it
    std::optional<job::Date> shown_on;
    bool vouched = false;
    std::string emergency;
    std::string emergency_source;
    std::optional<job::Date> emergency_shown_on;
    bool emergency_vouched = false;
    job::LocalText vet_name;  ///< for animals; may be empty, as the number may
    std::string vet_phone;
    std::string vet_source;
    std::optional<job::Date> vet_shown_on;
    bool vet_vouched = false;
    std::string note;  ///< what the number leaves out, English, for `check`

    /// Those there are: the poison centre's, the emergency number, the one for animals.
    [[nodiscard]] std::vector<ShownNumber> numbers() const;
};

/// From the job, else from the table. A number that was only recalled is not printed by itself: it
/// is an error at help.region that asks for help.poison_centre or help.emergency; so is a region
/// without one number for the public, and a job without a region (that a region is one, the job's
/// own rules see to). The fields concerned are then empty.
WhoToCall who_to_call(const job::Help& help, diag::Diagnostics& out);

/// `check` says once which numbers will be printed and asks to look them up: a warning at what
/// decided them, and another that names each that is old on the day of preparation. Nothing of
/// what the job gives itself.
void ask_to_confirm(const WhoToCall& who, const job::Help& help, job::Date prepared,
                    diag::Diagnostics& out);

}  // namespace gallipot::safety
