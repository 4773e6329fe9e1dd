#include "cli/person.hpp"

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

const text::Catalog& words_for_person(app::Session& session, const Environment& environment) {
    const std::string language = locale_of(environment).language;
    if (app::languages_there(session.data).contains(language)) return session.words(language);
    return session.words(*session.job->languages.front());
}

text::Catalog words_for_person(const app::DataFolders& data, const Environment& environment,
                               diag::Diagnostics& found) {
    const Locale locale = locale_of(environment);
    if (app::languages_there(data).contains(locale.language))
        return {app::text_folders(data), locale.language, locale.region, found};
    return {app::text_folders(data), "en", "", found};
}

}  // namespace gallipot::cli
