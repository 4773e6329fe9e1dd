#include <csignal>
#include <regex>

#include "hall.hpp"

namespace gallipot::cli {
namespace {

using tests::Hall;
using tests::Ran;

/// Serves with SIGTERM waiting: the server starts, greets and ends.
Ran serve_once(const std::vector<std::string>& arguments) {
    sigset_t term;
    sigset_t before;
    sigemptyset(&term);
    sigaddset(&term, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &term, &before);
    raise(SIGTERM);
    Ran ran = Hall::run(arguments);
    // Takes the signal away when nothing has waited for it.
    const timespec at_once{0, 0};
    sigtimedwait(&term, nullptr, &at_once);
    pthread_sigmask(SIG_SETMASK, &before, nullptr);
    return ran;
}

TEST_CASE(
    "serve: says where it is, how phones reach it and where all stations are, and ends well") {
    const Hall hall;
    const Ran ran = serve_once({"serve", hall.job, "--listen", "127.0.0.1:0"});
    CHECK(ran.exit == 0);
    CHECK(ran.says("The visit log of Weir Street Hall is at\n  http://127.0.0.1:"));
    CHECK(ran.says("for this machine only; for phones on the same network: --listen 0.0.0.0:"));
    CHECK(std::regex_search(ran.out,
                            std::regex("HTTP://192\\.168\\.1\\.20:8017/ALL/[0-9A-Z]{10}\n")));
    CHECK(ran.says("█"));  // its code
    CHECK(ran.says("Stopped."));
    // Nobody is told that the labels open this when they do not.
    CHECK(ran.complains("warning: the labels' codes open http://192.168.1.20:8017"));
    CHECK(std::filesystem::exists(hall.folder / "hall.visits.sqlite"));
}

TEST_CASE("serve: for phones, with the addresses of this machine") {
    const Hall hall;
    const Ran ran = serve_once({"serve", hall.job, "--listen", "0.0.0.0:0"});
    CHECK(ran.exit == 0);
    CHECK_FALSE(ran.says("for this machine only"));
    CHECK(ran.says("\n  http://127.0.0.1:"));
}

TEST_CASE("serve: a secret that is new is told, and what that means for labels there may be") {
    const Hall hall;
    const std::string made = "hall.secret, which makes your QR codes work; back it up";
    const std::string says = "labels printed before, with another secret, open nothing any more";
    const Ran first = serve_once({"serve", hall.job, "--listen", "127.0.0.1:0"});
    CHECK(first.complains(made));
    CHECK_FALSE(first.complains(says));  // there is no log yet, so nothing was printed
    CHECK_FALSE(serve_once({"serve", hall.job, "--listen", "127.0.0.1:0"}).complains(made));
    const std::string link = Hall::run({"plan", hall.job, "--json"}).out;
    std::filesystem::remove(hall.folder / "hall.secret");
    const Ran render =
        Hall::run({"render", hall.job, "-o", hall.folder / "papers", "--only", "labels"});
    CHECK(render.exit == 0);
    CHECK(render.complains(made));
    CHECK(render.complains(says));
    CHECK(Hall::run({"plan", hall.job, "--json"}).out != link);
}

TEST_CASE("serve: what cannot be served") {
    const Hall hall;
    CHECK(Hall::run({"serve", hall.job, "--listen", "nonsense:port"}).exit == 2);
    CHECK(Hall::run({"serve", hall.job, "--listen", ":8017"}).exit == 2);
    CHECK(Hall::run({"serve", hall.job, "--host", "a b"}).exit == 2);
    CHECK(Hall::run({"serve", hall.job, "--host", ""}).exit == 2);
    CHECK(Hall::run({"serve"}).exit == 2);
    CHECK(Hall::run({"serve", hall.folder / "none.yaml"}).exit == 2);
    // An address that is not this machine's (set aside for documents, RFC 5737).
    const Ran elsewhere = Hall::run({"serve", hall.job, "--listen", "192.0.2.77:8017"});
    CHECK(elsewhere.exit == 2);
    CHECK(
        elsewhere.complains("cannot listen at 192.0.2.77:8017: this machine has no such address"));
    const Ran nowhere = Hall::run({"serve", hall.job, "--listen", "no-such-host.invalid:8017"});
    CHECK(nowhere.exit == 2);
    CHECK(nowhere.complains("no host called 'no-such-host.invalid'"));
    // Nothing was written by any of them.
    CHECK_FALSE(std::filesystem::exists(hall.folder / "hall.secret"));
    CHECK_FALSE(std::filesystem::exists(hall.folder / "hall.visits.sqlite"));
    // Nor behind a proxy, under whatever name.
    CHECK(Hall::run({"serve", hall.job, "--listen", "192.0.2.77:8017", "--host", "baits.example",
                     "--behind-proxy"})
              .exit == 2);
    const std::string bad = hall.write("bad.yaml", "title: x\nbottles: 3\n");
    CHECK(Hall::run({"serve", bad}).exit == 1);
    CHECK_FALSE(std::filesystem::exists(hall.folder / "bad.visits.sqlite"));
}

}  // namespace
}  // namespace gallipot::cli
