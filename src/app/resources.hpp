#pragma once

#include <cstddef>
#include <string>

/// What a user wants done with a job, whoever asks: the command line or the pages for phones. Reads
/// and writes files; prints nothing and knows no terminal. May use every layer below it (base,
/// domain, tracking, papers). Start at session.hpp: a job, read and planned.
namespace gallipot::app {

/// What the machine gives for the work.
struct Resources {
    std::string fonts_folder;  ///< of the user's own; empty: the system's
    std::size_t threads = 1;   ///< what comes out is the same, whatever the number
};

}  // namespace gallipot::app
