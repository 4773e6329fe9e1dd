#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/plan.hpp"
#include "domain/safety/who_to_call.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/evidence/evidence.hpp"
#include "tracking/keys/keys.hpp"
#include "tracking/log/log.hpp"

namespace gallipot::web {

/// What job and log say today, read anew once the log or the day is another. May be shared between
/// threads.
class EvidenceReader {
  public:
    using Shared = std::shared_ptr<const evidence::Evidence>;

    Shared read(const job::Job& job, const plan::Plan& plan, const log::Log& visits,
                log::LocalTime now);

  private:
    std::mutex mutex_;
    std::string version_;
    analysis::Day day_{};
    Shared known_;
};

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
    std::string script;                                 ///< of the round's page
    std::vector<analysis::Site> sites;                  ///< analysis::sites(job, plan)
    std::vector<log::Fact> facts = evidence::facts_of(job, plan);  ///< to be noted with each visit
    std::string photo_script = {};  ///< of pages with a form for a visit
    /// The household sheet as a page, whole in itself, with its own style sheet.
    std::function<std::string(const text::Catalog&)> household = {};
    std::string household_style = {};
    std::shared_ptr<EvidenceReader> reader = std::make_shared<EvidenceReader>();

    [[nodiscard]] log::LocalTime local_now() const { return zone.local(now()); }
    /// As at the end of today. Throws system::SystemError where the log cannot be read.
    [[nodiscard]] EvidenceReader::Shared evidence_now() const {
        return reader->read(job, plan, log, local_now());
    }
};

/// One station, found in everything that knows of it.
struct Place {
    const job::Station& asked;
    const plan::Station& planned;
    const analysis::Site& site;
    std::size_t index = 0;          ///< among the stations of the plan
    const job::Mix* mix = nullptr;  ///< none for a control
    const plan::Mix* mixed = nullptr;
};
/// The station at `index` of all the plan's, of those that were taken up too.
Place place_at(const Context& context, std::size_t index);
/// By its id; std::logic_error when there is none.
Place place_of(const Context& context, const std::string& id);

/// How a station stands: the same as the report says of it.
struct StationState {
    static constexpr std::size_t visits_kept = 60;  ///< as many as a page can show

    std::vector<log::Entry> visits;  ///< newest first
    EvidenceReader::Shared evidence;
    std::size_t index = 0;

    [[nodiscard]] const analysis::StationReport& report() const {
        return evidence->report.stations.at(index);
    }
    [[nodiscard]] const analysis::Site& site() const { return evidence->sites.at(index); }
    [[nodiscard]] bool retired() const { return report().retired; }
};
StationState station_state_of(const Context& context, const Place& place,
                              std::size_t visits_kept = StationState::visits_kept);

/// The catalog for a request: ?lang= of one of the job's languages, else the first of the job's
/// languages that the phone asks for, else the job's main one.
const text::Catalog& choose_words(const Context& context, const std::string& asked_for,
                                  const std::string& accept_language);

}  // namespace gallipot::web
