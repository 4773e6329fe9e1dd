#include "domain/reference/pests/pest_names.hpp"

namespace gallipot::reference {

namespace {

// English, Spanish, German, Filipino, Ukrainian. A phrase of several words beats a shorter one, so
// "white ants" stands with the termites and "ants" with the ants.
constexpr PestNames names[] = {
    {"ants", "ant|ants|hormiga|hormigas|langgam|guyam|мураха|мурахи|мурах|мурашка|мурашки|мурашок",
     "ameise|ameisen"},
    {"argentine ants",
     "argentine ant|argentine ants|argentinian ants|hormiga argentina|hormigas argentinas|"
     "argentinische ameise|argentinische ameisen|argentinischen ameisen|аргентинська мураха|"
     "аргентинські мурахи|аргентинських мурах",
     ""},
    {"pharaoh ants",
     "pharaoh ant|pharaoh ants|pharaohs ants|hormiga faraón|hormigas faraón|"
     "hormiga faraona|hormigas faraonas|pharaoameise|pharaoameisen|pharao ameisen|"
     "фараонова мураха|фараонові мурахи|фараонових мурах",
     ""},
    {"carpenter ants",
     "carpenter ant|carpenter ants|hormiga carpintera|hormigas carpinteras|rossameise|"
     "rossameisen|мураха деревоточець|мурахи деревоточці",
     ""},
    {"fire ants",
     "fire ant|fire ants|hormiga de fuego|hormigas de fuego|hormiga brava|hormigas bravas|"
     "feuerameise|feuerameisen|langgam na apoy|вогняна мураха|вогняні мурахи|вогняних мурах",
     ""},
    {"termites",
     "termite|termites|white ant|white ants|whiteant|whiteants|flying white ants|termita|"
     "termitas|termes|comején|comejen|comejenes|hormiga blanca|hormigas blancas|weiße ameise|"
     "weiße ameisen|weißen ameisen|weisse ameise|weisse ameisen|weissen ameisen|weißameise|"
     "weißameisen|weissameisen|anay|mga anay|puting langgam|langgam na puti|терміт|терміти|"
     "термітів|білі мурахи|білих мурах|біла мураха",
     "termite|termiten"},
    {"wood borers",
     "wood borer|wood borers|woodborer|woodborers|wood boring beetle|wood boring beetles|"
     "wood beetle|wood beetles|wood worm|wood worms|woodworm|woodworms|borer|borers|"
     "furniture beetle|furniture beetles|powderpost beetle|powderpost beetles|powder post beetle|"
     "powder post beetles|house longhorn beetle|house longhorn beetles|old house borer|"
     "old house borers|deathwatch beetle|deathwatch beetles|death watch beetle|"
     "death watch beetles|timber borer|timber borers|timber beetles|carcoma|carcomas|"
     "polilla de la madera|polillas de la madera|escarabajo de la madera|"
     "escarabajos de la madera|hausbock|hausböcke|holzkäfer|holzbohrer|klopfkäfer|pochkäfer|"
     "bukbok|шашіль|шашелю|шашель|шашелі|шашеля|шашелів|жук точильник|жуки точильники|жуків "
     "точильників|"
     "точильники|жуки деревоїди",
     "holzwurm|holzwürmer|holzwürmern|bockkäfer|nagekäfer|splintholzkäfer"},
    {"cockroaches",
     "cockroach|cockroaches|roach|roaches|german cockroach|german cockroaches|cucaracha|"
     "cucarachas|küchenschabe|küchenschaben|ipis|тарган|таргани|тарганів|прусак|прусаки|прусаків",
     "schabe|schaben|kakerlake|kakerlaken"},
    {"large cockroaches",
     "large cockroach|large cockroaches|american cockroach|american cockroaches|"
     "oriental cockroach|oriental cockroaches|australian cockroach|australian cockroaches|"
     "palmetto bug|palmetto bugs|water bug|water bugs|cucarachas grandes|cucaracha americana|"
     "cucarachas americanas|cucaracha oriental|cucarachas orientales|amerikanische schabe|"
     "amerikanische schaben|amerikanische großschabe|orientalische schabe|orientalische schaben|"
     "großschabe|großschaben|malalaking ipis|великі таргани|американський тарган|"
     "американські таргани|чорний тарган|чорні таргани",
     ""},
    {"silverfish",
     "silverfish|silver fish|silverfishes|pececillo de plata|pececillos de plata|"
     "pescadito de plata|pescaditos de plata|lepisma|lepismas|silberfisch|silberfische|"
     "silberfischchen|papierfischchen|лусківниця|лусківниці|лусківниць|лусочниця|лусочниці|"
     "лусочниць|сріблянка|сріблянки",
     ""},
    {"firebrats",
     "firebrat|firebrats|insecto de fuego|insectos de fuego|ofenfisch|ofenfische|ofenfischchen|"
     "термобія|термобії",
     ""},
    {"house flies",
     "fly|flies|house fly|house flies|housefly|houseflies|mosca|moscas|fliege|fliegen|"
     "stubenfliege|stubenfliegen|langaw|муха|мухи|мух",
     ""},
    {"mosquitoes",
     "mosquito|mosquitoes|mosquitos|zancudo|zancudos|mücke|mücken|gelse|gelsen|lamok|комар|"
     "комарі|комарів",
     "stechmücke|stechmücken|tigermücke|tigermücken"},
    {"fleas",
     "flea|fleas|pulga|pulgas|floh|flöhe|katzenfloh|katzenflöhe|hundefloh|hundeflöhe|блоха|блохи|"
     "бліх",
     ""},
    {"bed bugs",
     "bed bug|bed bugs|bedbug|bedbugs|chinche|chinches|chinche de cama|chinches de cama|wanze|"
     "wanzen|bettwanze|bettwanzen|surot|клоп|клопи|клопів|блощиця|блощиці|блощиць",
     ""},
    {"rats and mice",
     "rat|rats|mouse|mice|rodent|rodents|rata|ratas|ratón|raton|ratones|roedor|roedores|ratte|"
     "ratten|wanderratte|wanderratten|hausratte|hausratten|maus|mäuse|hausmaus|hausmäuse|"
     "nagetiere|daga|bubuwit|щур|щури|щурів|пацюк|пацюки|пацюків|миша|миші|мишей",
     ""},
    {"flour beetles",
     "flour beetle|flour beetles|weevil|weevils|pantry beetles|grain beetles|gorgojo|gorgojos|"
     "escarabajo de la harina|escarabajos de la harina|mehlkäfer|reismehlkäfer|kornkäfer|"
     "brotkäfer|bukbok sa bigas|bukbok ng bigas|хрущак|хрущаки|хрущаків|довгоносик|довгоносики|"
     "довгоносиків",
     ""},
    {"moths", "moth|moths|polilla|polillas|міль|молі", "motte|motten"},
    {"carpet beetles",
     "carpet beetle|carpet beetles|escarabajo de las alfombras|escarabajos de las alfombras|"
     "teppichkäfer|speckkäfer|шкіроїд|шкіроїди|шкіроїдів",
     ""},
    {"earwigs",
     "earwig|earwigs|tijereta|tijeretas|ohrwurm|ohrwürmer|щипавка|щипавки|щипавок|вуховертка|"
     "вуховертки|вуховерток",
     ""},
    {"woodlice",
     "woodlouse|woodlice|slater|slaters|pill bugs|pillbugs|sowbugs|cochinilla de la humedad|"
     "cochinillas de la humedad|bicho bola|bichos bola|мокриця|мокриці|мокриць",
     "assel|asseln"},
    {"crickets", "cricket|crickets|grillo|grillos|heimchen|kuliglig|цвіркун|цвіркуни|цвіркунів",
     "grille|grillen"},
    {"wasps",
     "wasp|wasps|hornet|hornets|yellowjacket|yellowjackets|yellow jackets|avispa|avispas|"
     "hornisse|hornissen|putakti|оса|оси|ос|шершень|шершні|шершнів",
     "wespe|wespen"},
    {"bees", "bee|bees|abeja|abejas|hummel|hummeln|bubuyog|pukyutan|бджола|бджоли|бджіл",
     "biene|bienen"},
    {"spiders", "spider|spiders|araña|arañas|gagamba|павук|павуки|павуків", "spinne|spinnen"},
};

}  // namespace

std::span<const PestNames> pest_names() {
    return names;
}

}  // namespace gallipot::reference
