#include <fmt/format.h>

#include "base/strings/ascii.hpp"
#include "domain/job/address.hpp"
#include "domain/job/sections.hpp"
#include "domain/reference/regions.hpp"

namespace gallipot::job {

namespace {

Contact read_contact(const yaml::Node& node, std::string_view section, std::string_view who,
                     ReadContext& context) {
    const Fields fields(node, section, who, context);
    Contact contact;
    keep(contact.name, fields.local_text("name"));
    keep(contact.phone, fields.text("phone"));
    return contact;
}

/// A contact, or a telephone number alone.
std::optional<Contact> read_vet(const Fields& help, ReadContext& context) {
    const yaml::Node* node = help.find("vet");
    if (node == nullptr) return {};
    if (node->kind == yaml::Kind::mapping) return read_contact(*node, "help.vet", "vet", context);
    const auto phone = read_text(*node, help.rule("vet"), context);
    if (!phone) return {};
    return Contact{{}, *phone};
}

void read_region(const Fields& help, Job& job, ReadContext& context) {
    const auto region = help.text("region");
    if (!region) return;
    // The letter case of a region's code makes no difference.
    const std::string capitals = strings::to_upper(**region);
    if (reference::find_region(capitals) != nullptr) {
        job.help.region = {capitals, region->place};
        return;
    }
    diag::Text hint = "write the two capitals of the ISO 3166-1 code, like AU";
    const auto near = reference::near_regions(**region);
    for (const reference::Region* r : near) {
        hint = r == near.front()
                   ? diag::say("write {} for {}", r->code, diag::term(r->name))
                   : diag::say("{}, or {} for {}", hint, r->code, diag::term(r->name));
    }
    context.out.error("bad-region", region->place, diag::say("'{}' is no region code", **region),
                      hint);
}

}  // namespace

void read_help(const Fields& top, Job& job, ReadContext& context) {
    const yaml::Node* node = top.find("help");
    if (node == nullptr) return;
    const Fields help(*node, "help", "help", context);
    read_region(help, job, context);
    if (const yaml::Node* contact = help.find("contact")) {
        job.help.contact = read_contact(*contact, "help.contact", "contact", context);
    }
    if (const yaml::Node* centre = help.find("poison_centre")) {
        job.help.poison_centre =
            read_contact(*centre, "help.poison_centre", "poison_centre", context);
    }
    job.help.emergency = help.text("emergency");
    job.help.vet = read_vet(help, context);
}

void read_log(const Fields& top, Job& job, ReadContext& context) {
    const yaml::Node* node = top.find("log");
    if (node == nullptr) return;
    const Fields log(*node, "log", "log", context);
    const auto address = log.text("address");
    if (address && check_address(*address, context.out)) job.log.address = address;
}

}  // namespace gallipot::job
