#include "cli/command.hpp"

int main(int argc, char** argv) {
    return gallipot::cli::start(argc, argv);
}
