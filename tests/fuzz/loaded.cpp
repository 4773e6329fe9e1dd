#include "loaded.hpp"

#include <algorithm>

#include "base/system/files.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "fuzz.hpp"
#include "papers/templates/library.hpp"
#include "tracking/keys/link.hpp"

namespace gallipot::fuzz {

const std::string& project() {
    static const std::string folder = GALLIPOT_SOURCE_DIR;
    return folder;
}

const fonts::Faces& faces() {
    static const fonts::Faces faces = fonts::find(project() + "/fonts/fonts.yaml");
    return faces;
}

const std::vector<layout::LabelStock>& stocks() {
    static const auto all = [] {
        const templates::Library library({project() + "/templates"});
        std::vector<layout::LabelStock> good;
        for (const auto& stock : library.stocks()) {
            diag::Diagnostics found;
            if (auto design = library.design(stock, found)) good.push_back({stock, *design});
        }
        return good;
    }();
    return all;
}

const text::Catalog* words(const std::string& language, const std::string& region) {
    static const auto there = text::languages(project() + "/templates");
    static std::map<std::string, text::Catalog> read;
    if (std::find(there.begin(), there.end(), language) == there.end()) return nullptr;
    const std::string name = language + "-" + region;
    auto found = read.find(name);
    if (found == read.end()) {
        diag::Diagnostics out;
        found = read.try_emplace(name, project() + "/templates", language, region, out).first;
        require(!out.has_errors(), "the shipped words are in order", diag::print(out));
    }
    return &found->second;
}

std::optional<Planned> plan_of(const diag::SourcePtr& source, diag::Diagnostics& out,
                               const job::OpenTable& open_table) {
    const auto job = job::read_job(source, out, open_table);
    require(job.has_value() != out.has_errors(), "there is a job or an error", diag::print(out));
    if (!job) return {};
    Planned planned{*job, safety::who_to_call(job->help, out), {}};
    const auto link = [&](const job::Station& station) {
        return job->log.address ? keys::link(**job->log.address, *station.id, "7Q2MX4KD9A")
                                : std::string();
    };
    planned.plan = plan::make_plan(*job, link, out);
    if (out.has_errors()) return {};
    return planned;
}

const Planned& hall() {
    static const Planned planned = [] {
        const std::string path = project() + "/examples/hall.yaml";
        diag::Diagnostics found;
        auto it = plan_of(source_of(path, system::read_file(path)), found);
        require(it.has_value(), "the hall is in order", diag::print(found));
        return std::move(*it);
    }();
    return planned;
}

}  // namespace gallipot::fuzz
