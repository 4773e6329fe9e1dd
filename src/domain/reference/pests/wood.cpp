#include "domain/reference/pests/rows.hpp"

namespace gallipot::reference {

namespace {

using units::Share;

constexpr std::string_view grace =
    "Grace and Yamamoto 1994, J. Econ. Entomol. 87 (6), Formosan termites on Douglas fir: 10 % "
    "octaborate went under 3 mm deep in ten weeks, and the damage was that of untreated wood";
constexpr std::string_view de_jonge =
    "De Jonge 1987, IRG/WP 3400: less well suited to curative use";
constexpr std::string_view dilute = "common practice";
constexpr std::string_view treatments =
    "10 to 15 % octaborate (supplier's directions, quoted) and the 20 % borax with 15 % boric acid "
    "solution of the NZ Farm Forestry Association";
constexpr std::string_view supplier =
    "a borate supplier's directions: unpainted, unfinished wood, coats 10 minutes apart";
constexpr std::string_view conservators =
    "Conservation DistList, 21 May 2002: boron moves into the soil where wood touches the ground";
constexpr std::string_view drop =
    "DeAngelis, extension entomologist, livingwithbugs.com: the borate must soak in; home "
    "inspectors' water test, hinarratives.com: water stands on a finish and soaks into bare wood";
constexpr std::string_view sealed =
    "US National Park Service, Exterior Woodwork 4, abstract: a water repellent over the dry "
    "borate; NZ Farm Forestry Association: it must stay dry";

/// How to treat wood, and how to look for what still lives in it.
std::vector<Advice> treatment() {
    return {
        {Topic::before, "advice.wood.leak", Provenance::found,
         "woodweb.com, Borate-Based Wood Preservatives (2006): borates leach where wood gets wet"},
        {Topic::before, "advice.wood.mark", Provenance::found,
         "Minnesota DNR, August 1997: wipe off the powder, look for new powder later; circles and "
         "square: our own rule"},
        {Topic::apply, "advice.wood.probe", Provenance::ours, our_own_rule},
        {Topic::apply, "advice.wood.bare", Provenance::found, supplier},
        {Topic::apply, "advice.wood.drop", Provenance::found, drop},
        {Topic::apply, "advice.wood.order", Provenance::ours, our_own_rule},
        {Topic::apply, "advice.wood.second_coat", Provenance::found, supplier},
        {Topic::apply, "advice.wood.end_grain", Provenance::ours, our_own_rule},
        {Topic::apply, "advice.wood.ground", Provenance::found, conservators},
        {Topic::finish, "advice.wood.seal", Provenance::found, sealed},
        count_alike,
        {Topic::count, "advice.count.square", Provenance::ours, our_own_rule},
        {Topic::count, "advice.count.powder", Provenance::ours, our_own_rule}};
}

}  // namespace

std::vector<Pest> wood_rows() {
    return {
        {.name = "termites",
         .support = {Support::weak, Provenance::found, grace},
         .lives_in_wood = true,
         // Boric acid equivalent of 10 and of 15 % octaborate.
         .usual = {{Preparation::spray, Share::percent(12), Share::percent(18), Provenance::derived,
                    "10 % octaborate (Grace and Yamamoto 1994) to 15 % (supplier's directions)",
                    "octaborate"}},
         .advice = together(
             {{{Topic::warning, "advice.termites.colony", Provenance::found, grace},
               {Topic::warning, "advice.termites.leave", Provenance::ours,
                "our own rule, after common practice"},
               {Topic::label, "advice.termites.label", Provenance::found, grace},
               {Topic::warning, "advice.termites.ask", Provenance::found,
                "Drywood Termites, a Californian extension text: the inspector must be licensed"}},
              treatment()})},
        {.name = "wood borers",
         .support = {Support::weak, Provenance::found, de_jonge},
         .lives_in_wood = true,
         // Boric acid equivalent: 10 % of octaborate is 12 %; 20 % borax and 15 % boric acid, 28 %.
         .usual = {{Preparation::spray, Share::percent(0.5), Share::percent(2.0),
                    Provenance::memory, dilute},
                   {Preparation::spray, Share::percent(12), Share::percent(28), Provenance::derived,
                    treatments}},
         .advice = together(
             {{{Topic::warning, "advice.wood_borers.deeper", Provenance::found,
                "Forest Pests of North America: a surface treatment does not reach larvae deep in "
                "the wood; De Jonge 1987, IRG/WP 3400"},
               {Topic::after, "advice.wood_borers.season", Provenance::found,
                "beetles come out from April into summer, one to five years after the eggs"},
               {Topic::professional, "advice.wood_borers.load", Provenance::ours, our_own_rule}},
              treatment()})}};
}

}  // namespace gallipot::reference
