#include "cli/serving.hpp"

/// libexec/gallipot/serve: gallipot with the server in it. `gallipot serve` becomes this program.
int main(int argc, char** argv) {
    return gallipot::command::start(argc, argv, gallipot::command::serve);
}
