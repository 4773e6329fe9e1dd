#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "tracking/log/neighbour.hpp"
#include "tracking/log/phones.hpp"
#include "tracking/log/photo_files.hpp"
#include "tracking/log/zone.hpp"
#include "tracking/visit/visit.hpp"

/// The visits of one job, for good: an SQLite file beside the job file. Entries are only ever
/// added. A correction is a new entry that takes the place of an older one, which stays.
namespace gallipot::log {

/// One line of the log.
struct Entry {
    std::int64_t number = 0;  ///< from 1, in the order of recording
    visit::Visit visit;
    std::optional<std::int64_t> corrects;  ///< the entry whose place it takes
    bool withdrawn = false;  ///< takes the place of an entry with nothing: it was a mistake
    Instant recorded;
    std::vector<PhotoId> photos = {};  ///< taken with it, in the order of choosing

    bool operator==(const Entry&) const = default;
};

/// More than a log will ever have; what is above it is damage.
inline constexpr std::int64_t maximum_entries = 1'000'000'000'000;

/// An entry whose row does not say what an entry can say: it was damaged or doctored. It counts as
/// nothing, and is named.
struct Unreadable {
    std::int64_t number = 0;
    std::string column;  ///< the first that will not do: "time"
};

/// What is to be added.
struct Draft {
    visit::Visit visit;
    /// Names the form it was typed into, so that sending it twice records it once. Empty: none.
    std::string token;
    std::optional<std::int64_t> corrects;
    bool withdrawn = false;
    /// Nobody set the time: a second tap of the same form comes a moment later.
    bool time_is_now = false;
    std::vector<PhotoId> photos = {};  ///< each is among photos() already; maximum_photos at most
};

/// What the job says of a mix or a station at present, for the log to note where it differs from
/// what it knows: a container holds what it was filled with, whatever the job says later.
struct Fact {
    enum class Kind { mix, station };
    Kind kind = Kind::mix;
    std::string name;     ///< its id in the job
    std::string content;  ///< the same for what is the same
    bool operator==(const Fact&) const = default;
};

/// A fact as it was noted, for good.
struct Note {
    Fact fact;
    std::optional<LocalTime> since;  ///< none: it held from the start
    std::int64_t after_entry = 0;    ///< the newest entry when it was noted
    Instant recorded;
};

enum class Outcome {
    recorded,
    already,         ///< the same form with the same content: `entry` is what it recorded
    form_used,       ///< the same form, but other content: nothing recorded, `entry` is the first
    nothing_there,   ///< there is no such entry to correct at this station
    corrected_since  ///< somebody corrected it meanwhile: `entry` is what stands now
};

struct Recorded {
    Outcome outcome = Outcome::recorded;
    Entry entry;
};

/// What a log is opened for.
enum class Opening {
    to_write,  ///< made when it is not there; a damaged one is refused
    to_read    ///< also where nothing can be written; damage() tells whether it is sound
};

/// May be shared between threads and with other processes. Everything throws system::SystemError
/// when the file or the disk fails us. What was returned as recorded is on the disk, and was read
/// again from there; nothing is added to a file that is damaged, or is not the one that was opened.
class Log {
  public:
    /// Brings the file to the newest format. Refuses one that holds anything but a log of ours.
    explicit Log(const std::filesystem::path& file, Opening opening = Opening::to_write);
    ~Log();
    Log(Log&&) noexcept;

    /// From now on, entries logged under an older name of a station are read as entries of the
    /// station. `names`: today's name by the older one; letter case makes no difference in that.
    void set_old_names(const std::map<std::string, std::string>& names);

    /// Notes with it those of `facts` that are new: of mixes, and of the station visited.
    Recorded record(const Draft& draft, Instant now, const std::vector<Fact>& facts = {});

    /// Several forms at once: each has its own outcome, and those that are recorded are so together
    /// or, where the file or the disk fails, none of them.
    std::vector<Recorded> record(const std::vector<Draft>& drafts, Instant now,
                                 const std::vector<Fact>& facts = {});

    /// All or none. A visit that the log already has, corrected since or not, is left out, so the
    /// same list twice adds nothing; two that are alike in the list are two. How many were added.
    std::size_t add_all(const std::vector<visit::Visit>& visits, Instant now,
                        const std::vector<Fact>& facts = {});

    /// Notes `facts` as what held from the start: what was noted before was a slip.
    void note_from_start(const std::vector<Fact>& facts, Instant now);
    /// In the order of noting. A row that cannot be read is left out.
    [[nodiscard]] std::vector<Note> notes() const;

    /// What a neighbour reported. Each form once; `report.number` and `.read` are not asked.
    ReportOutcome report(const NeighbourReport& report, const std::string& token);
    /// The caretaker has looked at that report; nothing when there is none.
    void mark_report_read(std::int64_t number, Instant now);
    /// Newest first.
    [[nodiscard]] std::vector<NeighbourReport> reports(std::size_t maximum) const;

    void add_phone(const std::string& id, const std::string& kind, Instant now);
    void end_phone(const std::string& id, Instant now);
    [[nodiscard]] std::optional<Phone> find_phone(const std::string& id) const;
    /// The caretaker's, newest first, those that are no more the caretaker's too.
    [[nodiscard]] std::vector<Phone> phones(std::size_t maximum) const;

    /// What the form of that token recorded. Throws for one that cannot be read.
    [[nodiscard]] std::optional<Entry> find_form(const std::string& token) const;
    /// Throws for one that cannot be read.
    [[nodiscard]] std::optional<Entry> find(std::int64_t number) const;
    /// What stands now where that entry once stood: itself, or the last correction of it.
    [[nodiscard]] std::optional<Entry> active(std::int64_t number) const;
    /// The last that stand (not corrected, not withdrawn), newest first.
    [[nodiscard]] std::vector<Entry> last(const std::string& station, std::size_t maximum) const;
    /// The last that stands with a count of live pests made by `placed`, else the first of all.
    [[nodiscard]] std::optional<Entry> first_count(
        const std::string& station, std::optional<LocalTime> placed = std::nullopt) const;
    /// The last that stands in which the bait was replaced.
    [[nodiscard]] std::optional<Entry> last_replaced(const std::string& station) const;

    /// Another one whenever an entry or a note was added.
    [[nodiscard]] std::string version() const;

    enum class Which { active, all };
    /// Every entry in order of time, as the log is at the moment of the call; until `use` returns
    /// false. Those that cannot be read go to `left_out`.
    void each(Which which, const std::function<bool(const Entry&)>& use,
              const std::function<void(const Unreadable&)>& left_out) const;

    /// Reads all of the file: what is wrong with it, or nothing.
    [[nodiscard]] std::optional<std::string> damage() const;

    /// A whole copy in one file, safe while others write, with the photos in a folder beside it
    /// (photos_beside). It replaces a file of that name when all of it is complete, never before.
    /// The photos that are not there any more, or not as they were, so that the copy lacks them.
    std::vector<PhotoId> back_up(const std::filesystem::path& copy) const;

    /// Where the photos of its entries are.
    [[nodiscard]] const PhotoFiles& photos() const;

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// Where a job's log is: hall.visits.sqlite beside hall.yaml.
std::filesystem::path file_beside(const std::filesystem::path& job_file);

}  // namespace gallipot::log
