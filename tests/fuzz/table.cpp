#include "fuzz.hpp"
#include "loaded.hpp"

namespace {

constexpr const char* job_with_tables = R"(title: Weir Street Hall
prepared: 2027-03-02
languages: [en, es]
help: { region: AU }
supplies: { from: supplies.csv }
mixes:
  syrup:
    title: Syrup
    against: ants
    form: liquid
    basis: percent w/w
    ingredients: { borax: 1, malt: 20, water: rest }
containers:
  cup: { holds: 60 mL, fill: 45 mL }
stations: { from: stations.csv }
)";

}  // namespace

/// A table of stations or of supplies, as part of a job.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    const std::string text = text_of(data, size);
    const std::size_t one = way(text, 2);
    for (const std::size_t which : {0u, 1u}) {
        if (!thorough && which != one) continue;
        const std::string stations =
            which == 0 ? text : "id,place,mix,container\nK1,Kitchen,syrup,cup\n";
        const std::string supplies = which == 1 ? text : "name,density\nmalt,1.4 g/mL\n";
        diag::Diagnostics found;
        const auto planned =
            plan_of(source_of("job.yaml", job_with_tables), found,
                    [&](const std::string& name) -> job::TableFile {
                        const bool first = name == "stations.csv";
                        return {source_of(name, first ? stations : supplies), "", ""};
                    });
        check_told(found);
        if (planned)
            require(planned->plan.stations.size() == planned->job.stations.size(),
                    "every station is planned");
    }
    return 0;
}
