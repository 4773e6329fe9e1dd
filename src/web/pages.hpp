#pragma once

#include <optional>
#include <string>
#include <vector>

#include "web/parts.hpp"

/// The pages themselves.
namespace gallipot::web {

/// Links among the pages of a station are relative, so that a reverse proxy may put them anywhere.
/// `key` is the last part of the station's own address.
struct StationPage {
    Place place;
    std::string key;
};

/// What stands above the form after it could not be recorded.
struct FormErrors {
    std::vector<Fault> faults;
    std::optional<log::LocalTime> doubted;  ///< the time that a fault asks about
    std::optional<int> doubted_count;       ///< the count that a fault asks about
    /// When the form was opened: long before it was sent, and a fault asks about it.
    std::optional<log::LocalTime> opened;
    std::string key;  ///< of a text that says what happened, when no field is at fault
    /// The same form was recorded before with other content: which entry, to be asked about.
    std::optional<log::Entry> before;
};

/// The page that a label's code opens.
Response station_page(const Page& page, const StationPage& station, const FormData& form,
                      int status = 200, const FormErrors& errors = {});

/// The form over an entry that is to be corrected, and what that entry says.
Response correction_page(const Page& page, const StationPage& station, const log::Entry& entry,
                         const FormData& form, int status = 200, const FormErrors& errors = {});

/// The form alone, while the log cannot be read: what was typed must not be lost with it.
Response form_page(const Page& page, const StationPage& station, const FormData& form, int status,
                   const FormErrors& errors);

/// What was recorded, in whose place (none: a new visit), and where to go next.
Response saved_page(const Page& page, const StationPage& station, const log::Entry& entry,
                    const std::optional<log::Entry>& before);

/// What the code of a station opens that the job does not have any more. `id` as the code has it.
Response gone_page(const Page& page, const std::string& id);

/// Which part of the overview is asked for.
struct OverviewFilter {
    enum class Show { all, due, flagged, floor, photos, told };
    Show show = Show::all;
    std::string floor;  ///< as the job has it; of Show::floor
    bool operator==(const OverviewFilter&) const = default;
};
/// `?show=due` or `?floor=NAME`; anything else is all.
OverviewFilter overview_filter(const Request& request);

/// All stations, with what neighbours reported and the caretaker's phones. `phone` is the id of the
/// one that asks; `fresh` that it has just opened the caretaker's code.
Response overview_page(const Page& page, const OverviewFilter& filter, const std::string& phone,
                       bool fresh);

/// A form that could not be looked at just now: what was typed, and a button that sends it to
/// `action` once more, with the same fields. Knows nothing of the station or the log.
/// `key` of a text that says why.
Response kept_page(const Page& page, int status, const Form& form, const std::string& action,
                   const std::string& key = "web.trouble.kept");

/// `key` of a text that says what is the matter.
Response plain_page(const Page& page, int status, const std::string& key);

}  // namespace gallipot::web
