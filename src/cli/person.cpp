#include "cli/person.hpp"

#include <set>

#include "papers/text/tags.hpp"

namespace gallipot::cli {

Locale locale_of(const Environment& environment) {
    std::string name;
    for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        name = environment.environment(variable).value_or("");
        if (!name.empty()) break;
    }
    name = name.substr(0, name.find_first_of(".@"));  // the encoding and the variant
    if (name == "C" || name == "POSIX") return {};
    const auto mark = name.find('_');
    return {name.substr(0, mark), mark == std::string::npos ? "" : name.substr(mark + 1)};
}

std::string language_of_person(const Environment& environment,
                               const std::function<bool(const std::string&)>& there) {
    const Locale locale = locale_of(environment);
    return text::catalog_for(
        locale.region.empty() ? locale.language : locale.language + "-" + locale.region, there);
}

namespace {

std::string language_there(const app::DataFolders& data, const Environment& environment) {
    const std::set<std::string> all = app::languages_there(data);
    return language_of_person(environment,
                              [&](const std::string& name) { return all.contains(name); });
}

}  // namespace

const text::Catalog& words_for_person(app::Session& session, const Environment& environment) {
    const std::string language = language_there(session.data, environment);
    if (!language.empty()) return session.words(language);
    return session.words(*session.job->languages.front());
}

text::Catalog words_for_person(const app::DataFolders& data, const Environment& environment,
                               diag::Diagnostics& found) {
    const std::string language = language_there(data, environment);
    if (!language.empty())
        return {app::text_folders(data), language, locale_of(environment).region, found};
    return {app::text_folders(data), "en", "", found};
}

}  // namespace gallipot::cli
