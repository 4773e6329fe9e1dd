#pragma once

#include <functional>
#include <string>

#include "app/session.hpp"
#include "cli/command.hpp"

/// In which language the terminal speaks to the person before it. JSON and files never ask.
namespace gallipot::cli {

/// What LC_ALL, else LC_MESSAGES, else LANG says: "uk_UA.UTF-8" is { "uk", "UA" }. Empty where
/// none is set, and for C and POSIX, which are no language.
struct Locale {
    std::string language, region;
};
Locale locale_of(const Environment& environment);

/// The name of the person's language among those that are `there`: "zh-Hans" for zh_CN; empty where
/// none is theirs (text::catalog_for).
std::string language_of_person(const Environment& environment,
                               const std::function<bool(const std::string&)>& there);

/// The words for what is shown of a job: in the person's language where there are texts in it, else
/// in the job's first. Dates and numbers are written as the job's region does.
const text::Catalog& words_for_person(app::Session& session, const Environment& environment);

/// The same without a job: English where the person's language has no texts.
text::Catalog words_for_person(const app::DataFolders& data, const Environment& environment,
                               diag::Diagnostics& found);

}  // namespace gallipot::cli
