#include <map>
#include <set>

#include "catch_all.hpp"

#include "domain/reference/law.hpp"
#include "domain/reference/regions.hpp"
#include "domain/safety/classify.hpp"
#include "domain/safety/first_aid.hpp"
#include "domain/safety/precautions.hpp"
#include "papers/text/catalog.hpp"

using namespace gallipot;
using namespace gallipot::safety;

namespace {

const std::string templates = GALLIPOT_SOURCE_DIR "/templates";
const text::Arguments arguments{{"name", "NAME"},     {"phone", "PHONE"},
                                {"vet", "555-0177"},  {"emergency", "EMERGENCY"},
                                {"source", "SOURCE"}, {"names", "malt"}};

std::vector<std::string> languages() {
    return text::languages(templates);
}

text::Catalog catalog(const std::string& language) {
    diag::Diagnostics out;
    text::Catalog words(templates, language, "", out);
    INFO(diag::print(out));
    REQUIRE_FALSE(out.has_errors());
    return words;
}

/// Every key that classify can name.
std::set<std::string> hazard_keys() {
    // P337+P313 is for an eye irritant that is no borate; the plan adds when_dried.
    std::set<std::string> keys{"basis.unknown", "basis.texts", "basis.when_dried",
                               "precaution.P337+P313"};
    const std::vector<std::vector<Component>> mixes = {
        {},
        {{"boric acid", reference::find_substance("boric acid"), 0.01, 0.01, false}},
        {{"borax", reference::find_substance("borax"), 0.33, 0.33, false}},
        {{"borax", reference::find_substance("borax"), 0.001, 0.001, false}}};
    for (const auto& mix : mixes) {
        for (RuleSet rules : {RuleSet::clp_like, RuleSet::us_household}) {
            const Hazard hazard = classify(mix, rules);
            keys.insert(hazard.basis);
            keys.insert(hazard.notes.begin(), hazard.notes.end());
            for (const auto& code : hazard.hazard_codes) keys.insert("hazard." + code);
            for (const auto& code : hazard.precaution_codes) keys.insert("precaution." + code);
        }
    }
    return keys;
}

std::set<std::string> first_aid_keys() {
    std::set<std::string> keys;
    for (Advice advice : {Advice::us_label, Advice::ask_first}) {
        const FirstAid aid = first_aid(advice);
        keys.insert({aid.skin, aid.breathed, aid.unconscious, aid.tell, aid.signs, aid.pets,
                     aid.pets_line});
        keys.insert(aid.swallowed.begin(), aid.swallowed.end());
        keys.insert(aid.eyes.begin(), aid.eyes.end());
    }
    return keys;
}

std::set<std::string> law_keys() {
    std::set<std::string> keys;
    for (const auto& region : reference::regions()) {
        for (const auto& note : reference::law_notes(region.code)) keys.emplace(note.key);
    }
    return keys;
}

std::set<std::string> all_keys() {
    std::set<std::string> keys = hazard_keys();
    keys.merge(first_aid_keys());
    keys.merge(law_keys());
    return keys;
}

}  // namespace

TEST_CASE("every language has every text the safety layer names", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        for (const auto& key : all_keys()) {
            INFO(language << ": " << key);
            CHECK(words.has(key));
        }
    }
}

TEST_CASE("no catalog keeps a safety text that nothing names", "[safety][texts]") {
    const auto known = all_keys();
    for (const auto& key : catalog("en").keys()) {
        for (const char* group : {"hazard.", "precaution.", "first_aid.", "law.", "basis."}) {
            if (!key.starts_with(group)) continue;
            INFO(key);
            CHECK(known.count(key) == 1);
        }
    }
}

// The published texts have blanks and choice lists that a label must fill.
TEST_CASE("no text has a blank or brackets left in it", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        for (const auto& key : all_keys()) {
            const std::string text = words(key, arguments);
            INFO(language << ": " << key << ": " << text);
            for (const char* blank : {"\u2026", "...", "[", "]", "{", "}", "<", ">"}) {
                CHECK(text.find(blank) == std::string::npos);
            }
        }
    }
}

