#include "analysis/decline.hpp"

#include <cmath>

#include "catch_all.hpp"

using namespace gallipot::analysis;

TEST_CASE("what cannot be fitted says why and holds no figures", "[analysis]") {
    CHECK(fit_decline(std::vector<Count>{}).fitted == Fitted::too_few);
}
