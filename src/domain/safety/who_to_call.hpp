#pragma once

#include <string>
#include <string_view>

#include "base/diag/diagnostic.hpp"
#include "domain/job/job.hpp"
#include "domain/reference/cited.hpp"

namespace gallipot::safety {

/// Whom a paper tells its reader to ring.
struct WhoToCall {
    std::string name;  ///< of the poison centre
    std::string phone;
    std::string hours;  ///< "24/7"; empty when not known
    std::string source;
    bool vouched = false;  ///< the job gave it: the user answers for it
    std::string emergency;
    std::string emergency_source;
    bool emergency_vouched = false;
    std::string note;  ///< what the number leaves out, English, for `check`
};

/// From the job, else from the table. A number that was only recalled is not printed by itself: it
/// is an error at help.region that asks for help.poison_centre or help.emergency; so is a region
/// without one number for the public, and a job without a region (that a region is one, the job's
/// own rules see to). The fields concerned are then empty.
WhoToCall who_to_call(const job::Help& help, diag::Diagnostics& out);

/// `check` says once which numbers will be printed and asks to try them: a warning at what decided
/// them. Nothing when there is no number.
void ask_to_confirm(const WhoToCall& who, const job::Help& help, diag::Diagnostics& out);

}  // namespace gallipot::safety
