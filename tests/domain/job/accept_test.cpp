#include "domain/job/accept.hpp"

#include "catch_all.hpp"

#include "domain/job/reader.hpp"
#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;

namespace {

struct Accepted {
    job::Job job;
    diag::Diagnostics found;
    std::vector<diag::Diagnostic> taken;
};

/// The small job with the changes; then messages of these codes at the places of the mix syrup, the
/// mix timber and the station K1, and what the job accepts of them.
Accepted accept(const std::string& text) {
    diag::Diagnostics reading;
    const auto job = job::read_job(
        std::make_shared<const diag::Source>(diag::Source{"job.yaml", text}), reading);
    INFO(diag::print(reading));
    REQUIRE(job);
    Accepted it{*job, {}, {}};
    it.found.error("far-from-usual", it.job.mixes[0].against.place, "syrup is far", "look");
    it.found.error("far-from-usual", it.job.mixes[1].against.place, "timber is far", "look");
    it.found.warning("crystals", it.job.stations[0].id.place, "crystals", "look");
    it.found.error("over-limit", it.job.mixes[0].against.place, "over", "lower it");
    it.taken = job::take_accepted(it.job, it.found);
    return it;
}

}  // namespace

TEST_CASE("a job accepts messages by their codes: everywhere, in one mix, at one station") {
    CHECK(accept(small_job).taken.empty());

    const auto everywhere = accept("accept: [far-from-usual]\n" + small_job);
    CHECK(everywhere.taken.size() == 2);
    CHECK(everywhere.found.errors() == 1);

    const auto one_mix = accept(
        changed(small_job, "    lasts: 30 d", "    accept: [far-from-usual]\n    lasts: 30 d"));
    REQUIRE(one_mix.taken.size() == 1);
    CHECK(one_mix.taken.front().message.english() == "syrup is far");
    CHECK(one_mix.found.errors() == 2);

    const auto station = accept(
        changed(small_job, "    container: cup", "    container: cup\n    accept: [crystals]"));
    CHECK(station.taken.size() == 1);
    CHECK(station.found.warnings() == 0);
}

TEST_CASE("an error that is no choice of the user's is never accepted") {
    auto it = accept("accept: [over-limit]\n" + small_job);
    CHECK(it.taken.empty());
    CHECK(it.found.has_errors());
    job::check_accepted(it.job, it.taken, it.found);
    CHECK(diag::print(it.found).find("the error 'over-limit' cannot be accepted") !=
          std::string::npos);
}

TEST_CASE("what is accepted and not there is told, with a near spelling") {
    auto it = accept("accept: [far-from-usal]\n" + small_job);
    job::check_accepted(it.job, it.taken, it.found);
    const std::string printed = diag::print(it.found);
    CHECK(printed.find("accepts-nothing") != std::string::npos);
    CHECK(printed.find("did you mean 'far-from-usual'?") != std::string::npos);

    auto used = accept("accept: [far-from-usual]\n" + small_job);
    job::check_accepted(used.job, used.taken, used.found);
    CHECK(diag::print(used.found).find("accepts-nothing") == std::string::npos);
}
