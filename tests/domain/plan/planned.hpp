#pragma once

#include <string>

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"

/// A job file read and planned.
namespace gallipot::tests {

struct Planned {
    job::Job job;
    plan::Plan plan;
    diag::Diagnostics out;  ///< of the plan alone

    [[nodiscard]] const plan::Mix& mix(const std::string& id) const {
        const plan::Mix* it = plan.mix(id);
        INFO(diag::print(out));
        REQUIRE(it != nullptr);
        return *it;
    }
    [[nodiscard]] const plan::Ingredient& ingredient(const std::string& id,
                                                     const std::string& name) const {
        for (const auto& it : mix(id).ingredients) {
            if (it.name == name) return it;
        }
        FAIL("no " << name << " in " << id);
        throw 0;
    }
    [[nodiscard]] const plan::Station& station(const std::string& id) const {
        const plan::Station* it = plan.station(id);
        REQUIRE(it != nullptr);
        return *it;
    }
    /// What the table of pests says of a job has tests of its own (pest_checks_test.cpp).
    static bool of_pests(const diag::Diagnostic& it) {
        return it.code == "little-bait" || it.code == "unpublished-form" ||
               it.code == "weak-support" || it.code == "no-published-support" ||
               it.code == "not-inspected";
    }
    /// "code:line" of everything else found, in file order, with a blank between.
    [[nodiscard]] std::string found() const {
        std::string all;
        for (const auto& it : out.in_order()) {
            if (of_pests(it)) continue;
            CHECK_FALSE(it.hint.english().empty());
            CHECK_FALSE(it.message.english().empty());
            CHECK(it.message.english().back() != '.');
            all += (all.empty() ? "" : " ") + it.code + ":" + std::to_string(it.place.line);
        }
        return all;
    }
    [[nodiscard]] bool warns(const std::string& code) const {
        for (const auto& it : out.in_order()) {
            if (it.code == code) return true;
        }
        return false;
    }
    [[nodiscard]] std::string message(const std::string& code) const {
        for (const auto& it : out.in_order()) {
            if (it.code == code) return it.message.english();
        }
        return {};
    }
};

inline Planned plan_of(const std::string& text) {
    const auto source = std::make_shared<const diag::Source>(diag::Source{"job.yaml", text});
    diag::Diagnostics reading;
    const auto job = job::read_job(source, reading);
    INFO(diag::print(reading));
    REQUIRE(job);
    Planned it{*job, {}, {}};
    it.plan = plan::make_plan(
        it.job, [](const job::Station& station) { return "link of " + *station.id; }, it.out);
    return it;
}

/// The head of a job; mixes, containers and stations follow from line 5 on.
inline const std::string head =
    "title: Test hall\n"
    "prepared: 2027-03-02\n"
    "help: { region: AU }\n"
    "measures: [1 US tbsp, 1/2 US tbsp, 1 US tsp, 1/2 US tsp, 1/4 US tsp, { jug: 500 mL, marks: "
    "25 mL }, { scale: 2 kg, marks: 0.1 g }]\n";

}  // namespace gallipot::tests
