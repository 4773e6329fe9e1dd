#include "papers/pdf/stream.hpp"

#include <hpdf.h>
#include <hpdf_streams.h>
#include <libdeflate.h>
#include <new>

namespace gallipot::pdf {

namespace {

constexpr int level = 6;

/// libharu takes the filter's name out of a dictionary that it does not compress itself.
HPDF_STATUS name_the_filter(HPDF_Dict, HPDF_Stream out) {
    return HPDF_Stream_WriteStr(out, "/Filter /FlateDecode\n");
}

}  // namespace

void Compressor::Free::operator()(libdeflate_compressor* compressor) const {
    libdeflate_free_compressor(compressor);
}

Compressor::Compressor() : compressor_(libdeflate_alloc_compressor(level)) {
    if (!compressor_) throw std::bad_alloc();
}

void Compressor::fill(HPDF_Dict stream, const std::string& bytes) {
    std::string packed(libdeflate_zlib_compress_bound(compressor_.get(), bytes.size()), '\0');
    const std::size_t length = libdeflate_zlib_compress(compressor_.get(), bytes.data(),
                                                        bytes.size(), packed.data(), packed.size());
    HPDF_Stream_Write(stream->stream, reinterpret_cast<const HPDF_BYTE*>(packed.data()),
                      static_cast<HPDF_UINT>(length));
    stream->filter = HPDF_STREAM_FILTER_NONE;
    stream->write_fn = &name_the_filter;
}

}  // namespace gallipot::pdf
