#include "domain/safety/precautions.hpp"

#include <algorithm>
#include <iterator>

namespace gallipot::safety {

namespace {

constexpr units::Volume small_package = units::mL(125);

// What Eye Irrit. 2 alone calls for; P280 is reproductive toxicity's too.
constexpr std::string_view of_eye_irritation[] = {"P264", "P305+P351+P338"};
constexpr std::string_view of_storage[] = {"P201", "P405"};
constexpr std::string_view minimum_needed_first[] = {"P201", "P264", "P280", "P501",
                                                     "P305+P351+P338"};

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

std::vector<std::string> leave_out_order(const Hazard& hazard, Setting setting,
                                         units::Volume capacity) {
    if (hazard.rules != RuleSet::clp_like) return {};
    const auto carried = precautions_for(hazard, setting);
    std::vector<std::string> order;
    const auto give_up = [&](std::string_view published) {
        for (const auto& code : carried)
            if (published_code(code) == published &&
                std::find(order.begin(), order.end(), code) == order.end())
                order.push_back(code);
    };
    if (capacity <= small_package)
        for (const auto code : of_eye_irritation) give_up(code);
    for (const auto code : minimum_needed_first)
        if (code != "P501" || setting == Setting::set_out) give_up(code);
    return order;
}

}  // namespace gallipot::safety
