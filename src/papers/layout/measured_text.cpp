#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/diag/utf8.hpp"
#include "papers/layout/overflow.hpp"
#include "papers/layout/typeset.hpp"
#include "papers/text/direction.hpp"

namespace gallipot::layout {

namespace {

constexpr char32_t soft_hyphen = 0x00AD;
constexpr char32_t zero_width_space = 0x200B;
constexpr std::string_view separator = "·";

/// A last line of a single word narrower than this share of the measure looks left behind.
constexpr double left_behind = 0.25;

/// Of outlines, where a script has no bold font. Ours: about what sets the two faces apart.
constexpr double stroke_for_bold = 0.02;
/// Between the marks of a line and those of the next, in ems.
constexpr double clear_of_marks = 0.02;

/// Room for rounding, in ems: a text set in exactly its own width must fit.
constexpr double slack = 1e-9;

/// Breaks at which a line ends, and tabs, which set as spaces; none of them has a letter.
bool is_line_end(char32_t code) {
    return code == '\n' || code == '\r' || code == 0x0B || code == 0x0C || code == 0x85 ||
           code == 0x2028 || code == 0x2029;
}

/// Their numbers.
std::string listed(const std::vector<char32_t>& characters) {
    std::string names;
    for (const char32_t code : characters) {
        if (!names.empty()) names += ", ";
        names += diag::code_point_name(code);
    }
    return names;
}

}  // namespace

const fonts::Font& MeasuredText::font(Face face) const {
    return face == Face::bold ? *faces_.bold : *faces_.regular;
}

MeasuredText::MeasuredText(const text::StyledText& runs, const fonts::Faces& faces,
                           const std::string& language, std::string_view what)
    : faces_(faces), language_(language) {
    std::string source;
    std::vector<Span> source_spans;
    for (const text::Run& run : runs) {
        if (run.text.empty()) continue;
        source += run.text;
        source_spans.push_back({static_cast<std::uint32_t>(source.size()),
                                run.bold ? Face::bold : Face::regular, run.language});
    }
    text_.reserve(source.size());
    std::size_t begin = 0;
    try {
        for (const text::Break& at : text::line_breaks(source, language)) {
            add_piece(source, begin, at.offset, at.mandatory, source_spans);
            begin = at.offset;
        }
    } catch (const std::invalid_argument&) {
        refuse(source, source_spans, what);
    }
    // What is put into a text of such a language has isolates round it, letters or not.
    right_to_left_ = text::has_right_to_left(text_) || text::has_isolates(text_);
    const bool other = !runs.empty() && !runs.front().language.empty();
    begins_at_right_ = text::runs_right_to_left(other ? runs.front().language : language);
    std::uint32_t from = 0;
    for (const Span& span : spans_) {
        if (!span.other)
            reach(font(span.face).ink(text::without_isolates(text_.substr(from, span.end - from))));
        from = span.end;
    }
}

void MeasuredText::refuse(std::string_view source, const std::vector<Span>& source_spans,
                          std::string_view what) const {
    std::vector<char32_t> missing;
    std::string package;
    std::size_t from = 0;
    for (const Span& span : source_spans) {
        for (const char32_t code :
             fonts::uncovered(font(span.face), source.substr(from, span.end - from))) {
            const bool handled = is_line_end(code) || code == '\t' || text::is_isolate(code) ||
                                 other_font(code, span.face, nullptr) != nullptr;
            if (handled || std::find(missing.begin(), missing.end(), code) != missing.end())
                continue;
            missing.push_back(code);
            if (faces_.others && package.empty()) package = faces_.others->package_for(code);
        }
        from = span.end;
    }
    throw LayoutError(
        {{std::string(what),
          "no font has a letter for " + listed(missing),
          package.empty() ? "write it another way"
                          : fmt::format("install the package {}, which has the letters of {}",
                                        package, fonts::script_of(missing.front())),
          0,
          0,
          missing,
          {},
          package}});
}

std::shared_ptr<const fonts::ScriptFont> MeasuredText::other_font(
    char32_t character, Face face, const std::shared_ptr<const fonts::ScriptFont>& before) const {
    if (before != nullptr && fonts::goes_with_script(character) && before->covers(character))
        return before;
    if (font(face).covers(character) || faces_.others == nullptr) return nullptr;
    auto found = faces_.others->find(character, face == Face::bold);
    if (found == nullptr && before != nullptr && before->covers(character)) return before;
    return found;
}

void MeasuredText::write_on(const Span& span) {
    const auto written = static_cast<std::uint32_t>(text_.size());
    if (!spans_.empty() && spans_.back().face == span.face && spans_.back().other == span.other &&
        spans_.back().language == span.language) {
        spans_.back().end = written;
    } else {
        spans_.push_back(span);
        spans_.back().end = written;
    }
}

fonts::Shaped MeasuredText::shape(const Span& span, std::string_view stretch) const {
    fonts::Shaped shaped =
        span.other->shape(stretch, span.language.empty() ? language_ : span.language,
                          text::has_right_to_left(stretch));
    if (span.face == Face::bold && !span.other->is_bold()) {
        shaped.stroke = stroke_for_bold;
        shaped.ink.above += stroke_for_bold / 2;
        shaped.ink.below += stroke_for_bold / 2;
    }
    return shaped;
}

void MeasuredText::add_piece(std::string_view source, std::size_t begin, std::size_t end, bool last,
                             const std::vector<Span>& source_spans) {
    Piece piece;
    piece.begin = static_cast<std::uint32_t>(text_.size());
    piece.end = piece.begin;
    piece.last = last;
    auto span = std::find_if(source_spans.begin(), source_spans.end(),
                             [&](const Span& s) { return s.end > begin; });
    bool ends_in_soft_hyphen = false;
    const fonts::Font* face = &font(span->face);
    std::size_t shaped_from = 0;  // of text_: where the letters in a font beside the faces begin
    std::shared_ptr<const fonts::ScriptFont> other;
    const auto end_other = [&] {
        if (other == nullptr) return;
        const auto shaped = shape(spans_.back(), std::string_view(text_).substr(shaped_from));
        reach(shaped.ink);
        piece.advance += shaped.advance;
        piece.width = piece.advance;
        piece.end = static_cast<std::uint32_t>(text_.size());
        other = nullptr;
    };
    for (std::size_t i = begin; i < end;) {
        if (i >= span->end) {
            end_other();
            ++span;
            face = &font(span->face);
        }
        const diag::Character character = diag::character_at(source, i);
        if (!character.valid) throw std::invalid_argument("text to be set is not UTF-8");
        const std::string_view letter = source.substr(i, character.bytes);
        i += character.bytes;
        ends_in_soft_hyphen = character.code == soft_hyphen;
        if (is_line_end(character.code) || character.code == soft_hyphen ||
            character.code == zero_width_space) {
            continue;
        }
        if (text::is_isolate(character.code)) {
            end_other();
            text_ += letter;
            write_on({0, span->face, span->language, nullptr});
            continue;
        }
        const bool space = character.code == ' ' || character.code == '\t';
        auto wanted = space ? nullptr : other_font(character.code, span->face, other);
        if (wanted != other) end_other();
        if (wanted != nullptr) {
            if (other == nullptr) shaped_from = text_.size();
            other = std::move(wanted);
            text_ += letter;
            write_on({0, span->face, span->language, other});
            continue;
        }
        piece.advance += face->advance(space ? U' ' : character.code);
        if (letter.size() > 1) {
            text_ += letter;
        } else {
            text_ += space ? ' ' : letter.front();
        }
        write_on({0, span->face, span->language, nullptr});
        if (!space) {
            piece.width = piece.advance;
            piece.end = static_cast<std::uint32_t>(text_.size());
        }
    }
    end_other();
    if (ends_in_soft_hyphen) piece.hyphen = face->advance(line_end_hyphen);
    piece.next = static_cast<std::uint32_t>(text_.size());
    // A dot between parts hangs with the space before it: where a line breaks it is not needed.
    if (!pieces_.empty() && !pieces_.back().last && !last &&
        std::string_view(text_).substr(piece.begin, piece.end - piece.begin) == separator) {
        pieces_.back().next = piece.next;
        pieces_.back().advance += piece.advance;
        return;
    }
    if (piece.width + piece.hyphen > widest_) {
        widest_ = piece.width + piece.hyphen;
        widest_piece_ = pieces_.size();
    }
    pieces_.push_back(piece);
}

std::string MeasuredText::widest_word() const {
    if (pieces_.empty()) return {};
    const Piece& piece = pieces_[widest_piece_];
    return text_.substr(piece.begin, piece.end - piece.begin);
}

double MeasuredText::unbroken() const {
    double widest = 0;
    double line = 0;
    for (const Piece& piece : pieces_) {
        widest = std::max(widest, line + piece.width);
        line = piece.last ? 0 : line + piece.advance;
    }
    return widest;
}

double least_leading(const fonts::Ink& ink) {
    const bool usual = ink.above <= usual_ink.above && ink.below <= usual_ink.below;
    return usual ? 0 : ink.above + ink.below + clear_of_marks;
}

void MeasuredText::reach(const fonts::Ink& ink) {
    ink_.above = std::max(ink_.above, ink.above);
    ink_.below = std::max(ink_.below, ink.below);
}

double MeasuredText::width(const Line& line) const {
    double sum = 0;
    for (std::size_t i = line.first; i < line.last; ++i) sum += pieces_[i].advance;
    return sum + pieces_[line.last].width + pieces_[line.last].hyphen;
}

template <class Use>
void MeasuredText::for_lines(const Measure& ems, Use use) const {
    double before = 0;  // advance of the pieces on the line so far
    std::size_t first = 0;
    int line = 0;
    const auto end = [&](std::size_t last) {
        use(first, last);
        first = last + 1;
        before = 0;
        ++line;
    };
    for (std::size_t i = 0; i < pieces_.size(); ++i) {
        const Piece& piece = pieces_[i];
        if (i > first && before + piece.width + piece.hyphen > ems.at(line) + slack) end(i - 1);
        before += piece.advance;
        if (piece.last || i + 1 == pieces_.size()) end(i);
    }
}

std::vector<MeasuredText::Line> MeasuredText::break_lines(const Measure& ems) const {
    std::vector<Line> lines;
    for_lines(ems, [&](std::size_t first, std::size_t last) { lines.push_back({first, last, 0}); });
    pull_down(lines, ems);
    for (Line& line : lines) line.width = width(line);
    return lines;
}

void MeasuredText::pull_down(std::vector<Line>& lines, const Measure& measure) const {
    for (std::size_t i = 1; i < lines.size(); ++i) {
        const double ems = measure.at(static_cast<int>(i));
        Line& above = lines[i - 1];
        Line& line = lines[i];
        const bool ends = pieces_[line.last].last || i + 1 == lines.size();
        if (!ends || line.first != line.last || pieces_[above.last].last) continue;
        if (pieces_[line.last].width >= left_behind * ems || above.first == above.last) continue;
        if (pieces_[above.last].advance + pieces_[line.last].width > ems + slack) continue;
        line.first = above.last;
        --above.last;
    }
}

int MeasuredText::lines_in(const Measure& ems) const {
    int lines = 0;
    for_lines(ems, [&](std::size_t, std::size_t) { ++lines; });
    return lines;
}

}  // namespace gallipot::layout
