#pragma once

#include <cstdlib>
#include <fmt/format.h>
#include <hpdf.h>
#include <new>
#include <string_view>

#include "papers/pdf/writer.hpp"

namespace gallipot::pdf {

/// libharu tells running out of memory by any code it likes, or by none, so it is noted where it
/// happens. One thread makes one document at a time.
inline thread_local bool memory_ran_out = false;

inline void* allocate(HPDF_UINT size) {
    void* memory = std::malloc(size);
    if (memory == nullptr) memory_ran_out = true;
    return memory;
}

inline void release(void* memory) {
    std::free(memory);
}

/// The first error of a document. libharu calls note() from inside C functions, through which no
/// exception may pass: it is kept here and thrown by the next check().
struct Fault {
    HPDF_STATUS code = HPDF_OK;
    HPDF_STATUS detail = 0;

    static void note(HPDF_STATUS code, HPDF_STATUS detail, void* self) {
        auto& fault = *static_cast<Fault*>(self);
        if (fault.code != HPDF_OK) return;
        fault.code = code;
        fault.detail = detail;
    }
    void check(std::string_view doing) const {
        if (memory_ran_out) throw std::bad_alloc();
        if (code == HPDF_OK) return;
        throw PdfError(fmt::format("libharu failed at {}: error {:#06x}, detail {}", doing,
                                   static_cast<unsigned long>(code),
                                   static_cast<unsigned long>(detail)));
    }
};

}  // namespace gallipot::pdf
