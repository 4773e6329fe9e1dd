#include "domain/yaml/builder.hpp"

#include <algorithm>
#include <fmt/format.h>
#include <utility>

#include "base/diag/utf8.hpp"
#include "domain/yaml/composed.hpp"
#include "domain/yaml/error_text.hpp"

namespace gallipot::yaml {

namespace {

constexpr std::size_t text_per_weight = 64;  // bytes of text that weigh as much as a value

/// Where a scalar's own text begins, past an anchor.
std::size_t past_anchor(std::string_view text, std::size_t offset) {
    if (offset >= text.size() || text[offset] != '&') return offset;
    return std::min(text.find_first_not_of(" \r\n", text.find_first_of(" \r\n", offset)),
                    text.size());
}

/// Whether a null is written out here, or an anchor before one.
bool null_at(std::string_view text) {
    if (text.starts_with('~') || text.starts_with('&')) return true;
    for (const std::string_view word : {"null", "Null", "NULL"}) {
        if (!text.starts_with(word)) continue;
        const std::string_view after = text.substr(word.size(), 1);
        return after.empty() || std::string_view(" \r\n,]}").find(after) != std::string_view::npos;
    }
    return false;
}

}  // namespace

Builder::Builder(std::string_view text, const diag::SourcePtr& source, const Positions& positions,
                 const Limits& limits, diag::Diagnostics& out)
    : text_(text), source_(source), positions_(positions), limits_(limits), out_(out) {}

diag::Place Builder::place(const YAML::Mark& mark) const {
    if (mark.is_null()) return {source_, 0, 0, 1};
    return positions_.place(source_, static_cast<std::size_t>(mark.pos));
}

void Builder::tell_keyless() {
    for (diag::Place& where : keyless_)
        out_.error("bad-key", std::move(where), "a key is missing here",
                   "write the key, or take out the extra comma or colon");
    keyless_.clear();
}

Node Builder::take() {
    tell_keyless();
    return std::move(root_);
}

void Builder::report(const YAML::Exception& problem) {
    if (problem.msg == YAML::ErrorMsg::EOF_IN_SCALAR) {
        // The parser says where the file ends; better where the quote opens.
        const std::size_t opening = unclosed_quote(text_, last_scalar_);
        if (opening != std::string_view::npos) never_closed(opening);
    }
    ErrorText complaint = error_text_for(problem.msg);
    if (const Node* bracket = open_bracket(problem); bracket != nullptr) {
        // The parser says where it gave up, and took what stands there for a value without a key.
        const char* sign = bracket->kind == Kind::mapping ? "{" : "[";
        const int begun = bracket->place.line, ended = place(problem.mark).line;
        out_.error(std::move(complaint.code), bracket->place,
                   begun == ended
                       ? complaint.message
                       : diag::say("the {} opened on line {} is not closed; line {} cannot be "
                                   "read inside it",
                                   sign, begun, ended),
                   std::move(complaint.hint));
        throw Stop{};
    }
    tell_keyless();
    out_.error(std::move(complaint.code), place(problem.mark), std::move(complaint.message),
               std::move(complaint.hint));
    throw Stop{};
}

const Node* Builder::open_bracket(const YAML::Exception& problem) const {
    const bool mapping = problem.msg == YAML::ErrorMsg::END_OF_MAP_FLOW;
    if (!mapping && problem.msg != YAML::ErrorMsg::END_OF_SEQ_FLOW) return nullptr;
    const auto found = std::find_if(open_.rbegin(), open_.rend(), [&](const Open& open) {
        return open.flow && (open.node.kind == Kind::mapping) == mapping;
    });
    return found == open_.rend() ? nullptr : &found->node;
}

void Builder::OnDocumentStart(const YAML::Mark& mark) {
    if (!seen_document_) {
        seen_document_ = true;
        return;
    }
    // The parser also starts one where a line does not fit what stands above it.
    const auto offset = static_cast<std::size_t>(std::max(mark.pos, 0));
    const std::string_view before = text_.substr(0, std::min(offset + 3, text_.size()));
    const std::size_t marker = std::max(before.rfind("\n---") + 1, before.rfind("\n...") + 1);
    const bool marked = marker > 0 && before.find_first_not_of("-. \r\n", marker) >= offset;
    if (marked) {
        out_.error("second-document", place(mark), "a second document begins here",
                   "keep one document in the file: take out what follows --- or ...");
    } else {
        out_.error("yaml-syntax", place(mark), "this does not belong to what stands above it",
                   "line it up with the keys or entries it belongs to");
    }
    throw Stop{};
}

void Builder::OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) {
    Node node;
    node.place = place(mark);
    // The parser's mark of a value left out is that of whatever comes next.
    const auto offset = static_cast<std::size_t>(std::max(mark.pos, 0));
    const bool written = null_at(text_.substr(std::min(offset, text_.size())));
    if (!written && !open_.empty()) {
        const Open& parent = open_.back();
        if (parent.has_key) {
            node.place = parent.key.place;
        } else if (parent.node.kind == Kind::sequence && text_.substr(offset, 1) != "," &&
                   text_.substr(offset, 1) != "]") {
            node.place = positions_.place(source_, text_.rfind('-', offset - 1));
        }
    }
    spend(1, node.place);
    add(std::move(node), {}, anchor);
}

void Builder::OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) {
    const auto found = anchors_.find(anchor);
    if (found == anchors_.end()) {
        out_.error("alias", place(mark), "* refers to a value that holds it",
                   "write the value out instead");
        throw Stop{};
    }
    const Anchored& anchored = found->second;
    const int depth = static_cast<int>(open_.size()) + anchored.size.height;
    if (depth > limits_.depth) too_deep(place(mark));
    spend(anchored.size.weight, place(mark));
    add(Node(anchored.node), anchored.size, 0);
}

