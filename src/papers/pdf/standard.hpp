#pragma once

#include <string>

#include "papers/pdf/structure.hpp"

namespace gallipot::pdf {

/// What a file says of itself.
struct About {
    std::string title, author;
    std::string language;  ///< BCP 47
};

/// The bytes of a file that libharu wrote, made into what PDF/UA-1 (ISO 14289-1) and PDF/A-2a
/// (ISO 19005-2) ask of a file as a whole: its structure, metadata in XMP, the colours it means and
/// an identifier made of its content. Objects go into compressed streams, so that the structure
/// takes little room. The same in gives the same out. Throws PdfError.
std::string to_standard(const std::string& bytes, const Structure& structure, const About& about);

}  // namespace gallipot::pdf
