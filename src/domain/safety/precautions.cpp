#include "domain/safety/precautions.hpp"

#include <algorithm>
#include <iterator>

namespace gallipot::safety {

namespace {

constexpr units::Volume small_package = units::mL(125);

// What Eye Irrit. 2 alone calls for; P280 stays, for reproductive toxicity calls for it too.
constexpr std::string_view of_eye_irritation[] = {"P264", "P305+P351+P338", "H319"};
constexpr std::string_view of_storage[] = {"P201", "P405"};

bool holds(const std::vector<std::string>& codes, std::string_view code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

std::string_view published_code(std::string_view code) {
    if (code.starts_with("us_")) return {};
    return code.substr(0, code.find('-'));
}

std::vector<std::string> precautions_for(const Hazard& hazard, Setting setting) {
    std::vector<std::string> codes = hazard.precaution_codes;
    if (setting == Setting::set_out) {
        std::erase_if(codes, [](const std::string& code) {
            return std::ranges::find(of_storage, code) != std::end(of_storage);
        });
    }
    return codes;
}

std::vector<std::string> may_leave_out(const Hazard& hazard, units::Volume capacity) {
    std::vector<std::string> codes;
    if (hazard.rules != RuleSet::clp_like || capacity > small_package) return codes;
    for (std::string_view code : of_eye_irritation) {
        if (holds(hazard.hazard_codes, code) || holds(hazard.precaution_codes, code)) {
            codes.emplace_back(code);
        }
    }
    return codes;
}

}  // namespace gallipot::safety
