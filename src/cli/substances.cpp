#include "domain/reference/substances.hpp"

#include <CLI/CLI.hpp>
#include <fmt/format.h>
#include <fmt/ranges.h>
#include <memory>
#include <ostream>

#include "base/diag/diagnostic.hpp"
#include "base/diag/utf8.hpp"
#include "cli/figure.hpp"
#include "cli/person.hpp"
#include "cli/table.hpp"
#include "domain/reference/pests.hpp"

namespace gallipot::cli {
namespace {

using reference::Cited;
using reference::Provenance;
using reference::Substance;
using text::Figures;

const units::Celsius room{20};

const char* word(reference::State state) {
    switch (state) {
        case reference::State::powder:
            return "powder";
        case reference::State::liquid:
            return "liquid";
        case reference::State::paste:
            break;
    }
    return "paste";
}

template <class T>
Json cited(Json value, const Cited<T>& from) {
    return {
        {"value", std::move(value)}, {"standing", word(from.provenance)}, {"source", from.source}};
}

Json json(const Substance& it) {
    const auto& density = it.density.value;
    Json out{{"name", it.name},
             {"formal", it.formal},
             {"also", it.also},
             {"state", word(it.state)},
             {"cas", it.cas.empty() ? Json(nullptr) : Json(it.cas)},
             {"density_g_per_mL", cited({{"low", figure(units::in_g_per_mL(density.low))},
                                         {"usual", figure(units::in_g_per_mL(density.usual))},
                                         {"high", figure(units::in_g_per_mL(density.high))}},
                                        it.density)},
             {"true_density_g_per_mL",
              cited(figure(units::in_g_per_mL(it.true_density.value)), it.true_density)},
             {"boron_percent", figure(it.boron_fraction() * 100)}};
    const auto maybe = [&](const char* name, const auto& value, const auto& write) {
        out[name] = value ? cited(write(value->value), *value) : Json(nullptr);
    };
    const auto plain = [](double value) { return figure(value); };
    maybe("molar_mass_g_per_mol", it.molar_mass_g_per_mol, plain);
    maybe("volume_in_solution_mL_per_g", it.volume_in_solution,
          [](units::SpecificVolume value) { return figure(units::in_mL_per_g(value)); });
    maybe("water_percent", it.water, [](double share) { return figure(share * 100); });
    maybe("solubility_g_per_100g_water", it.solubility, [](const auto& points) {
        Json all = Json::array();
        for (const auto& point : points)
            all.push_back({{"at_C", figure(point.temperature.degrees)},
                           {"g", figure(point.g_per_100g_water)}});
        return all;
    });
    if (it.solubility) out["solubility_doubt_percent"] = figure(it.solubility_doubt * 100);
    return out;
}

class Lists {
  public:
    Lists(const text::Catalog& words, const Terminal& terminal)
        : words_(words), terminal_(terminal) {}

    std::string all() const {
        Table table(
            {{say("name")},
             {say("also")},
             {say("density"), true},
             {say("boron"), true},
             {words_("terminal.list.dissolves", {{"temperature", words_.temperature(room)}}), true},
             {say("source")}});
        for (const Substance& it : reference::substances()) {
            std::string sources = source(it.density);
            if (it.solubility) sources += "; " + source(*it.solubility);
            table.row({std::string(it.name), also(it), range(it.density.value), boron(it),
                       dissolves(it), sources});
        }
        return table.text(terminal_, words_.language());
    }

    std::string one(const Substance& it) const {
        std::string title(it.name);
        if (!it.cas.empty()) title += fmt::format(" (CAS {})", it.cas);
        std::string out = painted(terminal_, Paint::heading, title) + '\n';
        if (const std::string names = also(it); !names.empty())
            out += paragraphs(fmt::format("  {}: {}\n", say("also"), names), terminal_,
                              words_.language(), 2);
        Table table({{say("value")}, {""}, {say("standing")}, {say("source")}});
        const auto row = [&](const char* name, const std::string& figure, const auto& from) {
            table.row({say(name), figure, say(word(from.provenance)), std::string(from.source)});
        };
        row("density", range(it.density.value), it.density);
        row("true_density", number(units::in_g_per_mL(it.true_density.value)), it.true_density);
        if (it.molar_mass_g_per_mol)
            row("molar_mass", number(it.molar_mass_g_per_mol->value), *it.molar_mass_g_per_mol);
        if (it.borate() && it.molar_mass_g_per_mol)
            row("boron", boron(it), *it.molar_mass_g_per_mol);
        if (it.volume_in_solution)
            row("solution", number(units::in_mL_per_g(it.volume_in_solution->value)),
                *it.volume_in_solution);
        if (it.water) row("water", words_.percent(it.water->value), *it.water);
        if (it.solubility) row("solubility", points(it.solubility->value), *it.solubility);
        out += '\n' + table.text(terminal_, words_.language());
        if (it.solubility_doubt > 0)
            out +=
                "\n  " +
                words_("terminal.list.doubt", {{"percent", words_.percent(it.solubility_doubt)}}) +
                '\n';
        return out;
    }

