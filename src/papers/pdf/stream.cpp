#include "papers/pdf/stream.hpp"

#include <hpdf.h>
#include <hpdf_streams.h>
#include <new>
#include <zlib.h>

namespace gallipot::pdf {

namespace {

constexpr int level = 5;

/// libharu takes the filter's name out of a dictionary that it does not compress itself.
HPDF_STATUS name_the_filter(HPDF_Dict, HPDF_Stream out) {
    return HPDF_Stream_WriteStr(out, "/Filter /FlateDecode\n");
}

}  // namespace

void fill(HPDF_Dict stream, const std::string& bytes) {
    uLongf length = compressBound(bytes.size());
    std::string packed(length, '\0');
    // It fails for want of memory alone: the room is large enough and the level is one of zlib's.
    if (compress2(reinterpret_cast<Bytef*>(packed.data()), &length,
                  reinterpret_cast<const Bytef*>(bytes.data()), bytes.size(), level) != Z_OK)
        throw std::bad_alloc();
    HPDF_Stream_Write(stream->stream, reinterpret_cast<const HPDF_BYTE*>(packed.data()),
                      static_cast<HPDF_UINT>(length));
    stream->filter = HPDF_STREAM_FILTER_NONE;
    stream->write_fn = &name_the_filter;
}

}  // namespace gallipot::pdf
