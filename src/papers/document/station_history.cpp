#include "papers/document/station_history.hpp"

#include "domain/job/on_day.hpp"
#include "papers/document/verdict_words.hpp"

namespace gallipot::document {

namespace {

using job::Alteration;

/// The station at `index`; null where the job does not have it any more.
const job::Station* find(const job::Job& job, std::size_t index) {
    return index < job.stations.size() + job.retired.size() ? &job.station_at(index) : nullptr;
}

/// A mix by its title; the rest as it is.
std::string shown(const Alteration& it, const std::string& what, const job::Job& job,
                  const text::Catalog& words) {
    const job::Mix* mix = it.what == Alteration::What::mix ? job.mix(what) : nullptr;
    return mix == nullptr ? what : mix->title->in(words.tag());
}

}  // namespace

std::string where_in_report(const job::Job& job, std::size_t index, const text::Catalog& words) {
    const job::Station* station = find(job, index);
    return station == nullptr ? std::string() : station->where(words.tag());
}

std::string changes_sentence(const job::Job& job, std::size_t index, analysis::Day as_of,
                             const text::Catalog& words) {
    const job::Station* station = find(job, index);
    if (station == nullptr) return words("report.change.gone");
    std::string sentences;
    const auto add = [&](const std::string& sentence) {
        sentences += (sentences.empty() ? "" : " ") + sentence;
    };
    for (const Alteration& it : job::alterations(*station, words.tag())) {
        const analysis::Day day = analysis::day_of(it.on);
        if (day > as_of) break;
        text::Arguments arguments{{"day", near_day(day, as_of, words)},
                                  {"from", shown(it, it.from, job, words)},
                                  {"to", shown(it, it.to, job, words)}};
        if (it.what == Alteration::What::count)
            arguments.emplace_back("n", std::int64_t{std::stoi(it.to)});
        add(words("report.change." + std::string(job::word(it.what)), arguments));
    }
    if (station->until) {
        const analysis::Day until{std::chrono::local_days(**station->until)};
        if (until <= as_of)
            add(words("report.change.until", {{"day", near_day(until, as_of, words)}}));
    }
    return sentences;
}

}  // namespace gallipot::document