// Regulation (EC) No 1272/2008, Annexes III and IV, consolidated text of 2025-09-01, as extracted
// in the public data set mhchem/hpstatements. Where there is a blank or a choice, what surrounds
// it.
TEST_CASE("official texts are those of the edition named", "[safety][texts]") {
    struct Row {
        const char *key, *en, *es, *de, *fr;
    };
    const Row rows[] = {
        {"hazard.H360FD", "May damage fertility. May damage the unborn child.",
         "Puede perjudicar a la fertilidad. Puede dañar al feto.",
         "Kann die Fruchtbarkeit beeinträchtigen. Kann das Kind im Mutterleib schädigen.",
         "Peut nuire à la fertilité. Peut nuire au fœtus."},
        {"hazard.H319", "Causes serious eye irritation.", "Provoca irritación ocular grave.",
         "Verursacht schwere Augenreizung.", "Provoque une sévère irritation des yeux."},
        {"precaution.P102", "Keep out of reach of children.",
         "Mantener fuera del alcance de los niños.",
         "Darf nicht in die Hände von Kindern gelangen.", "Tenir hors de portée des enfants."},
        {"precaution.P201", "Obtain special instructions before use.",
         "Solicitar instrucciones especiales antes del uso.",
         "Vor Gebrauch besondere Anweisungen einholen.",
         "Se procurer les instructions spéciales avant utilisation."},
        {"precaution.P308+P313", "IF exposed or concerned: Get medical advice/attention.",
         "EN CASO DE exposición manifiesta o presunta: Consultar a un médico.",
         "BEI Exposition oder falls betroffen: Ärztlichen Rat einholen/ärztliche Hilfe "
         "hinzuziehen.",
         "EN CAS d’exposition prouvée ou suspectée: consulter un médecin."},
        {"precaution.P305+P351+P338",
         "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if "
         "present and easy to do. Continue rinsing.",
         "EN CASO DE CONTACTO CON LOS OJOS: Enjuagar con agua cuidadosamente durante varios "
         "minutos. Quitar las lentes de contacto cuando estén presentes y pueda hacerse con "
         "facilidad. Proseguir con el lavado.",
         "BEI KONTAKT MIT DEN AUGEN: Einige Minuten lang behutsam mit Wasser spülen. Eventuell "
         "vorhandene Kontaktlinsen nach Möglichkeit entfernen. Weiter spülen.",
         "EN CAS DE CONTACT AVEC LES YEUX: Rincer avec précaution à l’eau pendant plusieurs "
         "minutes. Enlever les lentilles de contact si la victime en porte et si elles peuvent "
         "être facilement enlevées. Continuer à rincer."},
        {"precaution.P405", "Store locked up.", "Guardar bajo llave.",
         "Unter Verschluss aufbewahren.", "Garder sous clef."},
        // P330 and P331, in the words of P301+P330+P331.
        {"label.first_aid.ask_first_short", "Rinse mouth. Do NOT induce vomiting.",
         "Enjuagar la boca. NO provocar el vómito.", "Mund ausspülen. KEIN Erbrechen herbeiführen.",
         "Rincer la bouche. NE PAS faire vomir."},
    };
    const std::map<std::string, const char * Row::*> published{
        {"en", &Row::en}, {"es", &Row::es}, {"de", &Row::de}, {"fr", &Row::fr}};
    for (const auto& [language, official] : published) {
        const auto words = catalog(language);
        for (const Row& row : rows) {
            INFO(language << ": " << row.key);
            CHECK(words(row.key) == row.*official);
        }
    }
}

