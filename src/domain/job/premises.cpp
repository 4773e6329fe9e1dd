#include "domain/reference/premises.hpp"

#include <array>
#include <fmt/format.h>

#include "domain/job/sections.hpp"

namespace gallipot::job {

namespace {

constexpr std::array all_premises = {Premises::home,     Premises::flats,        Premises::hall,
                                     Premises::workshop, Premises::childcare,    Premises::school,
                                     Premises::care,     Premises::food_business};

void read_asked(const Fields& top, Job& job, ReadContext& context) {
    const yaml::Node* node = top.find("asked");
    if (node == nullptr) return;
    const Fields fields(*node, "asked", "asked", context);
    const auto whom = fields.text("whom");
    const auto on = fields.date("on");
    const auto answer = fields.text("answer");
    if (whom && on && answer) job.asked = Asked{*whom, *on, *answer};
}

}  // namespace

void read_premises(const Fields& top, Job& job, ReadContext& context) {
    read_asked(top, job, context);
    const auto choice = top.choice("premises");
    if (!choice) return;
    job.premises = {all_premises.at(**choice), choice->place};
    const std::string name = top.find("premises")->text;
    const reference::PremisesRule* rule = reference::find_premises_rule(name);
    if (rule == nullptr || !rule->licensed_only) return;
    context.out.error(
        "licensed-only", choice->place,
        diag::say("home-made baits and sprays have no place at a {}: {} ({})",
                  diag::term(rule->called), diag::term(rule->text), rule->source),
        "call a licensed pest management professional; the authority that licenses them can name "
        "some");
}

}  // namespace gallipot::job
