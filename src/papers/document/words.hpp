#pragma once

#include <string>
#include <vector>

#include "domain/job/job.hpp"
#include "domain/plan/due.hpp"
#include "domain/plan/plan.hpp"
#include "papers/text/catalog.hpp"

/// What the job and the plan name, in the words of a language.
namespace gallipot::document {

/// What to call an ingredient. A name of the user's own stands as written in the job's main
/// language; in the others the substance's name takes its place where there is one.
std::string ingredient_name(const job::Job& job, const plan::Ingredient& ingredient,
                            const text::Catalog& words);
/// The same for the name of an ingredient of that mix.
std::string ingredient_name(const job::Job& job, const plan::Mix& mix, const std::string& name,
                            const text::Catalog& words);

/// A small second line under an ingredient: what the packet may call it, or which substance a name
/// of the user's own stands for. May be empty.
std::string ingredient_note(const job::Job& job, const plan::Ingredient& ingredient,
                            const text::Catalog& words);

/// A substance by any of its names; as written when the catalogs do not have it.
std::string substance_name(const std::string& name, const text::Catalog& words);

/// "ants", as after "against"; and as in "ant bait". What the catalogs do not have stands as
/// written in the job's main language; in the others the kind of pest that is meant, where that is
/// known.
std::string pest_name(const job::Job& job, const std::string& against, const text::Catalog& words);
std::string pest_bait_name(const job::Job& job, const std::string& against,
                           const text::Catalog& words);

/// "borax 0.49 g, sugar 9.8 g, water": water needs no weighing.
std::string contents(const job::Job& job, const plan::Mix& mix, const plan::Contents& contents,
                     const text::Catalog& words);

/// So many containers, each filled so far.
struct Filled {
    int count = 0;
    units::Volume fill;
    units::WrittenUnit unit{};  ///< as the fill is written
};

/// A mix as its papers need it.
struct Recipe {
    const job::Job& job;
    const job::Mix& asked;
    const plan::Plan& plan;
    const plan::Mix& mix;
    const text::Catalog& words;

    std::vector<Filled> fills;                      ///< by fill, in the job's order
    std::vector<const job::Station*> surfaces;      ///< to be sprayed
    std::vector<const job::Container*> containers;  ///< the kinds used, each once

    [[nodiscard]] int count() const;               ///< of all containers
    [[nodiscard]] std::string area_text() const;   ///< of all surfaces, one coat
    [[nodiscard]] std::string fills_text() const;  ///< "6 containers of 45 mL and 4 ... of 20 mL"
    [[nodiscard]] bool hazardous() const;          ///< has a signal word, or nobody knows
};

/// Gathers it. The job must have the plan's mix.
Recipe recipe(const job::Job& job, const plan::Plan& plan, const plan::Mix& mix,
              const text::Catalog& words);

using plan::later;

/// Without the year where the paper's own date makes it plain.
std::string near_day(job::Date day, job::Date prepared, const text::Catalog& words);

}  // namespace gallipot::document
