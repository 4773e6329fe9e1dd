#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/plan_json.hpp"
#include "cli/plan_text.hpp"
#include "domain/job/on_day.hpp"
#include "domain/plan/planner.hpp"
#include "loaded.hpp"
#include "papers/document/caretaker_sheet.hpp"
#include "papers/document/household_sheet.hpp"
#include "papers/document/make_labels.hpp"
#include "papers/document/mixing_card.hpp"
#include "papers/document/placement_plan.hpp"
#include "papers/document/takedown_sheet.hpp"
#include "papers/document/tasting_sheet.hpp"
#include "papers/document/visit_sheets.hpp"
#include "papers/layout/flow.hpp"
#include "papers/layout/overflow.hpp"
#include "placed.hpp"
#include "tracking/keys/link.hpp"

/// A job file from its text to items on pages.
namespace gallipot::fuzz {
namespace {

using Json = nlohmann::json;

/// Every figure is a number; only what may not exist at all is null.
void check_figures(const Json& json, const std::string& name) {
    if (json.is_null()) require(name.ends_with("_C"), "every figure of a mix is a number", name);
    if (json.is_number()) require(std::isfinite(json.get<double>()), "figures are finite", name);
    if (json.is_object())
        for (const auto& [key, value] : json.items()) check_figures(value, key);
    if (json.is_array())
        for (const auto& value : json) check_figures(value, name);
}

void check_plan(const Planned& it) {
    std::ostringstream written;
    cli::write_plan_json(written, it.job, it.who, it.plan, {}, {});
    const auto json = Json::parse(written.str());
    for (const auto& [name, mix] : json.at("mixes").items()) {
        check_figures(mix, name);
        require(mix.at("batches").get<int>() > 0, "a mix has a batch", name);
        require(mix.at("mass_g").get<double>() > 0, "a batch weighs something", name);
    }
    require(it.plan.stations.size() == it.job.stations.size(), "every station is planned");
    for (const auto& station : it.plan.stations)
        require(static_cast<int>(station.container_ids.size()) == station.containers,
                "every container has a number", station.id);
    const auto& english = *words("en", *it.job.help.region);
    for (const std::size_t width : {0u, 60u})
        require(!cli::plan_text(it.job, it.plan, english, {false, width}).empty(),
                "a plan can be shown");
}

/// The job on some of the days on which it changes: planned as it is, and no station lost.
void check_days(const Planned& it) {
    constexpr std::size_t maximum = 3;
    const auto days = job::days_of_change(it.job);
    for (std::size_t i = 0; i < std::min(days.size(), maximum); ++i) {
        const job::Job then = job::on_day(it.job, days[i]);
        require(then.stations.size() + then.retired.size() == it.job.stations.size(),
                "every station is there or was");
        diag::Diagnostics found;
        const plan::Plan plan = plan::make_plan(then, {}, found);
        require(plan.all_stations() == it.job.stations.size(), "every station is planned");
        for (std::size_t s = 0; s < plan.all_stations(); ++s)
            static_cast<void>(job::alterations(then.station_at(s), {}));
    }
}

/// Pages take time by what stands on them; the fuzzer is after other things than long lists.
bool is_small(const plan::Plan& plan) {
    constexpr std::size_t maximum = 200;
    std::size_t lines = 0;
    for (const auto& station : plan.stations)
        lines += station.container_ids.size() + station.visits.size();
    return lines <= maximum;
}

using Sheets = std::vector<document::Sheet>;

Sheets sheets(const Planned& it, std::size_t which, const text::Catalog& words) {
    using namespace document;
    switch (which) {
        case 0:
            return {household_sheet(it.job, it.plan, it.who, words)};
        case 1:
            return sets_out_bait(it.job) ? Sheets{tasting_sheet(it.job, it.plan, words)} : Sheets{};
        case 2:
            return mixing_cards(it.job, it.plan, it.who, words);
        case 3:
            return {placement_plan(it.job, it.plan, it.who, words)};
        case 4:
            return {visit_sheets(it.job, it.plan, words)};
        case 5:
            return {takedown_sheet(it.job, it.plan, it.who, words)};
        default:
            break;
    }
    if (!it.job.log.address || keys::own_page(**it.job.log.address)) return {};
    return {caretaker_sheet(it.job, it.plan,
                            keys::overview_link(**it.job.log.address, "7Q2MX4KD9A"), words)};
}
constexpr std::size_t papers = 7;  // and the labels

void lay_out_sheets(const Planned& it, std::size_t which, const text::Catalog& words) {
    document::Document document{it.job.title->main(), "", words.tag(), sheets(it, which, words)};
    if (document.sheets.empty()) return;
    const auto style =
        *it.job.paper == job::Paper::letter ? layout::letter_style() : layout::a4_style();
    check_placed(layout::lay_out(document, style, faces()));
}

void lay_out_labels(const Planned& it, const std::vector<const text::Catalog*>& words) {
    for (const auto& stock : stocks()) {
        if (stock.stock.name != *it.job.labels) continue;
        const auto labels = document::LabelMaker(it.job, it.plan, it.who, words)();
        const auto placed = layout::place_labels(labels, stock, faces(), {}, {});
        require(placed.labels.size() == labels.labels.size(), "every label is placed");
    }
}

void lay_out(const Planned& it, std::size_t which) {
    std::vector<const text::Catalog*> spoken;
    for (const auto& language : it.job.languages)
        if (const auto* known = words(*language, *it.job.help.region)) spoken.push_back(known);
    if (spoken.empty()) return;
    try {
        if (which == papers) return lay_out_labels(it, spoken);
        for (const auto* language : spoken) lay_out_sheets(it, which, *language);
    } catch (const layout::LayoutError& error) {
        require(!error.overflows().empty(), "what does not fit is named");
        for (const auto& overflow : error.overflows())
            require(!overflow.what.english().empty() && !overflow.problem.english().empty() && !overflow.remedy.english().empty(),
                    "what does not fit is told in full", overflow.what.english());
    }
}

}  // namespace
}  // namespace gallipot::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    const std::string text = text_of(data, size);
    diag::Diagnostics found;
    const auto planned = plan_of(source_of("job.yaml", text), found);
    check_told(found);
    if (!planned) return 0;
    check_plan(*planned);
    check_days(*planned);
    if (!is_small(planned->plan)) return 0;
    const std::size_t one = way(text, papers + 1);
    for (std::size_t which = 0; which <= papers; ++which)
        if (thorough || which == one) lay_out(*planned, which);
    return 0;
}