  private:
    [[nodiscard]] std::string say(std::string_view key) const {
        return words_("terminal.list." + std::string(key));
    }
    [[nodiscard]] std::string number(double value) const {
        return words_.number(value, Figures::three_significant);
    }
    [[nodiscard]] std::string range(const units::Range<units::Density>& density) const {
        if (density.exact()) return number(units::in_g_per_mL(density.usual));
        return words_("terminal.plan.between",
                      {{"usual", number(units::in_g_per_mL(density.usual))},
                       {"low", number(units::in_g_per_mL(density.low))},
                       {"high", number(units::in_g_per_mL(density.high))}});
    }
    [[nodiscard]] std::string also(const Substance& it) const {
        std::vector<std::string> names;
        if (it.formal != it.name) names.emplace_back(it.formal);
        for (const auto name : it.also) names.emplace_back(name);
        return fmt::format("{}", fmt::join(names, ", "));
    }
    [[nodiscard]] std::string boron(const Substance& it) const {
        return it.borate() ? words_.percent(it.boron_fraction()) : std::string();
    }
    /// What has no table either mixes with water or does not dissolve; the table does not say
    /// which.
    [[nodiscard]] std::string dissolves(const Substance& it) const {
        const auto at_room = reference::solubility_at(it, room);
        return at_room ? words_.amount(*at_room) : say("not_known");
    }
    template <class T>
    [[nodiscard]] std::string source(const Cited<T>& from) const {
        return fmt::format("{} ({})", from.source, say(word(from.provenance)));
    }
    [[nodiscard]] std::string points(const std::vector<reference::SolubilityPoint>& table) const {
        std::vector<std::string> all;
        all.reserve(table.size());
        for (const auto& point : table)
            all.push_back(text::unbroken(words_.temperature(point.temperature) + ": " +
                                         words_.amount(point.g_per_100g_water)));
        return fmt::format("{}", fmt::join(all, ", "));
    }

    const text::Catalog& words_;
    const Terminal& terminal_;
};

ExitCode list(const std::string& name, bool as_json, Environment& environment) {
    const Substance* one = name.empty() ? nullptr : reference::find_substance(name);
    if (!name.empty() && one == nullptr) {
        const std::string near = diag::nearest(name, reference::substance_names());
        complain(environment) << fmt::format(
            "no substance is called '{}'; {}\n", diag::printable(name),
            near.empty() ? std::string("see gallipot substances, or give its density under "
                                       "'supplies' in the job")
                         : fmt::format("did you mean '{}'?", near));
        return ExitCode::wrong_usage;
    }
    if (as_json) {
        Json all = Json::array();
        for (const Substance& it : reference::substances())
            if (one == nullptr || one == &it) all.push_back(json(it));
        environment.out << Json{{"substances", std::move(all)}}.dump(2) << '\n';
        return ExitCode::ok;
    }
    diag::Diagnostics ours;  // our own texts, which the tests read
    const text::Catalog words = words_for_person(app::find_data(), environment, ours);
    const Terminal terminal = terminal_of_results(environment);
    const Lists lists(words, terminal);
    environment.out << (one != nullptr ? lists.one(*one) : lists.all());
    return ExitCode::ok;
}

}  // namespace

void add_substances(CLI::App& app, Command& chosen, Environment& environment) {
    struct Options {
        std::string name;
        bool json = false;
    };
    auto* command = app.add_subcommand("substances", "The substances known by name, with sources");
    auto options = std::make_shared<Options>();
    command->add_option("NAME", options->name, "One of them in detail; left out, all");
    command->add_flag("--json", options->json, "As JSON, for programs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] {
            return list(options->name, options->json, environment);
        };
    });
}

}  // namespace gallipot::cli
