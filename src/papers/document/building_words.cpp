#include "papers/document/building_words.hpp"

#include "papers/document/joins.hpp"
#include "papers/document/verdict_words.hpp"
#include "papers/document/words.hpp"

namespace gallipot::document {

namespace {

using analysis::PestReport;
using analysis::Verdict;
using text::Catalog;

}  // namespace

Going going(Verdict verdict) {
    switch (verdict) {
        case Verdict::wood_active:
        case Verdict::rising:
        case Verdict::rebound:
        case Verdict::stalled:
            return Going::badly;
        case Verdict::falling:
        case Verdict::gone:
        case Verdict::none_seen:
        case Verdict::wood_quiet:
            return Going::well;
        case Verdict::not_started:
        case Verdict::retired:
        case Verdict::control:
            return Going::not_begun;
        default:
            return Going::nobody_knows;
    }
}

namespace {

/// Stations against it whose numbers rise, came back or did not fall.
std::vector<std::string> doing_badly(const analysis::Report& report, const PestReport& pest) {
    std::vector<std::string> ids;
    for (const std::size_t i : analysis::worst_first(report)) {
        const analysis::StationReport& station = report.stations[i];
        if (station.pest == pest.pest &&
            analysis::badness(station.verdict) >= analysis::badness(Verdict::stalled))
            ids.push_back(station.id);
    }
    return ids;
}

Going going_against(const analysis::Report& report, const PestReport& pest) {
    const Going all = going(pest.verdict);
    return all == Going::well && !doing_badly(report, pest).empty() ? Going::partly : all;
}

}  // namespace

std::vector<PestLine> pest_lines(const job::Job& job, const analysis::Report& report,
                                 const Catalog& words) {
    std::vector<PestLine> lines;
    for (const PestReport& pest : report.pests) {
        PestLine line;
        line.pest = text::capitalised(pest_name(job, pest.pest, words));
        line.verdict = verdict_sentence(pest, report.as_of, words);
        line.evidence = effect_sentence(pest.efficacy, report.as_of, words);
        const std::string caution = caution_sentence(pest.caution, words);
        if (!line.evidence.empty() && !caution.empty()) line.evidence += ' ';
        line.evidence += caution;
        const auto badly = doing_badly(report, pest);
        if (!badly.empty() && going(pest.verdict) == Going::well)
            line.except = words("building.except", {{"ids", words.list(badly)}});
        lines.push_back(std::move(line));
    }
    return lines;
}

std::string building_sentence(const job::Job& job, const analysis::Report& report,
                              const Catalog& words) {
    if (report.pests.size() < 2) return {};
    std::vector<std::string> parts;
    const auto add = [&](const char* key, Going how) {
        std::vector<std::string> pests;
        for (const PestReport& pest : report.pests)
            if (going_against(report, pest) == how)
                pests.push_back(pest_name(job, pest.pest, words));
        if (!pests.empty())
            parts.push_back(words(std::string("building.") + key, {{"pests", words.list(pests)}}));
    };
    add("bad", Going::badly);
    add("open", Going::nobody_knows);
    add("partly", Going::partly);
    add("good", Going::well);
    if (parts.empty()) return {};
    return words("building.head", {{"parts", joined(words, Join::semicolon, parts)}});
}

std::string call_sentence(const analysis::Report& report, const Catalog& words) {
    if (report.building.call_professional.empty()) return {};
    std::vector<std::string> ids;
    for (const std::size_t i : report.building.call_professional)
        ids.push_back(report.stations[i].id);
    return words("building.call", {{"ids", words.list(ids)}});
}

}  // namespace gallipot::document
