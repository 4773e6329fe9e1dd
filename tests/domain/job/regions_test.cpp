#include "domain/reference/regions.hpp"

#include <string>
#include <unicode/ulocdata.h>

#include "catch_all.hpp"

#include "job_text.hpp"

using namespace gallipot;
using namespace gallipot::tests;

TEST_CASE("the usual paper is that of Unicode CLDR, as ICU has it, in every region") {
    for (const reference::Region& region : reference::regions()) {
        const std::string code(region.code);
        INFO(code);
        int32_t height = 0;
        int32_t width = 0;
        UErrorCode status = U_ZERO_ERROR;
        ulocdata_getPaperSize(("und_" + code).c_str(), &height, &width, &status);
        REQUIRE(U_SUCCESS(status));
        const auto got = read(changed(small_job, "region: AU", "region: " + code));
        REQUIRE(got.job);
        CHECK((*got.job->paper == job::Paper::letter) == (height == 279 && width == 216));
    }
}
