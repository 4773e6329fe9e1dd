#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>
#include <yaml-cpp/eventhandler.h>
#include <yaml-cpp/exceptions.h>
#include <yaml-cpp/mark.h>

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"
#include "domain/yaml/raw_text.hpp"

namespace gallipot::yaml {

/// Thrown by the builder, through the parser, to stop parsing; the reason is already reported.
struct Stop {};

/// Makes the tree from the parser's events, without recursion, and refuses what a strict file may
/// not have.
class Builder : public YAML::EventHandler {
  public:
    Builder(std::string_view text, const diag::SourcePtr& source, const Positions& positions,
            const Limits& limits, diag::Diagnostics& out);

    /// The finished tree; a null node when there was no document. Tells of keys that are missing.
    Node take();
    /// Says in plain words what the parser could not read. Throws Stop.
    [[noreturn]] void report(const YAML::Exception& problem);

    void OnDocumentStart(const YAML::Mark& mark) override;
    void OnDocumentEnd() override {}
    void OnNull(const YAML::Mark& mark, YAML::anchor_t anchor) override;
    void OnAlias(const YAML::Mark& mark, YAML::anchor_t anchor) override;
    void OnScalar(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                  const std::string& value) override;
    void OnSequenceStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                         YAML::EmitterStyle::value style) override;
    void OnSequenceEnd() override { close(); }
    void OnMapStart(const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor,
                    YAML::EmitterStyle::value style) override;
    void OnMapEnd() override { close(); }

  private:
    /// How much a finished value holds, for the limits.
    struct Size {
        std::size_t weight = 1;  ///< values in it; a long text weighs as several
        int height = 0;          ///< levels below it
    };
    /// A list or mapping still being read.
    struct Open {
        Node node;
        YAML::anchor_t anchor = 0;
        Size size;
        bool flow = false;     ///< in brackets
        bool has_key = false;  ///< a mapping: `key` waits for its value
        bool drop = false;     ///< a mapping: that value is not kept
        Node key;
        std::unordered_map<std::string, int> keys;  ///< a mapping: key and line
    };
    struct Anchored {
        Node node;
        Size size;
    };

    void open(Kind kind, const YAML::Mark& mark, const std::string& tag, YAML::anchor_t anchor);
    void close();
    void add(Node node, const Size& size, YAML::anchor_t anchor);
    void add_key(Open& mapping, Node key);
    void tell_keyless();
    void spend(std::size_t weight, const diag::Place& where);
    void refuse_tag(const YAML::Mark& mark, const std::string& tag);
    void check_text(const Node& node);
    [[nodiscard]] diag::Place place(const YAML::Mark& mark) const;
    [[noreturn]] void never_closed(std::size_t offset);
    /// The { or [ that the parser missed the end of; null for another problem.
    [[nodiscard]] const Node* open_bracket(const YAML::Exception& problem) const;
    [[noreturn]] void too_deep(const diag::Place& where);

    std::string_view text_;
    const diag::SourcePtr& source_;
    const Positions& positions_;
    const Limits& limits_;
    diag::Diagnostics& out_;
    std::vector<Open> open_;
    std::unordered_map<YAML::anchor_t, Anchored> anchors_;
    std::size_t spent_ = 0;
    std::size_t last_scalar_ = 0;  ///< the offset of the last text read
    bool seen_document_ = false;
    std::vector<diag::Place> keyless_;  ///< told at the end: an open bracket leads to some
    Node root_;
};

}  // namespace gallipot::yaml
