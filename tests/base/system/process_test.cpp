#include "base/system/process.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include "catch_all.hpp"

#include "base/system/files.hpp"

using namespace gallipot::system;

TEST_CASE("a process goes on as another program, with the arguments it is given") {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        become("/bin/sh", {"sh", "-c", "exit $(($# + $1))", "sh", "40", "a b"});
        ::_exit(1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 42);
}

TEST_CASE("a program that is not there is named, with what to do") {
    try {
        become("/none/serve", {"gallipot"});
        FAIL("it became something");
    } catch (const SystemError& error) {
        CHECK(std::string(error.what()) ==
              "cannot start '/none/serve': No such file or directory; install gallipot "
              "again");
    }
}
