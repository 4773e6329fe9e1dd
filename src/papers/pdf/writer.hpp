#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

#include "papers/fonts/fonts.hpp"
#include "papers/layout/chapters.hpp"
#include "papers/layout/page.hpp"

/// Draws placed pages as a PDF file and decides nothing. The only folder that includes libharu.
namespace gallipot::pdf {

/// libharu refused something. When memory runs out it is std::bad_alloc.
class PdfError : public std::runtime_error {
  public:
    using std::runtime_error::runtime_error;
};

/// Writes a file page by page, so that the pages of a very large one need not all be laid out at
/// once; what is written takes about as much memory as its drawing operators. The same calls give
/// the same bytes: no clock is read.
///
/// Text is real text in subsets of the two faces, with its Unicode values; everything else is
/// vectors. A character that no letter stands for is an std::invalid_argument that names it: layout
/// has refused it before.
class Writer {
  public:
    /// `language` is a BCP 47 tag; it, the title and the author go into the file's properties.
    Writer(const fonts::Faces& faces, const std::string& title, const std::string& author,
           const std::string& language);
    ~Writer();
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

    void add(const layout::Page& page);
    /// Pages added from here on are called that and their number from 1: "cards 1".
    void label_pages(const std::string& label);
    /// Links inside the file lead to the page that chapter begins on.
    void begin_chapter();
    /// Bookmarks come in order; each page they point at has been added before.
    void add(const layout::Bookmark& bookmark);
    /// The file's bytes. To be called once, at the end; at least one page must have been added.
    std::string finish();

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

/// A whole paper as the bytes of a PDF file.
std::string write(const layout::Paper& paper, const fonts::Faces& faces);
/// The same of a paper of chapters, under a title of its own.
std::string write(const std::vector<layout::Chapter>& chapters, const std::string& title,
                  const fonts::Faces& faces);

}  // namespace gallipot::pdf
