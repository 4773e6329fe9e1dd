#include "base/image/jpeg.hpp"

#include <algorithm>
#include <memory>
#include <new>
#include <turbojpeg.h>

namespace gallipot::image {
namespace {

struct Destroy {
    void operator()(void* handle) const { tjDestroy(handle); }
};
using Handle = std::unique_ptr<void, Destroy>;

struct Head {
    int width = 0, height = 0;
};

const unsigned char* bytes_of(std::string_view file) {
    return reinterpret_cast<const unsigned char*>(file.data());
}

std::optional<Head> read_head(const Handle& handle, std::string_view file) {
    Head head;
    int subsampling = 0;
    int colours = 0;
    if (!handle || tjDecompressHeader3(handle.get(), bytes_of(file), file.size(), &head.width,
                                       &head.height, &subsampling, &colours) != 0)
        return std::nullopt;
    return head;
}

/// The smallest at which the longer side is no shorter than `longest`.
tjscalingfactor scale_for(const Head& head, int longest) {
    const int longer = std::max(head.width, head.height);
    tjscalingfactor chosen{1, 1};
    int count = 0;
    const tjscalingfactor* factors = tjGetScalingFactors(&count);
    for (int i = 0; i < count; ++i) {
        const tjscalingfactor factor = factors[i];
        const int side = TJSCALED(longer, factor);
        if (side >= longest && side < TJSCALED(longer, chosen)) chosen = factor;
    }
    return chosen;
}

}  // namespace

bool is_jpeg(std::string_view file) {
    return file.starts_with("\xFF\xD8\xFF");
}

std::optional<std::int64_t> jpeg_pixels(std::string_view file) {
    const Handle handle(tjInitDecompress());
    const auto head = read_head(handle, file);
    if (!head) return std::nullopt;
    return std::int64_t{head->width} * head->height;
}

std::optional<Pixels> read_jpeg(std::string_view file, int longest) {
    const Handle handle(tjInitDecompress());
    const auto head = read_head(handle, file);
    if (!head) return std::nullopt;
    const tjscalingfactor scale = scale_for(*head, longest);
    Pixels pixels = Pixels::of(TJSCALED(head->width, scale), TJSCALED(head->height, scale));
    if (tjDecompress2(handle.get(), bytes_of(file), file.size(), pixels.rgb.data(), pixels.width, 0,
                      pixels.height, TJPF_RGB, TJFLAG_STOPONWARNING | TJFLAG_LIMITSCANS) != 0)
        return std::nullopt;
    return pixels;
}

std::string write_jpeg(const Pixels& pixels, int quality) {
    const Handle handle(tjInitCompress());
    if (!handle) throw std::bad_alloc();
    std::string file(tjBufSize(pixels.width, pixels.height, TJSAMP_420), '\0');
    auto* to = reinterpret_cast<unsigned char*>(file.data());
    unsigned long size = file.size();
    if (tjCompress2(handle.get(), pixels.rgb.data(), pixels.width, 0, pixels.height, TJPF_RGB, &to,
                    &size, TJSAMP_420, quality, TJFLAG_NOREALLOC) != 0)
        throw std::bad_alloc();
    file.resize(size);
    file.shrink_to_fit();
    return file;
}

}  // namespace gallipot::image
