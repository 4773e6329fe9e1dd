#pragma once

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
    std::string sure;  ///< the time that was asked about, when it was said to be right
};
FormData data(const Form& form);
/// An entry that is to be corrected, with a new token.
FormData data(const log::Entry& entry);
/// What a form that corrects `old` does not hold stays as it was. Of boxes none is sent when none
/// is ticked: those of `state` and `did` were there when the level was.
void keep_what_is_not_there(FormData& data, const Form& form, const log::Entry& old);
/// An empty one with a new token.
FormData empty_form(const std::string& station, const std::string& by);

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
};
/// `now` is what an empty time means. `old` is the entry that is corrected: what has no field
/// stays.
FormContext read_visit(const FormData& data, const plan::Plan& plan, const plan::Station& station,
                       const log::Zone& zone, log::LocalTime now,
                       const std::optional<log::Entry>& old = std::nullopt);

}  // namespace gallipot::web