TEST_CASE("filled texts keep the official words around the blank", "[safety][texts]") {
    struct Row {
        const char *language, *key, *begins, *ends;
    };
    const Row rows[] = {
        {"en", "precaution.P264", "Wash ", " thoroughly after handling."},
        {"en", "precaution.P501", "Dispose of contents/container to ", "."},
        {"en", "precaution.P280", "Wear protective gloves", "."},
        {"en", "precaution.P280-eyes", "Wear protective gloves/", "eye protection."},
        {"es", "precaution.P264", "Lavarse ", " concienzudamente tras la manipulación."},
        {"es", "precaution.P501", "Eliminar el contenido/el recipiente en ", "."},
        {"es", "precaution.P280", "Llevar guantes", " de protección."},
        {"de", "precaution.P264", "Nach Gebrauch ", " gründlich waschen."},
        {"de", "precaution.P501", "Inhalt/Behälter ", " zuführen."},
        {"de", "precaution.P280", "Schutzhandschuhe", " tragen."},
        {"fr", "precaution.P264", "Se laver ", " soigneusement après manipulation."},
        {"fr", "precaution.P501", "Éliminer le contenu/récipient dans ", "."},
        {"fr", "precaution.P280", "Porter des gants de protection", "."},
        {"fr", "precaution.P280-eyes", "Porter des gants de protection/",
         "un équipement de protection des yeux."},
        {"fr", "label.call", "EN CAS D’INGESTION: Appeler immédiatement ", "NAME:"},
        {"fr", "label.call_short", "EN CAS D’INGESTION: Appeler immédiatement", ":"},
        // P301+P310, whom to call in the place left for it; the number stands beside it, large.
        {"en", "label.call", "IF SWALLOWED: Immediately call ", "NAME:"},
        {"en", "label.call_short", "IF SWALLOWED: Immediately call", ":"},
        {"es", "label.call", "EN CASO DE INGESTIÓN: Llamar inmediatamente a ", "NAME:"},
        {"es", "label.call_short", "EN CASO DE INGESTIÓN: Llamar inmediatamente al", ":"},
        {"de", "label.call", "BEI VERSCHLUCKEN: Sofort NAME", " anrufen:"},
        {"de", "label.call_short", "BEI VERSCHLUCKEN: Sofort", " anrufen:"},
    };
    const auto there = languages();
    for (const Row& row : rows) {
        if (std::find(there.begin(), there.end(), row.language) == there.end()) continue;
        const std::string text = catalog(row.language)(row.key, arguments);
        INFO(row.language << ": " << row.key << ": " << text);
        CHECK(text.starts_with(row.begins));
        CHECK(text.ends_with(row.ends));
    }
}

// CLP has no Filipino and no Ukrainian text, for example.
TEST_CASE("a translation of ours says that it is one", "[safety][texts]") {
    for (const auto& language : languages()) {
        INFO(language);
        const auto words = catalog(language);
        const std::string text = words("basis.texts"), whose = words("translation.statements");
        CHECK(text.find("CLP") != std::string::npos);
        if (whose != "published") CHECK(text.find(whose) != std::string::npos);
    }
    for (const std::string published : {"en", "es", "de", "fr"})
        CHECK(catalog(published)("translation.statements") == "published");
}

// EU texts of 2025-09-01 and the UN's ninth and tenth editions must not be mixed on one label.
TEST_CASE("no code of another edition is used", "[safety][texts]") {
    for (const auto& key : catalog("en").keys()) {
        for (const char* other : {"P203", "P265", "P316", "P317", "P318", "P319"}) {
            INFO(key);
            CHECK(key.find(other) == std::string::npos);
        }
    }
}

TEST_CASE("first aid says whom to ring", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        INFO(language);
        // The number itself stands in the frame beside it: make_labels_test.cpp.
        CHECK(words("label.call", arguments).find("NAME") != std::string::npos);
        for (Advice advice : {Advice::us_label, Advice::ask_first}) {
            const FirstAid aid = first_aid(advice);
            CHECK(words(aid.unconscious, arguments).find("EMERGENCY") != std::string::npos);
        }
    }
}

// "Rinse mouth. No vomiting, no drink." was read as what to look for.
TEST_CASE("what a label says on swallowing cannot be read as a symptom", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        const std::string told = words("translation.no_vomiting");
        for (const char* key : {"label.first_aid.ask_first", "label.first_aid.ask_first_short"}) {
            INFO(language << ": " << key);
            CHECK(words(key).find(told) != std::string::npos);
        }
    }
}

TEST_CASE("law notes name their source and whom to ask, and none is recalled", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        for (const auto& region : reference::regions()) {
            for (const auto& note : reference::law_notes(region.code)) {
                const std::string text = words(note.key, arguments);
                INFO(language << ": " << note.key);
                CHECK((text.find("SOURCE") != std::string::npos) == !note.source.empty());
                if (language != "en") continue;
                CHECK(text.find("Ask ") != std::string::npos);
                CHECK(text.find("recall") == std::string::npos);
            }
        }
    }
}

TEST_CASE("where a note forbids it, the region does", "[safety][texts]") {
    for (const char* region : {"GB", "DE", "NO", "CA", "AU"}) CHECK(reference::law_forbids(region));
    for (const char* region : {"US", "PR", "UA", "PH", ""})
        CHECK_FALSE(reference::law_forbids(region));
}

TEST_CASE("the US note on the difference names the EU's word", "[safety][texts]") {
    for (const auto& language : languages()) {
        const auto words = catalog(language);
        INFO(language);
        CHECK(words("basis.us_differs").find(words("signal.danger")) != std::string::npos);
    }
}
