#pragma once

#include <hpdf_objects.h>
#include <memory>
#include <string>

struct libdeflate_compressor;

namespace gallipot::pdf {

/// Gives the streams of one document their bytes, compressed by libdeflate. libharu would compress
/// them too, by zlib, which is slower (tests/bench).
class Compressor {
  public:
    /// Throws std::bad_alloc.
    Compressor();

    /// The whole content of a new stream.
    void fill(HPDF_Dict stream, const std::string& bytes);

  private:
    struct Free {
        void operator()(libdeflate_compressor* compressor) const;
    };
    std::unique_ptr<libdeflate_compressor, Free> compressor_;
};

}  // namespace gallipot::pdf
