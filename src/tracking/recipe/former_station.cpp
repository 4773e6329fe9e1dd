#include "tracking/recipe/former_station.hpp"

#include <nlohmann/json.hpp>

namespace gallipot::recipe {

namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t longest_text = 4'000;
constexpr int maximum_containers = 10'000;
constexpr std::int64_t maximum_minutes = 4'300'000'000;  // to the year 9999 and some

}  // namespace

std::string print(const FormerStation& station) {
    const Json json{
        {"pest", station.pest},
        {"control", station.control},
        {"sprayed", station.sprayed},
        {"containers", station.containers},
        {"placed_minutes",
         station.placed ? Json(station.placed->time_since_epoch().count()) : Json(nullptr)}};
    return json.dump();
}

std::optional<FormerStation> parse_station(std::string_view text) {
    if (text.size() > longest_text) return std::nullopt;
    try {
        const Json json = Json::parse(text);
        FormerStation station;
        station.pest = json.at("pest").get<std::string>();
        station.control = json.at("control").get<bool>();
        station.sprayed = json.at("sprayed").get<bool>();
        station.containers = json.at("containers").get<int>();
        if (station.containers < 0 || station.containers > maximum_containers) return std::nullopt;
        if (const Json& placed = json.at("placed_minutes"); !placed.is_null()) {
            const auto minutes = placed.get<std::int64_t>();
            if (minutes < 0 || minutes > maximum_minutes) return std::nullopt;
            station.placed = visit::LocalTime(std::chrono::minutes(minutes));
        }
        return station;
    } catch (const std::exception&) {
        return std::nullopt;
    }
}

}  // namespace gallipot::recipe
