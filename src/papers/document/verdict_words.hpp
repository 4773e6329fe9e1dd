#pragma once

#include <optional>
#include <string>
#include <vector>

#include "papers/text/catalog.hpp"
#include "tracking/analysis/report.hpp"
#include "tracking/analysis/rounds.hpp"

/// What the analysis found, in the words of a language: for the report, the terminal and the phone.
namespace gallipot::document {

/// One sentence with its numbers.
std::string verdict_sentence(const analysis::StationReport& station, analysis::Day as_of,
                             const text::Catalog& words);
/// The same of all stations against one pest together.
std::string verdict_sentence(const analysis::PestReport& pest, analysis::Day as_of,
                             const text::Catalog& words);

/// The same in a word or two: "no clear change".
std::string verdict_name(analysis::Verdict verdict, const text::Catalog& words);

/// What must not be concluded from a fall; empty for nothing.
std::string caution_sentence(analysis::Caution caution, const text::Catalog& words);

/// The effect against the control with its interval, its formula named, and when the control was
/// counted; empty where there is no figure.
std::string effect_sentence(const analysis::Efficacy& efficacy, analysis::Day as_of,
                            const text::Catalog& words);

/// The effect alone: "79 %"; "none" where there were as many or more.
std::string effect_figure(double percent, const text::Catalog& words);

std::string flag_name(analysis::Flag flag, const text::Catalog& words);

/// "Clear the holes. K1-2: Look for it, and put out another.": what `steps` ask for at `station`,
/// for a list that has its day beside it.
std::string action_sentences(const analysis::StationReport& station,
                             const std::vector<analysis::Step>& steps, analysis::Day as_of,
                             const text::Catalog& words);
/// What is to be done there next and why, a sentence or several for each day: "Now: Clear the
/// holes. Top up." and "By 1 April: Put out fresh bait. The old one keeps no longer."
std::vector<std::string> step_sentences(const analysis::StationReport& station, analysis::Day as_of,
                                        const text::Catalog& words);

/// The day of the next walk and where it leads; empty when there is none.
std::string next_round_sentence(const analysis::Report& report,
                                const std::vector<analysis::Round>& walks,
                                const text::Catalog& words);
/// Where anything stands out; empty when nothing does.
std::string see_to_sentence(const analysis::Report& report, const text::Catalog& words);
/// What on record is left out: visits to stations that the job does not have, entries that cannot
/// be read, times that cannot be right, counts that are not compared. Empty when there is none.
std::string left_out_sentence(const analysis::Report& report, const text::Catalog& words);

/// Of which mixes the log knows several recipes, and that a container holds the one it was filled
/// with; empty when there is none.
std::string recipes_sentence(const job::Job& job, const std::vector<analysis::Site>& sites,
                             const text::Catalog& words);

/// With which exposure a station's numbers are shown, and what is not compared with them; empty
/// where all was counted alike.
std::string counting_sentence(const analysis::StationReport& station, const text::Catalog& words);

/// Pests as counted, or as many as with another exposure: "28", "4.5".
std::string count_text(double seen, const text::Catalog& words);

/// A fall worth showing the days to half and to a tenth of: beyond chance, or to half at least.
bool shows_fall(const analysis::Trend& trend);

/// Without the year where the report's own day makes it plain.
std::string near_day(analysis::Day day, analysis::Day as_of, const text::Catalog& words);

/// "4.2 days", "17 days": a tenth below ten.
std::string days_text(double days, const text::Catalog& words);
/// The figure alone.
std::string days_figure(double days, const text::Catalog& words);

/// "2 to 5"; "from 2" where there is no end to it; empty where there is no range at all.
std::string fall_range(const analysis::FallTime& fall, const text::Catalog& words);
std::string forecast_range(const analysis::Forecast& forecast, analysis::Day as_of,
                           const text::Catalog& words);

/// "-98 %", "+50 %": rounded so that what is left is never rounded away.
std::string change_text(double percent, const text::Catalog& words);

}  // namespace gallipot::document
