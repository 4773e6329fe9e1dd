#include "domain/safety/who_to_call.hpp"

#include "catch_all.hpp"

#include "domain/reference/emergency.hpp"
#include "domain/reference/regions.hpp"

using namespace gallipot;
using namespace gallipot::safety;
using namespace std::chrono_literals;

namespace {

const auto source = std::make_shared<const diag::Source>(
    diag::Source{"hall.yaml", "help:\n  region: ZZ\n  poison_centre: { name: N, phone: P }\n"});

job::Help in(const std::string& region) {
    job::Help help;
    help.region = {region, {source, 2, 11, 2}};
    return help;
}

job::Contact centre(const std::string& name, const std::string& phone) {
    return {{name, {source, 3, 26, 1}}, {phone, {source, 3, 36, 1}}};
}

const job::Date soon = 2027y / std::chrono::March / 2;

std::vector<std::string> codes(const diag::Diagnostics& out) {
    std::vector<std::string> list;
    for (const auto& one : out.in_order()) list.push_back(one.code);
    return list;
}

/// A printed hint is cut beyond this many characters: a number might be cut in two.
constexpr std::size_t longest_shown = 400;

bool mentions(const std::string& text, const std::string& part) {
    return text.find(part) != std::string::npos;
}

}  // namespace

// Numbers as on the pages named in src/domain/reference/emergency.cpp.
TEST_CASE("numbers that were found are printed", "[safety]") {
    struct Row {
        const char *region, *phone, *emergency;
    };
    const Row rows[] = {{"US", "1-800-222-1222", "911"},
                        {"AU", "13 11 26", "000"},
                        {"GB", "111", "999"},
                        {"NZ", "0800 764 766", "111"},
                        {"IE", "01 809 2166", "112"},
                        {"ES", "91 562 04 20", "112"},
                        {"CA", "1-844-764-7669", "911"},
                        {"FR", "01 45 42 59 59", "15"},
                        {"CH", "145", "112"},
                        {"AT", "01 406 43 43", "112"},
                        {"FI", "0800 147 111", "112"},
                        {"PH", "(02) 8524-1078", "911"},
                        {"ZA", "0861 555 777", "10177"},
                        {"BR", "0800 722 6001", "192"}};
    for (const Row& row : rows) {
        INFO(row.region);
        diag::Diagnostics out;
        const WhoToCall who = who_to_call(in(row.region), out);
        CHECK(codes(out).empty());
        CHECK(who.phone == row.phone);
        CHECK(who.emergency == row.emergency);
        CHECK_FALSE(who.name.empty());
        CHECK_FALSE(who.source.empty());
        CHECK_FALSE(who.vouched);
    }
}

TEST_CASE("a number that was only recalled is not printed", "[safety]") {
    for (const char* region : {"IN", "MX"}) {
        INFO(region);
        diag::Diagnostics out;
        const WhoToCall who = who_to_call(in(region), out);
        CHECK(codes(out) == std::vector<std::string>{"no-poison-centre", "no-emergency-number"});
        CHECK(who.phone.empty());
        CHECK(who.emergency.empty());
        for (const auto& one : out.in_order()) {
            CHECK(one.place.line == 2);
            // Nor does a message let it slip.
            const auto* known = reference::find_emergency_help(region);
            CHECK_FALSE(mentions(one.hint.english() + one.message.english(),
                                 std::string(known->phone->value)));
        }
    }
}

TEST_CASE("Germany has a centre a Land: the job must name one", "[safety]") {
    diag::Diagnostics out;
    const WhoToCall who = who_to_call(in("DE"), out);
    REQUIRE(codes(out) == std::vector<std::string>{"no-poison-centre"});
    CHECK(who.phone.empty());
    CHECK(who.emergency == "112");
    CHECK(diag::print(out.in_order()[0]) ==
          "hall.yaml:2:11: error: no one poison-information number for the public is known for DE "
          "(Germany) [no-poison-centre]\n"
          "    2 |   region: ZZ\n"
          "      |           ^~\n"
          "  fix: add help.poison_centre: { name: NAME, phone: NUMBER } with a number you have "
          "checked; those for parts of it: Berlin (BE, BB) 030 19240, Bonn (NW) 0228 19240, Erfurt "
          "(MV, SN, ST, TH) 0361 730730, Freiburg (BW) 0761 19240, Göttingen (HB, HH, NI, SH) 0551 "
          "19240, Mainz (HE, RP, SL) 06131 19240, München (BY) 089 19240\n");
}

