#include <nlohmann/json.hpp>

#include "fuzz.hpp"
#include "loaded.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"

/// A CSV of visits; what is accepted is written and read again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    static const auto zone = *log::Zone::find("Australia/Sydney");
    static const log::LocalTime clock =
        std::chrono::local_days(std::chrono::year(2027) / std::chrono::April / 2);
    const auto& plan = hall().plan;

    diag::Diagnostics found;
    const auto visits =
        log::read_visits(source_of("visits.csv", text_of(data, size)), plan, zone, clock, found);
    check_told(found);
    if (found.has_errors()) return 0;

    std::string written = log::csv_heading();
    for (const auto& visit : visits) {
        require(log::says_something(visit), "a visit says something", visit.station);
        require(log::find_fault(visit.note, log::longest_note, true) == log::TextFault::none &&
                    log::find_fault(visit.by, log::longest_name, false) == log::TextFault::none,
                "texts are fit to be shown", visit.note);
        written += log::csv_line(visit);
        const auto json = nlohmann::json::parse(log::json_object(visit));
        require(json.at("note") == visit.note && json.at("by") == visit.by,
                "JSON holds the same texts", visit.note);
    }
    diag::Diagnostics none;
    require(log::read_visits(source_of("again.csv", written), plan, zone, clock, none) == visits,
            "what was written reads the same", written);
    require(!none.has_errors(), "what was written is in order", diag::print(none));
    return 0;
}
