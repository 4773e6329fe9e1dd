#include "base/image/photo.hpp"

#include <cstdlib>
#include <set>

#include "catch_all.hpp"

#include "base/image/exif.hpp"
#include "base/image/jpeg.hpp"
#include "pictures.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using image::PhotoFault;

namespace {

std::string kept(const std::string& file) {
    auto cleaned = image::clean_photo(file);
    REQUIRE(std::holds_alternative<std::string>(cleaned));
    return std::get<std::string>(cleaned);
}

image::Pixels read(const std::string& jpeg) {
    auto pixels = image::read_jpeg(jpeg, 100'000);
    REQUIRE(pixels);
    return *std::move(pixels);
}

bool near(const image::Pixels& pixels, int x, int y, const Colour& colour) {
    for (std::size_t i = 0; i < 3; ++i)
        if (std::abs(int{pixels.rgb.at(pixels.at(x, y) + i)} - int{colour.at(i)}) > 12)
            return false;
    return true;
}

/// The kinds of its segments up to the picture (ITU-T T.81, B.1.1.3).
std::set<int> segments(const std::string& jpeg) {
    std::set<int> kinds;
    for (std::size_t at = 2; at + 4 <= jpeg.size();) {
        const auto byte = [&](std::size_t i) {
            return static_cast<unsigned char>(jpeg.at(at + i));
        };
        REQUIRE(byte(0) == 0xFF);
        kinds.insert(byte(1));
        if (byte(1) == 0xDA) break;
        at += 2 + byte(2) * std::size_t{256} + byte(3);
    }
    return kinds;
}

}  // namespace

TEST_CASE("a photo is kept without anything but its picture") {
    const std::string file = with_exif(jpeg_file(corners(64, 48)), 1, false);
    REQUIRE(file.find(owner) != std::string::npos);
    REQUIRE(file.find(place) != std::string::npos);
    REQUIRE(segments(file).contains(0xE1));

    const std::string photo = kept(file);
    CHECK(photo.find(owner) == std::string::npos);
    CHECK(photo.find(place) == std::string::npos);
    CHECK(photo.find("Exif") == std::string::npos);
    // JFIF's own head (APP0), tables, one frame, one scan: no APP1 to APP15 and no comment.
    const std::set<int> allowed{0xE0, 0xDB, 0xC0, 0xC4, 0xDA};
    for (const int kind : segments(photo)) CHECK(allowed.contains(kind));
    CHECK(kept(file) == photo);
}

TEST_CASE("what stands after a JPEG's end is gone") {
    const std::string photo = kept(jpeg_file(corners(64, 48)) + "<script>" + owner);
    CHECK(photo.find(owner) == std::string::npos);
    CHECK(photo.find("<script>") == std::string::npos);
}

TEST_CASE("a photo is turned upright") {
    // Exif 2.32, 4.6.4 A, Orientation: where the 0th row and the 0th column of the file are in the
    // scene. In the scene red is top left, green top right, blue bottom left, yellow bottom right;
    // the file's corners follow from that.
    const auto [orientation, in_file] = GENERATE(table<int, std::array<Colour, 4>>({
        {1, {red, green, blue, yellow}},  // row 0 at the top, column 0 at the left
        {2, {green, red, yellow, blue}},  // top, right
        {3, {yellow, blue, green, red}},  // bottom, right
        {4, {blue, yellow, red, green}},  // bottom, left
        {5, {red, blue, green, yellow}},  // left, top
        {6, {green, yellow, red, blue}},  // right, top
        {7, {yellow, green, blue, red}},  // right, bottom
        {8, {blue, red, yellow, green}},  // left, bottom
    }));
    const bool big = GENERATE(false, true);
    const bool lying = orientation >= 5;
    const auto stored = corners(lying ? 48 : 64, lying ? 64 : 48, in_file);
    const auto photo = read(kept(with_exif(jpeg_file(stored), orientation, big)));
    CAPTURE(orientation, big);
    CHECK(photo.width == 64);
    CHECK(photo.height == 48);
    CHECK(near(photo, 8, 8, red));
    CHECK(near(photo, 56, 8, green));
    CHECK(near(photo, 8, 40, blue));
    CHECK(near(photo, 56, 40, yellow));
}

TEST_CASE("an orientation that cannot be is none") {
    const std::string jpeg = jpeg_file(corners(16, 16));
    for (const int wrong : {0, 9, 65'535})
        CHECK(image::orientation(with_exif(jpeg, wrong, true)) == 1);
    CHECK(image::orientation(jpeg) == 1);
    CHECK(image::orientation("") == 1);
    // A directory that lies beyond the end, and as many entries as there can be.
    std::string far = with_exif(jpeg, 6, true);
    far.replace(16, 4, "\xFF\xFF\xFF\xFF");
    CHECK(image::orientation(far) == 1);
    std::string many = with_exif(jpeg, 6, true);
    many.replace(20, 4, "\xFF\xFF\x00\x00", 4);
    CHECK(image::orientation(many) == 1);
}

TEST_CASE("a large photo is shrunk, a small one stays its size") {
    const auto large = read(kept(jpeg_file(corners(4032, 3024), false, TJSAMP_420)));
    CHECK(large.width == image::longest_side);
    CHECK(large.height == 1200);
    CHECK(near(large, 700, 500, red));
    CHECK(near(large, 900, 700, yellow));
    const auto tall = read(kept(png_file(corners(1290, 2796))));
    CHECK(tall.height == image::longest_side);
    CHECK(tall.width == 738);  // 1290 * 1600 / 2796 = 738.2
    const auto small = read(kept(png_file(corners(33, 7))));
    CHECK(small.width == 33);
    CHECK(small.height == 7);
    const auto line = read(kept(png_file(corners(9000, 1))));
    CHECK(line.width == image::longest_side);
    CHECK(line.height == 1);
}

TEST_CASE("progressive JPEG and PNG are read too") {
    for (const std::string& file : {jpeg_file(corners(64, 48), true), png_file(corners(64, 48))}) {
        const auto photo = read(kept(file));
        CHECK(near(photo, 8, 8, red));
        CHECK(near(photo, 56, 40, yellow));
    }
}

TEST_CASE("a small one for lists") {
    const std::string photo = kept(jpeg_file(corners(1600, 1200)));
    const auto small = image::small_photo(photo);
    REQUIRE(std::holds_alternative<std::string>(small));
    const auto pixels = read(std::get<std::string>(small));
    CHECK(pixels.width == image::longest_small_side);
    CHECK(pixels.height == 240);
    CHECK(near(pixels, 10, 10, red));
    CHECK(std::get<std::string>(small).size() < photo.size());
    CHECK(std::get<PhotoFault>(image::small_photo("no photo")) == PhotoFault::damaged);
}
