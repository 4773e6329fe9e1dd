#include "domain/job/region_habits.hpp"

#include "domain/reference/regions.hpp"

namespace gallipot::job {

namespace {

/// Whether `code` is one of the two-letter codes in `list`, parted by blanks.
bool listed(std::string_view list, std::string_view code) {
    return code.size() == 2 && list.find(code) != std::string_view::npos;
}

bool in_united_states(std::string_view region) {
    const reference::Region* known = reference::find_region(region);
    return known != nullptr && known->bloc == reference::Bloc::us;
}

}  // namespace

Paper usual_paper(std::string_view region) {
    // Regions that use US Letter: Unicode CLDR, supplemental measurement data, as in ICU 72
    // (found; a test compares all regions with ICU).
    constexpr std::string_view letter = "BZ CA CL CO CR GT MX NI PA PH PR SV US VE";
    return listed(letter, region) ? Paper::letter : Paper::a4;
}

units::DisplayUnits usual_units(std::string_view region) {
    using units::UnitSystem;
    return {UnitSystem::metric, in_united_states(region) ? UnitSystem::us : UnitSystem::metric,
            usual_kitchen(region)};
}

KitchenSystem usual_kitchen(std::string_view region) {
    // Australia with its external territories.
    constexpr std::string_view australian = "AU CC CX HM NF";
    if (listed(australian, region)) return KitchenSystem::australian;
    return in_united_states(region) ? KitchenSystem::us : KitchenSystem::metric;
}

}  // namespace gallipot::job