TEST_CASE("Italy's recalled centres are not offered, the found one is", "[safety]") {
    diag::Diagnostics out;
    static_cast<void>(who_to_call(in("IT"), out));
    REQUIRE(codes(out) == std::vector<std::string>{"no-poison-centre"});
    CHECK(mentions(out.in_order()[0].hint.english(), "06 3054343"));
    CHECK_FALSE(mentions(out.in_order()[0].hint.english(), "02 66101029"));
}

TEST_CASE("a centre for professionals only is not for the public", "[safety]") {
    diag::Diagnostics out;
    CHECK(who_to_call(in("NL"), out).phone.empty());
    REQUIRE(codes(out) == std::vector<std::string>{"no-poison-centre"});
    CHECK(mentions(out.in_order()[0].hint.english(), "huisarts"));
    CHECK_FALSE(mentions(out.in_order()[0].hint.english(), "088"));
}

TEST_CASE("what the job gives goes before the table", "[safety]") {
    job::Help help = in("DE");
    help.poison_centre = centre("Giftnotruf", "0228 19240");
    diag::Diagnostics out;
    WhoToCall who = who_to_call(help, out);
    CHECK(codes(out).empty());
    CHECK(who.phone == "0228 19240");
    CHECK(who.name.main() == "Giftnotruf");
    CHECK(who.source == "the job");
    CHECK(who.vouched);
    CHECK(who.emergency == "112");
    CHECK_FALSE(who.emergency_source.empty());
    CHECK(who.emergency_source != "the job");
    CHECK_FALSE(who.emergency_vouched);

    help.emergency = job::At<std::string>{"911", {source, 2, 1, 1}};
    who = who_to_call(help, out);
    CHECK(who.emergency == "911");
    CHECK(who.emergency_source == "the job");
    CHECK(who.emergency_vouched);
}

TEST_CASE("a job may stand in a region of which nothing is known", "[safety]") {
    job::Help help = in("TH");
    diag::Diagnostics out;
    static_cast<void>(who_to_call(help, out));
    CHECK(codes(out) == std::vector<std::string>{"no-poison-centre", "no-emergency-number"});

    help.poison_centre = centre("Poison line", "555-0100");
    help.emergency = job::At<std::string>{"555-0101", {source, 2, 1, 1}};
    diag::Diagnostics none;
    CHECK(who_to_call(help, none).phone == "555-0100");
    CHECK(codes(none).empty());
}

TEST_CASE("no hint is so long that it would be cut", "[safety]") {
    for (const auto& region : reference::regions()) {
        const job::Help help = in(std::string(region.code));
        diag::Diagnostics out;
        ask_to_confirm(who_to_call(help, out), help, soon, out);
        for (const auto& one : out.in_order()) {
            INFO(region.code << ": " << one.hint.english());
            CHECK(one.hint.english().size() < longest_shown);
            CHECK_FALSE(one.hint.english().empty());
        }
    }
}

TEST_CASE("a job without a region is asked for one", "[safety]") {
    job::Help help;
    diag::Diagnostics out;
    CHECK(who_to_call(help, out).phone.empty());
    CHECK(codes(out) == std::vector<std::string>{"no-region"});

    // The region decides the rules too: numbers of the job's own do not make up for it.
    help.poison_centre = centre("Poison line", "555-0100");
    help.emergency = job::At<std::string>{"555-0101", {source, 2, 1, 1}};
    diag::Diagnostics still;
    CHECK(who_to_call(help, still).phone == "555-0100");
    CHECK(codes(still) == std::vector<std::string>{"no-region"});
}

