#include <array>

#include "domain/reference/pests.hpp"
#include "domain/reference/pests/phrases.hpp"

namespace gallipot::reference {

namespace {

constexpr std::array kinds{RoomKind::kitchen, RoomKind::bathroom, RoomKind::outdoors};

/// What these rooms are called in English, Spanish, German, Filipino and Ukrainian, from memory.
const Phrases& room_names() {
    static const Phrases names = [] {
        Phrases all;
        all.add(
            "kitchen|kitchens|kitchenette|cocina|cocineta|kochnische|kusina|lutuan|кухня|кухні|"
            "кухню|кухонька",
            "küche|kueche", 0);
        all.add(
            "bathroom|bathrooms|bath|washroom|restroom|shower room|ensuite|en suite|baño|bano|"
            "cuarto de baño|aseo|bad|duschbad|gästebad|banyo|paliguan|ванна|ванній|ванну|ванної|"
            "санвузол|санвузлі",
            "badezimmer", 1);
        all.add(
            "yard|courtyard|garden|balcony|terrace|patio|porch|veranda|verandah|outside|outdoors|"
            "jardín|jardin|balcón|balcon|terraza|porche|fuera|exterior|hof|innenhof|hinterhof|"
            "garten|vorgarten|balkon|terrasse|dachterrasse|außen|draußen|im freien|bakuran|hardin|"
            "balkonahe|labas|двір|дворі|подвіря|сад|саду|балкон|балконі|тераса|терасі|надворі",
            "", 2);
        return all;
    }();
    return names;
}

}  // namespace

std::optional<RoomKind> room_kind(std::string_view name) {
    const auto found = room_names().in(name);
    if (found.empty()) return std::nullopt;
    return kinds.at(found.front());
}

std::optional<Cited<BaitCount>> Pest::baits_in(RoomKind room) const {
    switch (room) {
        case RoomKind::kitchen:
            return per_kitchen;
        case RoomKind::bathroom:
            return per_bathroom;
        case RoomKind::outdoors:
            break;
    }
    return std::nullopt;
}

}  // namespace gallipot::reference
