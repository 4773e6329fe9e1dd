#include <fmt/format.h>

#include "catch_all.hpp"

#include "domain/reference/coverage.hpp"
#include "domain/reference/evaporation.hpp"
#include "domain/reference/glycerol.hpp"
#include "domain/reference/substances.hpp"
#include "domain/reference/sucrose.hpp"
#include "domain/reference/timber.hpp"
#include "golden.hpp"

using namespace gallipot;
using namespace gallipot::reference;

namespace {

std::string provenance(Provenance it) {
    return it == Provenance::found ? "found" : it == Provenance::memory ? "memory" : "derived";
}

template <class T>
std::string from(const Cited<T>& it) {
    return fmt::format("    {}: {}\n", provenance(it.provenance), it.source);
}

std::string register_of(const Substance& it) {
    const auto& density = it.density.value;
    std::string all = fmt::format("{} ({}), {}, {}\n", it.name, it.formal, it.cas,
                                  it.state == State::powder   ? "powder"
                                  : it.state == State::liquid ? "liquid"
                                                              : "paste");
    for (const auto& name : it.also) all += fmt::format("  also {}\n", name);
    all += fmt::format("  {:.6g} to {:.6g}, mostly {:.6g} g/mL as scooped or poured\n",
                       units::in_g_per_mL(density.low), units::in_g_per_mL(density.high),
                       units::in_g_per_mL(density.usual)) +
           from(it.density);
    all += fmt::format("  {:.6g} g/mL without air\n", units::in_g_per_mL(it.true_density.value)) +
           from(it.true_density);
    if (it.molar_mass_g_per_mol)
        all += fmt::format("  {:.7g} g/mol, {} of boron\n", it.molar_mass_g_per_mol->value,
                           it.boron_atoms) +
               from(*it.molar_mass_g_per_mol);
    if (it.volume_in_solution)
        all += fmt::format("  {:.6g} mL/g in solution\n", it.volume_in_solution->value.si() * 1e3) +
               from(*it.volume_in_solution);
    if (it.solubility) {
        all +=
            fmt::format("  g in 100 g of water, give or take {:.6g} %:", it.solubility_doubt * 100);
        for (const auto& point : it.solubility->value)
            all += fmt::format(" {:.6g} at {:g} C,", point.g_per_100g_water,
                               point.temperature.degrees);
        all.back() = '\n';
        all += from(*it.solubility);
    }
    if (it.water) all += fmt::format("  {:.6g} of it water\n", it.water->value) + from(*it.water);
    if (it.holds_water)
        all +=
            fmt::format("  holds water as {:.6g} g/mol with {:.6g} in Norrish's equation\n",
                        it.holds_water->value.molar_mass_g_per_mol, it.holds_water->value.norrish) +
            from(*it.holds_water);
    return all;
}

}  // namespace

// The values themselves are held against other tables in the tests beside this one. Here each is
// written down a second time, so that none changes without somebody who looks at its source.
TEST_CASE("no value of the tables changes unseen") {
    std::string all;
    for (const Substance& it : substances()) all += register_of(it) + '\n';
    all += "sucrose in water\n";
    for (const auto& point : sucrose_densities())
        all += fmt::format("  {:g} %: {:.6g} g/mL\n", point.sucrose.in_percent(),
                           units::in_g_per_mL(point.density.value)) +
               from(point.density);
    all += "\none coat on wood\n";
    all +=
        fmt::format("  {:.6g} L/m2\n", one_coat_on_wood.value.si() * 1e3) + from(one_coat_on_wood);
    namespace e = evaporation;
    all += "\nevaporation\n";
    all += fmt::format("  vapour pressure: {:g} Pa, {:g}, {:g} C\n", e::saturation.value.base,
                       e::saturation.value.slope, e::saturation.value.offset) +
           from(e::saturation);
    all += fmt::format("  diffusion: {:g} m2/s at 0 C, power {:g}\n", e::diffusion.value.at_0,
                       e::diffusion.value.power) +
           from(e::diffusion);
    all += fmt::format("  heat to evaporate: {:g} J/kg at 0 C, {:g} a degree\n",
                       e::latent_heat.value.at_0, e::latent_heat.value.per_degree) +
           from(e::latent_heat);
    all += fmt::format("  open water: {:.6g} W/(m2 Pa)\n", e::carrier.value) + from(e::carrier);
    all += fmt::format("  undisturbed: {:g} of it\n", e::undisturbed.value) + from(e::undisturbed);
    all += fmt::format("  gas constant: {:.7g}\n", e::gas_constant.value) + from(e::gas_constant);
    all += fmt::format(
        "  assumed: {:g}, {:g} and {:g} C, humidity {:g}, walls of {:g} mm, holes of {:g} mm, "
        "doubt {:g}\n",
        e::room_celsius, e::warm_celsius, e::cold_celsius, e::humidity, units::in_mm(e::wall),
        units::in_mm(e::hole), e::doubt_factor);
    all += fmt::format("  a thick syrup: activity below {:g}\n", e::thick);
    all += "\nborates in glycerol\n";
    for (const auto& point : boric_acid_in_glycerol.value)
        all += fmt::format("  {:g} of the solvent: {:g} times\n", point.share, point.times);
    all += from(boric_acid_in_glycerol);
    all += fmt::format("  borax in glycerol alone: {:.6g} times\n", borax_in_glycerol.value) +
           from(borax_in_glycerol);
    all += fmt::format("\ntimber, over {:g} mm, dry softwood {:g} kg/m3\n",
                       units::in_mm(timber::depth), timber::dry_softwood.value.si()) +
           from(timber::dry_softwood);
    for (const auto& it : timber::thresholds)
        all +=
            fmt::format("  {}: {:g} kg/m3\n", it.species, it.minimum.value.si()) + from(it.minimum);
    tests::check_golden("reference/values.txt", all);
}
