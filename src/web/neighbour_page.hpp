#pragma once

#include <string>

#include "web/pages.hpp"

/// What a label's code opens on a phone that is not the caretaker's.
namespace gallipot::web {

/// The form that tells the caretaker something, as it was typed.
struct ReportForm {
    std::string token;  ///< names this form: sent twice, it records once
    bool spilt = false, missing = false, pests = false;
    std::string words;
};
ReportForm report_form(const Form& form);
ReportForm empty_report();

/// What it is, when it was last looked after, the form, first aid. `key` of a text that says why
/// the form was not taken. Of the visits nothing but the day of the last is shown. Where the log
/// cannot be read, that day is left out.
Response neighbour_page(const Page& page, const StationPage& station, const ReportForm& form,
                        int status = 200, const std::string& key = {});

/// That the caretaker will see it.
Response told_page(const Page& page, const StationPage& station);

/// What a report says: "spilt, pests seen" and its words, for the caretaker.
Html report_facts(const Page& page, const log::NeighbourReport& report);

}  // namespace gallipot::web
