#include "tracking/keys/link.hpp"

#include "catch_all.hpp"

using namespace gallipot::keys;

TEST_CASE("a link is all capitals") {
    CHECK(link("http://192.168.1.20:8017", "K1", "7Q2MX4KD9A") ==
          "HTTP://192.168.1.20:8017/S/K1/7Q2MX4KD9A");
    CHECK(link("https://hall.example/", "k1-b", "7Q2MX4KD9A") ==
          "HTTPS://HALL.EXAMPLE/S/K1-B/7Q2MX4KD9A");
    CHECK(overview_link("http://192.168.1.20:8017", "7Q2MX4KD9A") ==
          "HTTP://192.168.1.20:8017/ALL/7Q2MX4KD9A");
    CHECK(household_link("http://192.168.1.20:8017", "7Q2MX4KD9A") ==
          "HTTP://192.168.1.20:8017/HOME/7Q2MX4KD9A");
}

// RFC 3986, 6.2.2.1: scheme and host do not mind letter case, a path does.
TEST_CASE("the path of an address is kept as it stands") {
    CHECK(link("http://hall.example/Baits/", "K1", "7Q2MX4KD9A") ==
          "HTTP://HALL.EXAMPLE/Baits/S/K1/7Q2MX4KD9A");
}

TEST_CASE("a page of the user's own is used as it stands with the id put in") {
    CHECK(own_page("https://forms.example/f?at={station}"));
    CHECK_FALSE(own_page("https://forms.example/f"));
    CHECK(link("https://forms.example/f?at={station}&x={station}", "Küche 1", "7Q2MX4KD9A") ==
          "https://forms.example/f?at=K%C3%BCche%201&x=K%C3%BCche%201");
    CHECK(overview_link("https://forms.example/f?at={station}", "7Q2MX4KD9A").empty());
    CHECK(household_link("https://forms.example/f?at={station}", "7Q2MX4KD9A").empty());
}

TEST_CASE("an id that holds the placeholder is put in once") {
    CHECK(link("https://forms.example/{station}", "{station}", "") ==
          "https://forms.example/%7Bstation%7D");
}

TEST_CASE("an id cannot leave its place in the path") {
    CHECK(link("http://192.168.1.20:8017", "a/../b?c#d", "7Q2MX4KD9A") ==
          "HTTP://192.168.1.20:8017/S/A%2F..%2FB%3FC%23D/7Q2MX4KD9A");
}
