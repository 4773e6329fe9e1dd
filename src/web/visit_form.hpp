#pragma once

#include <chrono>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"
#include "tracking/log/log.hpp"
#include "web/form.hpp"

/// The form of a visit: what was typed, what it means, and what is wrong with it.
namespace gallipot::web {

/// As it stands in the fields, so that it can be shown again when something was wrong.
struct FormData {
    std::string token;    ///< names this form: sent twice, it records once
    std::string station;  ///< "K1", or "K1-2" for one container
    std::string seen, dead, minutes, young, trap_nights, level, feeding, by, time, note;
    std::set<std::string> state, did;
    std::string corrects;  ///< number of the entry whose place it takes
    bool withdraw = false;
    std::string sure;       ///< the time that was asked about, when it was said to be right
    std::string sure_seen;  ///< the count that was asked about, when it was said to be right
    std::string opened;     ///< when the form was made, as log::print_time() has it
    std::string when;       ///< that time or "now": the answer, where it was asked about
    bool well = false;      ///< "all well, same level" was pressed
    /// Photos that are kept already: of the entry that is corrected, or of this form as it was sent
    /// before and came back.
    std::vector<log::PhotoId> photos;
};
/// Of a page with several rows, that whose fields have the `prefix`.
FormData data(const Form& form, const std::string& prefix = {});
/// Whether nothing was typed into it that a visit could hold.
bool is_empty(const FormData& data);
/// An entry that is to be corrected, with a new token.
FormData data(const log::Entry& entry);
/// What a form that corrects `old` does not hold stays as it was. Of boxes none is sent when none
/// is ticked: those of `state` and `did` were there when the level was.
void keep_what_is_not_there(FormData& data, const Form& form, const log::Entry& old);
/// An empty one with a new token. `now` is when it is made.
FormData empty_form(log::LocalTime now, const std::string& station, const std::string& by);

/// How full each container is that stands there well, by its number; one that was taken up is left
/// out. Empty where something is open at any of them, or nobody knows how full one is.
using Levels = std::map<int, int>;

/// A form that was opened so long before it was sent is asked when what it says was seen.
inline constexpr std::chrono::minutes fresh_form{30};

/// What the log says that a form is held against.
struct Before {
    std::optional<log::Entry> old;       ///< the entry that is corrected: what has no field stays
    std::optional<int> seen;             ///< the last count there
    Levels levels;                       ///< of each container now
    std::optional<log::Entry> recorded;  ///< what this form recorded before
};

/// The number of an entry as a form or a path has it: from 1, digits only.
std::optional<std::int64_t> entry_number(const std::string& text);

/// 128 random bits. Not a secret: it tells forms apart.
std::string new_token();

/// What keeps it from being recorded. `key` is that of a text below web.fault.
struct Fault {
    std::string field;  ///< its name in the form
    std::string key;
    text::Arguments arguments;
};

struct FormContext {
    log::Draft draft;
    std::vector<Fault> faults;              ///< in the order of the fields
    std::optional<log::LocalTime> doubted;  ///< a time that may be a slip: one of the faults
    std::optional<int> doubted_count;       ///< a count that may be a slip: one of the faults
    std::optional<log::LocalTime> opened;   ///< when the form was opened: one of the faults asks
    /// All is well, but the containers are not equally full: an entry for each of them.
    Levels each;
};
/// `now` is what an empty time means.
FormContext read_visit(const FormData& data, const plan::Plan& plan, const plan::Station& station,
                       const log::Zone& zone, log::LocalTime now, const Before& before = {});

/// What it records: one entry, or one for each container. The token of the last is the form's.
std::vector<log::Draft> drafts_of(const FormContext& reading);

}  // namespace gallipot::web