TEST_CASE("check names the numbers once and asks to look them up", "[safety]") {
    diag::Diagnostics out;
    const job::Help help = in("AU");
    ask_to_confirm(who_to_call(help, out), help, soon, out);
    REQUIRE(codes(out) == std::vector<std::string>{"old-numbers"});  // one, for one thing to do
    const auto warning = out.in_order()[0];
    CHECK(
        warning.message.english() ==
        "your papers will show numbers that may have changed: Poisons Information Centre 13 11 26 "
        "(its source last showed it on 2023-08-01), emergency 000 (its source gives no day), "
        "Animal Poisons Helpline 1300 869 738 (its source last showed it on 2024-06-25)");
    CHECK(warning.hint.english() ==
          "look each up once, and write what you find under help: poison_centre, emergency, vet");

    // None of them old: the two that matter most are named all the same.
    job::Help fresh = in("AU");
    fresh.emergency = job::At<std::string>{"000", {source, 2, 1, 1}};
    diag::Diagnostics young;
    ask_to_confirm(who_to_call(fresh, young), fresh, 2025y / std::chrono::March / 2, young);
    REQUIRE(codes(young) == std::vector<std::string>{"confirm-numbers"});
    CHECK(young.in_order()[0].message.english() ==
          "your papers will show Poisons Information Centre 13 11 26 (24/7) and emergency 000");
    CHECK(young.in_order()[0].hint.english() ==
          "look both up once; to confirm or change them, set help.poison_centre");

    diag::Diagnostics canada;
    const job::Help in_canada = in("CA");
    ask_to_confirm(who_to_call(in_canada, canada), in_canada, soon, canada);
    CHECK(mentions(canada.in_order().at(0).hint.english(),
                   "(in Nunavut ring the local public health unit; Quebec 1-800-463-5060)"));

    diag::Diagnostics nothing;
    ask_to_confirm(WhoToCall{}, help, soon, nothing);
    CHECK(codes(nothing).empty());
}

// Days as the table has them: 13 11 26 on 1 August 2023, the animals' on 25 June 2024, 000 on none.
TEST_CASE("numbers over two years old, or of no known day, are named", "[safety]") {
    const auto old_on = [](job::Date prepared, const job::Help& help) {
        diag::Diagnostics out;
        ask_to_confirm(who_to_call(help, out), help, prepared, out);
        std::string message;
        for (const auto& one : out.in_order())
            if (one.code == "old-numbers") message = one.message.english();
        return message;
    };
    job::Help help = in("AU");
    const std::string before = old_on(2025y / std::chrono::August / 1, help);
    CHECK_FALSE(mentions(before, "last showed it"));
    CHECK(mentions(before, "emergency 000 (its source gives no day)"));
    const std::string after = old_on(2025y / std::chrono::August / 2, help);
    CHECK(mentions(after, "13 11 26 (its source last showed it on 2023-08-01)"));
    CHECK(mentions(old_on(2027y / std::chrono::March / 2, help), "1300 869 738"));
    // What the job gives itself is the user's to answer for.
    help.poison_centre = centre("Our nurse", "(02) 5550 0142");
    help.emergency = job::At<std::string>{"000", {source, 2, 1, 1}};
    help.vet = centre("Vet", "(02) 5550 0177");
    CHECK(old_on(2027y / std::chrono::March / 2, help).empty());
}

// As a starter does: `check` is silent, and papers go on to say where it comes from and how old
// that is.
TEST_CASE("the table's own number in a job keeps its source", "[safety]") {
    job::Help help = in("AU");
    help.poison_centre = centre("Poisons Information Centre", "131126");
    help.emergency = job::At<std::string>{"000", {source, 2, 1, 1}};
    help.vet = centre("Animal Poisons Helpline", "1300 869 738");
    diag::Diagnostics out;
    const WhoToCall who = who_to_call(help, out);
    ask_to_confirm(who, help, 2027y / std::chrono::March / 2, out);
    CHECK(codes(out).empty());
    CHECK(who.source != of_the_job);
    CHECK(who.vouched);
    REQUIRE(who.numbers().size() == 3);
    for (const ShownNumber& number : who.numbers())
        CHECK(number.is_old(2027y / std::chrono::March / 2));
    help.poison_centre = centre("Our nurse", "(02) 5550 0142");
    CHECK(who_to_call(help, out).source == of_the_job);
}

