#pragma once

#include <string>
#include <vector>

#include "web/pages.hpp"

/// The form of a round: a row for each stop, each with a token of its own, so that it can be sent
/// again without recording anything twice.
namespace gallipot::web {

/// More rows are not on one page, nor read from one form; what is left comes once these are sent.
inline constexpr std::size_t maximum_stops = 100;

struct RoundRow {
    std::string prefix;                  ///< of its fields' names: "r3."
    std::string id;                      ///< of the station
    std::optional<std::size_t> station;  ///< index into the plan's; none: the job has none of it
    std::string to_do;                   ///< what is to be done there
    FormData data;
    FormErrors errors;
    bool returned = false;                 ///< it was sent and comes back as it was typed
    std::optional<std::int64_t> recorded;  ///< the entry that it became
};

struct RoundForm {
    std::optional<analysis::Day> on;  ///< of the round; none when nothing is due
    std::vector<RoundRow> rows;
    std::string by;
    std::string opened;
    std::string when;
    std::string key;           ///< of a text that says why nothing was recorded
    std::size_t left_out = 0;  ///< stops that are not among the rows

    [[nodiscard]] std::size_t recorded() const;
    [[nodiscard]] std::size_t faulty() const;
};

/// An empty one for the round that is next.
RoundForm next_round_form(const Page& page, const std::string& by);
/// As it was sent.
RoundForm round_form(const Page& page, const Form& form);

Response round_page(const Page& page, const RoundForm& form, int status = 200);

}  // namespace gallipot::web
