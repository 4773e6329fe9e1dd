#pragma once

#include <memory>
#include <string>
#include <vector>

#include "papers/document/content.hpp"

/// A document that has every kind of block, in a scenario of our own.
namespace gallipot::tests {

using document::Align;
using text::StyledText;

inline StyledText plain(const std::string& text) {
    return {{text, false}};
}
inline StyledText bold(const std::string& text) {
    return {{text, true}};
}
inline StyledText lead(const std::string& strong, const std::string& rest) {
    return {{strong, true}, {rest, false}};
}

inline document::Sheet mixing_card() {
    using namespace document;
    Sheet sheet;
    sheet.bookmark = "Sweet liquid bait";
    sheet.kicker = plain("Millrace Community Hall \u00b7 mixing card 1 of 3");
    sheet.title = plain("Sweet liquid bait");
    sheet.aside = {{"against ants \u00b7 fills ", false}, {"6 cups of 45\u00a0mL", true}};
    sheet.footer_left = plain(
        "Home-made preparation, not a registered product. Follow the packet\u2019s label and local "
        "rules.");
    sheet.footer_right = plain("made 2\u00a0March 2027 \u00b7 replace by 1\u00a0April 2027");

    Banner banner{plain("DANGER  Not food. Keep children and pets out while you mix."), {}};
    Table amounts;
    amounts.columns = {{plain("Ingredient"), Align::left, 0},
                       {plain("Take"), Align::left, 1},
                       {plain("Weight"), Align::right, 0},
                       {plain("Volume"), Align::right, 0},
                       {plain("Share by weight"), Align::right, 0}};
    amounts.rows = {{{bold("Borax"), plain("decahydrate")},
                     {lead("\u00be tsp", " level: one \u00bd tsp and one \u00bc tsp"), {}},
                     {plain("3.2\u00a0g"), {}},
                     {plain("3.7\u00a0mL"), {}},
                     {plain("1.0\u00a0%"), plain("0.9 to 1.1\u00a0%")}},
                    {{bold("Sugar"), {}},
                     {lead("5 tbsp", " level"), {}},
                     {plain("64\u00a0g"), {}},
                     {plain("75\u00a0mL"), {}},
                     {plain("20\u00a0%"), {}}},
                    {{lead("Water", ", warm"), {}},
                     {lead("250\u00a0mL", " in the jug, to the mark"), {}},
                     {plain("254\u00a0g"), {}},
                     {plain("254\u00a0mL"), {}},
                     {plain("79\u00a0%"), {}}},
                    {{plain("Makes"), {}},
                     {{}, plain("with 10\u00a0% spare")},
                     {plain("321\u00a0g"), {}},
                     {plain("297\u00a0mL"), {}},
                     {}}};
    amounts.last_row_is_total = true;

    Checklist before;
    before.items = {plain("Stick the labels on the six empty cups and on the mixing bottle."),
                    plain("Gloves on. Cover the table. Use spoons and a jug that never go back to "
                          "the kitchen.")};
    Checklist mix;
    mix.numbered = true;
    mix.items = {
        plain("Pour the warm water (40\u00a0\u00b0C, hand-warm) into the jug."),
        plain("Stir in the borax until the water is clear. It dissolves above 8\u00a0\u00b0C."),
        plain("Stir in the sugar until it is clear again."),
        plain("Let it cool before you close any bottle: a hot closed bottle can burst."),
        plain("Fill each cup to 45\u00a0mL. Lids on. Wipe the outside."),
        plain(
            "What is left goes into the labelled bottle, locked away where no child can reach it. "
            "Wash your hands and the tools, and keep the tools for this work only.")};
    FillIn batch;
    batch.columns = {{plain("Mixed by"), Align::left, 2},
                     {plain("Date and time"), Align::left, 2},
                     {plain("Lot on the packet"), Align::left, 2},
                     {plain("Cups filled"), Align::left, 1}};
    batch.lines = 2;

    sheet.blocks = {
        banner,
        Heading{plain("Measure out")},
        amounts,
        Paragraph{
            plain("As measured this way the bait is 1.0\u00a0% borax (0.65\u00a0% boric acid "
                  "equivalent). How the powder packs can make it 0.9 to 1.1\u00a0%; weigh it "
                  "to be exact. Never above 1.5\u00a0%: stronger bait kills the forager before "
                  "it gets home."),
            Voice::small},
        Heading{plain("Before you start")},
        before,
        Heading{plain("Mix")},
        mix,
        Heading{plain("Then")},
        Paragraph{
            {{"Set the cups out by the placement plan. Below 5\u00a0\u00b0C crystals may come "
              "back: the ",
              false},
             {"Yard", true},
             {" station can reach 2\u00a0\u00b0C, so look there first.", false}},
            Voice::normal},
        batch};
    return sheet;
}

inline document::Sheet household_sheet() {
    using namespace document;
    Sheet sheet;
    sheet.bookmark = "For everyone in the building";
    sheet.kicker = plain("Millrace Community Hall \u00b7 for everyone in the building");
    sheet.title = plain("There is ant and cockroach bait in this building until 1\u00a0April");
    sheet.footer_left = plain(
        "Home-made preparation, not a registered product. Local rules may restrict it. For a heavy "
        "or returning infestation call a licensed professional.");
    Banner banner{plain("It is poison. Do not eat, touch or move it."), plain("Call 111")};
    Table where;
    where.columns = {{plain("Room"), Align::left, 0},
                     {plain("Place"), Align::left, 1},
                     {plain("No."), Align::left, 0},
                     {plain("What is in one cup"), Align::left, 1},
                     {plain("Take up"), Align::right, 0}};
    where.rows = {{{bold("Kitchen"), {}},
                   {plain("Behind the bins"), {}},
                   {plain("K1-1, K1-2"), {}},
                   {plain("borax 0.49\u00a0g, sugar, water"), {}},
                   {plain("1\u00a0April"), {}}},
                  {{},
                   {plain("Under the sink"), {}},
                   {plain("K2"), {}},
                   {plain("borax 12\u00a0g, icing sugar"), {}},
                   {plain("31\u00a0May"), {}}},
                  {{bold("Stores"), {}},
                   {plain("Behind the boiler"), {}},
                   {plain("B1, B2"), {}},
                   {plain("borax 12\u00a0g, icing sugar"), {}},
                   {plain("31\u00a0May"), {}}},
                  {{bold("Stage"), {}},
                   {plain("Underside of the boards"), {}},
                   {plain("S1"), {}},
                   {plain("sprayed wood, borax"), {}},
                   {plain("\u2013"), {}}}};
    Columns rules;
    rules.parts = {{plain("Do"),
                    {plain("Keep children and pets away."), plain("Tell visitors and helpers."),
                     plain("Tell us if a cup is spilt, wet, moved or gone.")}},
                   {plain("Do not"),
                    {plain("Do not spray insect killer until 23\u00a0March. It stops the bait."),
                     plain("Do not wipe up the ants on their way to a cup."),
                     plain("Do not put cups near food.")}}};
    Checklist swallowed;
    swallowed.numbered = true;
    swallowed.boxes = false;
    swallowed.items = {plain("Take the cup away. Rinse the mouth with water."),
                       plain("Do not make them vomit."),
                       {{"Call ", false},
                        {"111", true},
                        {" now. Say: ", false},
                        {"borax", true},
                        {", the number on the cup, how much, when, and how old they are.", false}}};
    Checklist visitors;
    visitors.boxes = false;
    visitors.items = {plain("In the eyes: rinse with water for some minutes."),
                      plain("A pet: call a vet and read the label out.")};
    FillIn read;
    read.columns = {{plain("I have read this: name"), Align::left, 2},
                    {plain("Date"), Align::left, 1},
                    {plain("Name"), Align::left, 2},
                    {plain("Date"), Align::left, 1}};
    read.lines = 3;
    auto help = std::make_shared<Group>();
    help->blocks = {Heading{plain("If someone swallows some")}, swallowed, visitors};
    sheet.blocks = {
        banner,
        Heading{plain("What to look for")},
        Paragraph{plain("Small clear cups with a label, and white powder or brown sweet "
                        "water inside. Each has a number. They look like food or drink. "
                        "They are not."),
                  Voice::large},
        Heading{plain("Where the cups are")},
        where,
        Heading{plain("Please")},
        rules,
        std::shared_ptr<const Group>(help),
        Heading{plain("Who to ask")},
        Paragraph{lead("Hall caretaker", ", (02) 5550 0142"), Voice::normal},
        read};
    return sheet;
}

/// A table of `rows` visits, over several pages when there are many.
inline document::Sheet visit_sheet(int rows) {
    using namespace document;
    Sheet sheet;
    sheet.bookmark = "Visits";
    sheet.kicker = plain("Millrace Community Hall");
    sheet.title = plain("Visits");
    sheet.footer_left = plain("Home-made preparation, not a registered product.");
    Table visits;
    visits.columns = {{plain("Station"), Align::left, 0},
                      {plain("Place"), Align::left, 1},
                      {plain("Due"), Align::left, 0},
                      {plain("Seen"), Align::right, 0},
                      {plain("Bait left"), Align::right, 0}};
    for (int i = 1; i <= rows; ++i) {
        visits.rows.push_back({{bold("K" + std::to_string(i)), {}},
                               {plain("Kitchen, behind the bins"), {}},
                               {plain("12\u00a0March 2027"), {}},
                               {plain(std::to_string(1000 / i)), {}},
                               {plain(std::to_string(i % 100) + "\u00a0%"), {}}});
    }
    sheet.blocks = {
        Heading{plain("Every station by every due date")}, visits, Heading{plain("What you saw")},
        Paragraph{plain("Write down what you saw even when it is nothing."), Voice::normal}};
    return sheet;
}

inline document::Document sample_document() {
    return {"Millrace Community Hall",
            "Hall caretaker",
            "en",
            {mixing_card(), household_sheet(), visit_sheet(30)}};
}

}  // namespace gallipot::tests
