#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/analysis/site.hpp"
#include "tracking/analysis/station_state.hpp"
#include "tracking/analysis/verdict.hpp"
#include "tracking/keys/keys.hpp"
#include "tracking/log/log.hpp"

namespace gallipot::web {

/// What the pages are made from. Only the log changes; all of it may be shared between threads.
struct Context {
    const job::Job& job;
    const plan::Plan& plan;
    const safety::WhoToCall& who;
    std::function<keys::Secret()> secret;  ///< the one that holds at the moment
    log::Log& log;
    log::Zone zone;                                     ///< of the job
    std::function<log::Instant()> now;                  ///< the clock
    std::map<std::string, const text::Catalog*> words;  ///< one for each of the job's languages
    std::string style;                                  ///< the style sheet
    std::vector<analysis::Site> sites;                  ///< analysis::sites(job, plan)

    [[nodiscard]] log::LocalTime local_now() const { return zone.local(now()); }
};

/// One station, found in everything that knows of it.
struct Place {
    const job::Station& asked;
    const plan::Station& planned;
    const analysis::Site& site;
    const job::Mix* mix = nullptr;  ///< none for a control
    const plan::Mix* mixed = nullptr;
};
/// The station at `index` of all the plan's, of those that were taken up too.
Place place_at(const Context& context, std::size_t index);
/// By its id; std::logic_error when there is none.
Place place_of(const Context& context, const std::string& id);

/// How a station stands, from its last visits: as many as a page can show, so that no page takes
/// longer as the log grows.
struct StationState {
    static constexpr std::size_t visits_kept = 60;

    std::vector<log::Entry> visits;  ///< newest first
    analysis::StationReport report;
    std::optional<analysis::Due> due;
    std::optional<analysis::Day> replace_by;
    bool retired = false;
};
StationState station_state_of(const Context& context, const Place& place,
                              std::size_t visits_kept = StationState::visits_kept);

/// The catalog for a request: ?lang= of one of the job's languages, else the first of the job's
/// languages that the phone asks for, else the job's main one.
const text::Catalog& choose_words(const Context& context, const std::string& asked_for,
                                  const std::string& accept_language);

}  // namespace gallipot::web
