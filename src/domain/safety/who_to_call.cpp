#include "domain/safety/who_to_call.hpp"

#include <fmt/format.h>

#include "domain/reference/emergency.hpp"
#include "domain/reference/regions.hpp"

namespace gallipot::safety {

namespace {

using reference::AreaNumber;
using reference::EmergencyHelp;
using reference::Region;
using reference::Standing;

std::string found_numbers(const EmergencyHelp& help) {
    std::string list;
    for (const AreaNumber& number : help.by_area) {
        if (number.standing != Standing::found) continue;
        list += fmt::format("{}{} {}", list.empty() ? "" : ", ", number.area, number.phone);
    }
    return list;
}

void no_region(const job::Help& help, diag::Diagnostics& out) {
    out.error("no-region", help.region.place,
              "without a region nobody can say whom to ring or which rules the labels follow",
              "add help.region: with the two capitals of the country's ISO 3166-1 code, like AU");
}

void no_centre(const job::Help& help, const Region& region, diag::Diagnostics& out) {
    const EmergencyHelp* known = reference::find_emergency_help(region.code);
    const std::string areas = known == nullptr ? "" : found_numbers(*known);
    std::string hint =
        "add help.poison_centre: { name: NAME, phone: NUMBER } with a number you have checked";
    if (!areas.empty()) hint += fmt::format("; those for parts of it: {}", areas);
    if (known != nullptr && !known->note.empty()) hint += fmt::format("; {}", known->note);
    out.error("no-poison-centre", help.region.place,
              fmt::format("no one poison-information number for the public is known for {} ({})",
                          region.code, region.name),
              hint);
}

void no_emergency(const job::Help& help, const Region& region, diag::Diagnostics& out) {
    out.error(
        "no-emergency-number", help.region.place,
        fmt::format("no emergency number is known for sure for {} ({})", region.code, region.name),
        "add help.emergency: with the number that brings an ambulance");
}

void take_centre(WhoToCall& who, const job::Help& help, const Region* region,
                 diag::Diagnostics& out) {
    if (help.poison_centre) {
        who.name = *help.poison_centre->name;
        who.phone = *help.poison_centre->phone;
        who.source = "the job";
        who.vouched = true;
        return;
    }
    if (region == nullptr) return;
    const EmergencyHelp* known = reference::find_emergency_help(region->code);
    if (known == nullptr || !known->phone || known->phone->standing != Standing::found) {
        no_centre(help, *region, out);
        return;
    }
    who.name = known->centre;
    who.phone = known->phone->value;
    who.hours = known->hours;
    who.source = known->phone->source;
    who.note = known->note;
    const std::string areas = found_numbers(*known);
    if (!areas.empty()) {
        who.note += fmt::format("{}{}", who.note.empty() ? "" : "; ", areas);
    }
}

void take_emergency(WhoToCall& who, const job::Help& help, const Region* region,
                    diag::Diagnostics& out) {
    if (help.emergency) {
        who.emergency = **help.emergency;
        who.emergency_source = "the job";
        who.emergency_vouched = true;
        return;
    }
    if (region == nullptr) return;
    const auto number = reference::emergency_number(region->code);
    if (!number || number->standing != Standing::found) {
        no_emergency(help, *region, out);
        return;
    }
    who.emergency = number->value;
    who.emergency_source = number->source;
}

}  // namespace

WhoToCall who_to_call(const job::Help& help, diag::Diagnostics& out) {
    WhoToCall who;
    const Region* region = reference::find_region(*help.region);
    if (region == nullptr) no_region(help, out);
    take_centre(who, help, region, out);
    take_emergency(who, help, region, out);
    return who;
}

void ask_to_confirm(const WhoToCall& who, const job::Help& help, diag::Diagnostics& out) {
    if (who.phone.empty()) return;
    std::string message = fmt::format("the papers will say: {}, {}", who.name, who.phone);
    if (!who.hours.empty()) message += fmt::format(" ({})", who.hours);
    if (!who.emergency.empty()) message += fmt::format("; in an emergency {}", who.emergency);

    std::string hint = "check these once with the authority before you print";
    if (!who.vouched) hint += fmt::format(", the first came from {}", who.source);
    if (!who.note.empty()) hint += fmt::format(" ({})", who.note);
    if (!who.vouched || !who.emergency_vouched) {
        hint += "; help.poison_centre and help.emergency replace them";
    }
    out.warning("confirm-numbers",
                who.vouched ? help.poison_centre->phone.place : help.region.place, message, hint);
}

}  // namespace gallipot::safety
