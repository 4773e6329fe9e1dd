#include "domain/safety/who_to_call.hpp"

#include "catch_all.hpp"

#include "domain/reference/emergency.hpp"
#include "domain/reference/regions.hpp"

using namespace gallipot;
using namespace gallipot::safety;

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
            CHECK_FALSE(mentions(one.hint + one.message, std::string(known->phone->value)));
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
          "19240, Homburg (SL) 06841 19240, Mainz (HE, RP) 06131 19240, München (BY) 089 19240\n");
}

TEST_CASE("Italy's recalled centres are not offered, the found one is", "[safety]") {
    diag::Diagnostics out;
    static_cast<void>(who_to_call(in("IT"), out));
    REQUIRE(codes(out) == std::vector<std::string>{"no-poison-centre"});
    CHECK(mentions(out.in_order()[0].hint, "06 3054343"));
    CHECK_FALSE(mentions(out.in_order()[0].hint, "02 66101029"));
}

TEST_CASE("a centre for professionals only is not for the public", "[safety]") {
    diag::Diagnostics out;
    CHECK(who_to_call(in("NL"), out).phone.empty());
    REQUIRE(codes(out) == std::vector<std::string>{"no-poison-centre"});
    CHECK(mentions(out.in_order()[0].hint, "huisarts"));
    CHECK_FALSE(mentions(out.in_order()[0].hint, "088"));
}

TEST_CASE("what the job gives goes before the table", "[safety]") {
    job::Help help = in("DE");
    help.poison_centre = centre("Giftnotruf", "0228 19240");
    diag::Diagnostics out;
    WhoToCall who = who_to_call(help, out);
    CHECK(codes(out).empty());
    CHECK(who.phone == "0228 19240");
    CHECK(who.name == "Giftnotruf");
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
        ask_to_confirm(who_to_call(help, out), help, out);
        for (const auto& one : out.in_order()) {
            INFO(region.code << ": " << one.hint);
            CHECK(one.hint.size() < longest_shown);
            CHECK_FALSE(one.hint.empty());
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

TEST_CASE("check names the numbers once and asks to try them", "[safety]") {
    diag::Diagnostics out;
    const job::Help help = in("AU");
    ask_to_confirm(who_to_call(help, out), help, out);
    REQUIRE(out.warnings() == 1);
    REQUIRE(out.errors() == 0);
    const auto warning = out.in_order()[0];
    CHECK(warning.message ==
          "the papers will say: Poisons Information Centre, 13 11 26 (24/7); in an emergency 000");
    CHECK(mentions(warning.hint, "poisonsinfo.health.qld.gov.au"));
    CHECK(mentions(warning.hint, "check these once"));
    CHECK(warning.code == "confirm-numbers");
    CHECK(mentions(warning.hint, "; help.poison_centre and help.emergency replace them"));

    diag::Diagnostics canada;
    const job::Help in_canada = in("CA");
    ask_to_confirm(who_to_call(in_canada, canada), in_canada, canada);
    CHECK(mentions(canada.in_order().at(0).hint,
                   "(in Nunavut ring the local public health unit; Quebec 1-800-463-5060)"));

    diag::Diagnostics nothing;
    ask_to_confirm(WhoToCall{}, help, nothing);
    CHECK(codes(nothing).empty());
}

TEST_CASE("a number the user vouches for is named too", "[safety]") {
    job::Help help = in("AU");
    help.poison_centre = centre("Our nurse", "(02) 5550 0142");
    help.emergency = job::At<std::string>{"000", {source, 2, 1, 1}};
    diag::Diagnostics out;
    ask_to_confirm(who_to_call(help, out), help, out);
    const auto warning = out.in_order().at(0);
    CHECK(warning.place.line == 3);
    CHECK(warning.message == "the papers will say: Our nurse, (02) 5550 0142; in an emergency 000");
    CHECK(warning.hint == "check these once with the authority before you print");

    // One of the two is the table's still.
    help.emergency.reset();
    diag::Diagnostics half;
    ask_to_confirm(who_to_call(help, half), help, half);
    CHECK(mentions(half.in_order().at(0).hint, "replace them"));
}