TEST_CASE("whom to call for an animal: the job's, else the table's, else nobody", "[safety]") {
    diag::Diagnostics out;
    job::Help help = in("AU");
    CHECK(who_to_call(help, out).vet_phone == "1300 869 738");
    CHECK(who_to_call(help, out).vet_name.main() == "Animal Poisons Helpline");
    help.vet = job::Contact{{}, {"02 5550 0177", {source, 2, 1, 1}}};
    CHECK(who_to_call(help, out).vet_phone == "02 5550 0177");
    CHECK(who_to_call(help, out).vet_name.empty());
    CHECK(who_to_call(help, out).vet_vouched);
    CHECK(who_to_call(in("ES"), out).vet_phone.empty());
    CHECK(codes(out).empty());
}

TEST_CASE("each number that is shown says where it comes from", "[safety]") {
    diag::Diagnostics out;
    const auto numbers = who_to_call(in("NZ"), out).numbers();
    REQUIRE(numbers.size() == 3);
    CHECK(numbers[0].phone == "0800 764 766");
    CHECK(numbers[0].shown_on == 2021y / std::chrono::November / 3);
    CHECK(numbers[1].phone == "111");
    CHECK_FALSE(numbers[1].shown_on.has_value());
    CHECK(numbers[2].phone == "0800 869 738");
    for (const ShownNumber& number : numbers) CHECK_FALSE(number.source.empty());
}

TEST_CASE("nothing is asked of numbers that the user vouches for", "[safety]") {
    job::Help help = in("AU");
    help.poison_centre = centre("Our nurse", "(02) 5550 0142");
    help.emergency = job::At<std::string>{"000", {source, 2, 1, 1}};
    help.vet = centre("Vet", "(02) 5550 0177");
    diag::Diagnostics out;
    ask_to_confirm(who_to_call(help, out), help, soon, out);
    CHECK(codes(out).empty());

    // One of the two is the table's still.
    help.emergency.reset();
    diag::Diagnostics half;
    ask_to_confirm(who_to_call(help, half), help, soon, half);
    REQUIRE(codes(half) == std::vector<std::string>{"old-numbers"});
    CHECK(half.in_order()[0].message.english() ==
          "your papers will show numbers that may have changed: emergency 000 (its source gives no "
          "day)");
    CHECK(mentions(half.in_order()[0].hint.english(), "help: emergency"));
}

TEST_CASE("a number of another region than the job's is told", "[safety]") {
    const auto told = [](const std::string& region, const std::string& phone,
                         const std::string& emergency) {
        job::Help help = in(region);
        help.poison_centre = centre("Centre", phone);
        help.emergency = job::At<std::string>{emergency, {source, 2, 1, 1}};
        diag::Diagnostics out;
        ask_to_confirm(who_to_call(help, out), help, soon, out);
        std::string messages;
        for (const auto& one : out.in_order())
            if (one.code == "number-of-elsewhere") messages += one.message.english() + '\n';
        return messages;
    };
    // The region was changed and the numbers of Australia stayed, however they are spaced.
    CHECK(told("DE", "131126", "000") ==
          "000 is the emergency number of Australia, and the region is DE (Germany)\n"
          "131126 is the poison-information number of Australia, and the region is DE (Germany)\n");
    CHECK(told("AU", "13 11 26", "000").empty());
    CHECK(told("DE", "030 19240", "112").empty());       // one of its own, for a part of it
    CHECK(told("GU", "1-800-222-1222", "911").empty());  // several regions share it
    CHECK(told("DE", "555-0100", "112").empty());        // a number that no table knows
}
