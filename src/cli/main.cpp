#include "cli/command.hpp"

int main(int argc, char** argv) {
    return gallipot::command::start(argc, argv);
}
