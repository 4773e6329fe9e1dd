#include <chrono>
#include <random>

#include "catch_all.hpp"

#include "base/image/exif.hpp"
#include "base/image/photo.hpp"
#include "pictures.hpp"

using namespace gallipot;
using namespace gallipot::tests;
using image::PhotoFault;

namespace {

bool is_fault(const std::string& file, PhotoFault fault) {
    const auto cleaned = image::clean_photo(file);
    return std::holds_alternative<PhotoFault>(cleaned) && std::get<PhotoFault>(cleaned) == fault;
}

/// Something to look at in every block, so that no byte of the file is idle.
image::Pixels noise(int width, int height) {
    image::Pixels pixels = image::Pixels::of(width, height);
    std::minstd_rand random(1);  // NOLINT: the same each time
    for (auto& byte : pixels.rgb) byte = static_cast<std::uint8_t>(random() >> 8U);
    return pixels;
}

}  // namespace

TEST_CASE("a photo that ends early is damaged, wherever it ends") {
    for (const std::string& file : {with_exif(jpeg_file(noise(40, 30)), 6, true),
                                    jpeg_file(noise(40, 30), true), png_file(noise(24, 16))}) {
        REQUIRE(std::holds_alternative<std::string>(image::clean_photo(file)));
        // A PNG's last 12 bytes say only that it ends.
        const std::size_t whole = file.starts_with("\x89PNG") ? file.size() - 12 : file.size();
        for (std::size_t size = 0; size < whole; ++size) {
            const std::string cut = file.substr(0, size);
            CAPTURE(size, file.size());
            REQUIRE((is_fault(cut, PhotoFault::damaged) || is_fault(cut, PhotoFault::not_a_photo)));
        }
    }
}

TEST_CASE("a photo with any byte changed is a photo or a fault") {
    for (const std::string& file : {with_exif(jpeg_file(noise(24, 16)), 6, false),
                                    jpeg_file(noise(24, 16), true), png_file(noise(16, 8))}) {
        std::size_t faults = 0;
        for (std::size_t at = 0; at < file.size(); ++at)
            for (const unsigned flip : {0x01U, 0x80U, 0xFFU}) {
                std::string changed = file;
                changed[at] = static_cast<char>(static_cast<unsigned char>(changed[at]) ^ flip);
                faults += image::clean_photo(changed).index();
            }
        CHECK(faults > file.size() / 10);
    }
}

TEST_CASE("what is no photo is told as such") {
    for (const std::string file :
         {"", "GIF89a", "%PDF-1.7", "<svg xmlns=\"http://www.w3.org/2000/svg\"/>", "RIFF\0\0WEBP"})
        CHECK(is_fault(file, PhotoFault::not_a_photo));
    CHECK(is_fault("\xFF\xD8\xFF", PhotoFault::damaged));
    CHECK(is_fault("\x89PNG\r\n\x1A\n", PhotoFault::damaged));
}

TEST_CASE("a photo of too many bytes is not looked at") {
    std::string file = jpeg_file(corners(64, 48));
    file.resize(image::maximum_file, '\0');  // what follows a JPEG's end is no part of it
    CHECK(std::holds_alternative<std::string>(image::clean_photo(file)));
    file += '\0';
    CHECK(is_fault(file, PhotoFault::too_many_bytes));
}

TEST_CASE("a head that says too many pixels ends the reading") {
    const auto begun = std::chrono::steady_clock::now();
    CHECK(is_fault(png_head(5001, 5000), PhotoFault::too_many_pixels));
    CHECK(is_fault(png_head(60'000, 60'000), PhotoFault::too_many_pixels));
    CHECK(is_fault(png_head(2'000'000'000, 2'000'000'000), PhotoFault::damaged));
    CHECK(is_fault(png_head(0, 0), PhotoFault::damaged));
    // As many as are read, and none of them there.
    CHECK(is_fault(png_head(5000, 5000), PhotoFault::damaged));
    // A JPEG's frame (FF C0 or FF C2, length, precision, height, width).
    for (const bool progressive : {false, true}) {
        std::string jpeg = jpeg_file(corners(64, 48), progressive);
        const auto frame = jpeg.find(progressive ? "\xFF\xC2" : "\xFF\xC0");
        REQUIRE(frame != std::string::npos);
        jpeg.replace(frame + 5, 4, "\xFF\x00\xFF\x00", 4);
        CHECK(is_fault(jpeg, PhotoFault::too_many_pixels));
        jpeg.replace(frame + 5, 4, "\x13\x88\x13\x88", 4);  // 5,000 by 5,000
        CHECK(is_fault(jpeg, PhotoFault::damaged));
    }
    CHECK(std::chrono::steady_clock::now() - begun < std::chrono::seconds(10));
}

TEST_CASE("a picture that is small as a file and large in memory is kept small") {
    // 25 million pixels of one colour: 75 MB from some 100 kB.
    const std::string file = png_file(image::Pixels::of(5000, 5000));
    REQUIRE(file.size() < 200'000);
    const auto cleaned = image::clean_photo(file);
    REQUIRE(std::holds_alternative<std::string>(cleaned));
    CHECK(std::get<std::string>(cleaned).size() < 100'000);
}

TEST_CASE("a JPEG of very many scans is not read to its end") {
    // Progressive, its last scan again and again: each costs a walk over the whole picture.
    std::string jpeg = jpeg_file(corners(64, 48), true);
    const auto last = jpeg.rfind("\xFF\xDA");
    const std::string scan = jpeg.substr(last, jpeg.size() - 2 - last);
    std::string bomb = jpeg.substr(0, jpeg.size() - 2);
    for (int i = 0; i < 2000; ++i) bomb += scan;
    bomb += "\xFF\xD9";
    CHECK(is_fault(bomb, PhotoFault::damaged));
}
