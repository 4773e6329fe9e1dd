#include "cli/progress.hpp"

#include <sstream>

#include "catch_all.hpp"

using gallipot::cli::Progress;

TEST_CASE("progress is shown on a terminal once it takes long, and cleared") {
    std::ostringstream terminal;
    {
        Progress progress(terminal, true, 4, "files", Progress::Clock::duration::zero());
        progress.done_one();
        CHECK(terminal.str() == "\r[######..................] 1 of 4 files, 3 left");
    }
    CHECK(terminal.str().ends_with("\r\x1b[K"));
}

TEST_CASE("where nobody looks, and for short work, nothing is shown") {
    std::ostringstream terminal;
    for (const bool looked_at : {false, true}) {
        Progress progress(terminal, looked_at, 2, "files",
                          looked_at ? Progress::Clock::duration(std::chrono::hours(1))
                                    : Progress::Clock::duration::zero());
        progress.done_one();
        progress.done_one();
    }
    CHECK(terminal.str().empty());
}