void Builder::OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                       const std::string& value) {
    const std::size_t start = past_anchor(text_, static_cast<std::size_t>(mark.pos));
    const char first = start < text_.size() ? text_[start] : '\0';
    Node node;
    node.kind = Kind::scalar;
    node.quoted = tag == "!";
    node.text = composed(value);
    const bool in_quotes = node.quoted && (first == '"' || first == '\'');
    int length = 1;
    if (text_.substr(start + (in_quotes ? 1 : 0)).starts_with(value)) {
        length = static_cast<int>(diag::count_characters(value)) + (in_quotes ? 2 : 0);
    }
    node.place = positions_.place(source_, start, std::max(length, 1));
    if (first == '!') {
        refuse_tag(mark, "!");
    } else if (!node.quoted) {
        refuse_tag(mark, tag);
    }
    // The parser takes the end of the file for a closing quote.
    if (in_quotes && closing_quote(text_, start) == std::string_view::npos) {
        never_closed(start);
    }
    last_scalar_ = start;
    check_text(node);
    const std::size_t weight = 1 + value.size() / text_per_weight;
    spend(weight, node.place);
    add(std::move(node), {weight, 0}, anchor);
}

void Builder::OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                              YAML::EmitterStyle::value style) {
    open(Kind::sequence, mark, tag, anchor);
    open_.back().flow = style == YAML::EmitterStyle::Flow;
}

void Builder::OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) {
    open(Kind::mapping, mark, tag, anchor);
    open_.back().flow = style == YAML::EmitterStyle::Flow;
}

void Builder::open(Kind kind, const YAML::Mark& mark, const std::string& tag,
                   YAML::anchor_t anchor) {
    refuse_tag(mark, tag);
    if (static_cast<int>(open_.size()) >= limits_.depth) too_deep(place(mark));
    spend(1, place(mark));
    Open opened;
    opened.node.kind = kind;
    opened.node.place = place(mark);
    opened.anchor = anchor;
    open_.push_back(std::move(opened));
}

void Builder::close() {
    Open closed = std::move(open_.back());
    open_.pop_back();
    closed.node.items.close();
    closed.node.entries.close();
    ++closed.size.height;
    add(std::move(closed.node), closed.size, closed.anchor);
}

void Builder::add(Node node, const Size& size, YAML::anchor_t anchor) {
    if (anchor != 0) {
        spend(size.weight, node.place);
        anchors_.emplace(anchor, Anchored{node, size});
    }
    if (open_.empty()) {
        root_ = std::move(node);
        return;
    }
    Open& parent = open_.back();
    parent.size.weight += size.weight;
    parent.size.height = std::max(parent.size.height, size.height);
    if (parent.node.kind == Kind::sequence) {
        parent.node.items.add(std::move(node));
    } else if (!parent.has_key) {
        add_key(parent, std::move(node));
    } else {
        if (!parent.drop) {
            parent.node.entries.add(std::move(parent.key), std::move(node));
        }
        parent.has_key = false;
    }
}

void Builder::add_key(Open& mapping, Node key) {
    mapping.drop = true;
    if (key.kind == Kind::null) {
        keyless_.push_back(key.place);
    } else if (key.kind != Kind::scalar) {
        out_.error("bad-key", key.place, "a key must be plain text", "write a word, then a colon");
    } else if (!key.quoted && key.text == "<<") {
        out_.error("merge-key", key.place, "merge keys are not taken here",
                   "write the entries out");
    } else if (const auto [at, is_new] = mapping.keys.emplace(key.text, key.place.line); !is_new) {
        out_.error("duplicate-key", key.place,
                   diag::say("'{}' is there twice; first on line {}", key.text, at->second),
                   "keep one of the two");
    } else {
        mapping.drop = false;
    }
    mapping.key = std::move(key);
    mapping.has_key = true;
}

void Builder::spend(std::size_t weight, const diag::Place& where) {
    spent_ += weight;
    if (spent_ <= limits_.nodes) return;
    out_.error("too-many-values", where,
               diag::say("the file holds more than {} values", limits_.nodes),
               anchors_.empty() ? "split it into several files"
                                : "use fewer aliases (*), or split it into several files");
    throw Stop{};
}

void Builder::refuse_tag(const YAML::Mark& mark, const std::string& tag) {
    if (tag == "?" || tag.empty()) return;
    out_.error("tag", place(mark), "tags (with !) are not taken here",
               "take the tag out; put quotes around a text that begins with !");
}

void Builder::check_text(const Node& node) {
    const std::string& text = node.text;
    std::size_t count = 0;
    for (std::size_t i = 0; i < text.size(); ++count) {
        const diag::Character c = diag::character_at(text, i);
        const bool control = diag::is_control(c.code) && c.code != '\n' && c.code != '\t';
        if (control || diag::is_direction_control(c.code)) {
            out_.error("control-character", node.place,
                       diag::say("{} in a text", diag::code_point_name(c.code)), "take it out");
            break;
        }
        i += c.bytes;
    }
    if (count > limits_.text_length) {
        out_.error("text-too-long", node.place,
                   diag::say("a text of more than {} characters", limits_.text_length),
                   "shorten it");
    }
}

void Builder::never_closed(std::size_t offset) {
    out_.error("yaml-syntax", positions_.place(source_, offset),
               "the quote that opens here is never closed", "put the closing quote");
    throw Stop{};
}

void Builder::too_deep(const diag::Place& where) {
    out_.error("too-deep", where,
               diag::say("lists and mappings inside each other, more than {} deep", limits_.depth),
               "close each bracket, and check the indentation");
    throw Stop{};
}

}  // namespace gallipot::yaml
