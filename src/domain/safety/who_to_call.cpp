#include "domain/safety/who_to_call.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "base/strings/dates.hpp"
#include "domain/reference/emergency.hpp"
#include "domain/reference/regions.hpp"

namespace gallipot::safety {

namespace {

using reference::AreaNumber;
using reference::EmergencyHelp;
using reference::Provenance;
using reference::Region;

std::string found_numbers(const EmergencyHelp& help) {
    std::string list;
    for (const AreaNumber& number : help.by_area) {
        if (number.phone.provenance != Provenance::found) continue;
        list += fmt::format("{}{} {}", list.empty() ? "" : ", ", number.area, number.phone.value);
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
    diag::Text hint =
        "add help.poison_centre: { name: NAME, phone: NUMBER } with a number you have checked";
    if (!areas.empty()) hint = diag::say("{}; those for parts of it: {}", hint, areas);
    if (known != nullptr && !known->note.empty())
        hint = diag::say("{}; {}", hint, diag::term(known->note));
    out.error("no-poison-centre", help.region.place,
              diag::say("no one poison-information number for the public is known for {} ({})",
                        region.code, diag::term(region.name)),
              hint);
}

void no_emergency(const job::Help& help, const Region& region, diag::Diagnostics& out) {
    out.error("no-emergency-number", help.region.place,
              diag::say("no emergency number is known for sure for {} ({})", region.code,
                        diag::term(region.name)),
              "add help.emergency: with the number that brings an ambulance");
}

/// The digits alone: "13 11 26" and "131126" are one number.
std::string digits_of(std::string_view number) {
    std::string digits;
    for (const char c : number)
        if (c >= '0' && c <= '9') digits += c;
    return digits;
}

bool same_number(std::string_view a, std::string_view b) {
    return digits_of(a) == digits_of(b) && !digits_of(a).empty();
}

/// Whether it is the number that the table has.
bool is_tables(std::string_view phone, const std::optional<reference::Number>& number) {
    return number && number->provenance == Provenance::found && same_number(phone, number->value);
}

void take_source(std::string& source, std::optional<job::Date>& shown_on,
                 const reference::Number& from) {
    source = from.source;
    shown_on = from.shown_on;
}

void take_centre(WhoToCall& who, const job::Help& help, const Region* region,
                 diag::Diagnostics& out) {
    const EmergencyHelp* known =
        region == nullptr ? nullptr : reference::find_emergency_help(region->code);
    if (help.poison_centre) {
        who.name = *help.poison_centre->name;
        who.phone = *help.poison_centre->phone;
        who.source = of_the_job;
        who.vouched = true;
        if (known != nullptr && is_tables(who.phone, known->phone))
            take_source(who.source, who.shown_on, *known->phone);
        return;
    }
    if (region == nullptr) return;
    if (known == nullptr || !known->phone || known->phone->provenance != Provenance::found) {
        no_centre(help, *region, out);
        return;
    }
    who.name = std::string(known->centre);
    who.phone = known->phone->value;
    who.hours = known->hours;
    who.source = known->phone->source;
    who.shown_on = known->phone->shown_on;
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
        who.emergency_source = of_the_job;
        who.emergency_vouched = true;
        if (region != nullptr)
            if (const auto known = reference::emergency_number(region->code);
                is_tables(who.emergency, known))
                take_source(who.emergency_source, who.emergency_shown_on, *known);
        return;
    }
    if (region == nullptr) return;
    const auto number = reference::emergency_number(region->code);
    if (!number || number->provenance != Provenance::found) {
        no_emergency(help, *region, out);
        return;
    }
    who.emergency = number->value;
    who.emergency_source = number->source;
    who.emergency_shown_on = number->shown_on;
}

/// Where none is known papers name none: an animal's first aid is to ask any vet.
void take_vet(WhoToCall& who, const job::Help& help, const Region* region) {
    const EmergencyHelp* known =
        region == nullptr ? nullptr : reference::find_emergency_help(region->code);
    if (help.vet) {
        who.vet_name = *help.vet->name;
        who.vet_phone = *help.vet->phone;
        who.vet_source = of_the_job;
        who.vet_vouched = true;
        if (known != nullptr && is_tables(who.vet_phone, known->animal_phone))
            take_source(who.vet_source, who.vet_shown_on, *known->animal_phone);
        return;
    }
    if (known == nullptr || !known->animal_phone) return;
    if (known->animal_phone->provenance != Provenance::found) return;
    who.vet_name = std::string(known->animal_centre);
    who.vet_phone = known->animal_phone->value;
    who.vet_source = known->animal_phone->source;
    who.vet_shown_on = known->animal_phone->shown_on;
}

bool has_centre(const EmergencyHelp& help, std::string_view phone) {
    const auto is = [&](const reference::Number& number) {
        return same_number(number.value, phone);
    };
    return (help.phone && is(*help.phone)) ||
           std::ranges::any_of(help.by_area, [&](const auto& area) { return is(area.phone); });
}

/// A number of the job that belongs to another region: the region was changed and this was not.
void tell_of_elsewhere(const job::Help& help, diag::Diagnostics& out) {
    const Region* here = reference::find_region(*help.region);
    if (here == nullptr) return;
    const EmergencyHelp* known = reference::find_emergency_help(here->code);
    const auto tell = [&](const diag::At<std::string>& number, const char* what,
                          const EmergencyHelp& other, bool known_here) {
        const Region* there = reference::find_region(other.region);
        out.warning(
            "number-of-elsewhere", number.place,
            diag::say("{} is the {} of {}, and the region is {} ({})", *number, diag::Text(what),
                      diag::term(there->name), here->code, diag::term(here->name)),
            known_here ? "look the number up and write it, or take it out: then the one "
                         "known for the region is printed"
                       : "look the number up and write it");
    };
    const auto elsewhere = [&](const auto& has) -> const EmergencyHelp* {
        if (known != nullptr && has(*known)) return nullptr;
        const EmergencyHelp* one = nullptr;
        for (const EmergencyHelp& other : reference::emergency_help()) {
            if (!has(other)) continue;
            // A number that several share may well be right in one more.
            if (one != nullptr) return nullptr;
            one = &other;
        }
        return one;
    };
    if (help.poison_centre && !help.poison_centre->phone->empty()) {
        const auto* other = elsewhere(
            [&](const EmergencyHelp& it) { return has_centre(it, *help.poison_centre->phone); });
        if (other != nullptr)
            tell(help.poison_centre->phone, "poison-information number", *other,
                 known != nullptr && known->phone);
    }
    const auto usual = reference::emergency_number(here->code);
    if (help.emergency && usual && !same_number(usual->value, **help.emergency)) {
        const auto* other = elsewhere([&](const EmergencyHelp& it) {
            return it.emergency && same_number(it.emergency->value, **help.emergency);
        });
        if (other != nullptr) tell(*help.emergency, "emergency number", *other, true);
    }
    if (help.vet && !help.vet->phone->empty()) {
        const auto* other = elsewhere([&](const EmergencyHelp& it) {
            return it.animal_phone && same_number(it.animal_phone->value, *help.vet->phone);
        });
        if (other != nullptr)
            tell(help.vet->phone, "animal poison line", *other,
                 known != nullptr && known->animal_phone);
    }
}

void confirm(const WhoToCall& who, const job::Help& help, diag::Diagnostics& out) {
    diag::Text message = diag::say("your papers will show {} {}", who.name.main(), who.phone);
    if (!who.hours.empty()) message = diag::say("{} ({})", message, diag::term(who.hours));
    if (!who.emergency.empty()) message = diag::say("{} and emergency {}", message, who.emergency);
    std::vector<std::string> keys;
    if (!who.vouched) keys.emplace_back("help.poison_centre");
    if (!who.emergency_vouched) keys.emplace_back("help.emergency");
    diag::Text hint = diag::say("look both up once; to confirm or change them, set {}",
                                diag::chained(keys, "{} and {}"));
    if (!who.note.empty()) hint = diag::say("{} ({})", hint, diag::term(who.note));
    out.warning("confirm-numbers",
                who.vouched ? help.poison_centre->phone.place : help.region.place, message, hint);
}

/// "13 11 26 (its source last showed it on 2023-08-01)"
diag::Text age_in_words(const ShownNumber& number) {
    if (!number.shown_on) return diag::say("{} (its source gives no day)", number.phone);
    return diag::say("{} (its source last showed it on {})", number.phone,
                     strings::iso_date(*number.shown_on));
}

/// The numbers on the papers that nobody vouches for, those that may have changed with their age.
/// Whether there are any that may have.
bool name_the_old(const WhoToCall& who, const job::Help& help, job::Date prepared,
                  diag::Diagnostics& out) {
    std::vector<diag::Text> all;
    std::vector<std::string> keys;
    bool old = false;
    for (const ShownNumber& number : who.numbers()) {
        if (number.vouched) continue;
        const bool centre = number.phone == who.phone, emergency = number.phone == who.emergency;
        old = old || number.is_old(prepared);
        const diag::Text name = centre      ? diag::Text(who.name.main())
                                : emergency ? diag::say("emergency")
                                            : diag::Text(who.vet_name.main());
        all.push_back(
            diag::say("{} {}", name,
                      number.is_old(prepared) ? age_in_words(number) : diag::Text(number.phone)));
        keys.emplace_back(centre ? "poison_centre" : emergency ? "emergency" : "vet");
    }
    if (!old) return false;
    diag::Text hint = diag::say("look each up once, and write what you find under help: {}",
                                diag::joined(keys, ", "));
    if (!who.note.empty()) hint = diag::say("{} ({})", hint, diag::term(who.note));
    out.warning("old-numbers", help.region.place,
                diag::say("your papers will show numbers that may have changed: {}",
                          diag::joined(all, ", ")),
                hint);
    return true;
}

}  // namespace

WhoToCall who_to_call(const job::Help& help, diag::Diagnostics& out) {
    WhoToCall who;
    const Region* region = reference::find_region(*help.region);
    if (region == nullptr) no_region(help, out);
    take_centre(who, help, region, out);
    take_emergency(who, help, region, out);
    take_vet(who, help, region);
    return who;
}

bool ShownNumber::is_old(job::Date prepared) const {
    return source != of_the_job &&
           reference::is_old({phone, Provenance::found, source, shown_on}, prepared);
}

std::vector<ShownNumber> WhoToCall::numbers() const {
    std::vector<ShownNumber> all;
    if (!phone.empty()) all.push_back({phone, source, shown_on, vouched});
    if (!emergency.empty() && emergency != phone)
        all.push_back({emergency, emergency_source, emergency_shown_on, emergency_vouched});
    if (!vet_phone.empty()) all.push_back({vet_phone, vet_source, vet_shown_on, vet_vouched});
    return all;
}

void ask_to_confirm(const WhoToCall& who, const job::Help& help, job::Date prepared,
                    diag::Diagnostics& out) {
    if (who.phone.empty()) return;
    tell_of_elsewhere(help, out);
    if (name_the_old(who, help, prepared, out)) return;
    if (!who.vouched || !who.emergency_vouched) confirm(who, help, out);
}

}  // namespace gallipot::safety
