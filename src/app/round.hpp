#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/papers.hpp"
#include "app/report.hpp"
#include "app/session.hpp"

/// The next round, whole: who to see, what to do there, what to make for it and which labels to
/// print.
namespace gallipot::app {

/// A container that is filled afresh, or topped up, on the round.
struct ToFill {
    std::string id;           ///< "K1-2"
    std::size_t station = 0;  ///< index into the job's
    double part = 1;          ///< of a full container, in quarters
    bool fresh = true;        ///< it holds nothing else; it gets a fresh label
};

struct NextRound {
    analysis::Day on{};
    std::vector<analysis::Stop> stops;   ///< in walking order; empty when nothing is due
    std::optional<analysis::Day> later;  ///< then: when something is
    std::vector<ToFill> fill;
    /// A job of its own: what is to be made for the round, each container a station of its own.
    /// Its codes and the ids of its labels are those of the whole job.
    Session to_make;
    std::vector<std::string> labels;  ///< ids of the containers that get a fresh one
};

/// On `on`; without it on the day of the first round that is due from `evidence`'s day on. What
/// cannot be made is an error in the found of `to_make`.
NextRound next_round(const Session& session, const Evidence& evidence,
                     std::optional<analysis::Day> on);

/// Its papers: round.pdf (the sheet), cards.pdf and labels.pdf for what is made afresh; in further
/// languages of the job round-es.pdf and so on. Errors go to the found of `round.to_make`.
Papers round_papers(NextRound& round, const Session& session, const Evidence& evidence,
                    const Resources& resources, const PaperChoice& choice);

}  // namespace gallipot::app
