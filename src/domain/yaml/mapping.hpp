#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/diag/diagnostic.hpp"
#include "domain/yaml/node.hpp"

namespace gallipot::yaml {

/// One mapping of a file, read strictly: it must be a mapping, every key in it known, and the keys
/// that it needs there. What is wrong is reported where it stands.
class Mapping {
  public:
    /// Reports a node that is no mapping and keys that are not among `known`; a known "*" stands
    /// for names of the user's own and is no key itself. `who` names the mapping in messages: "the
    /// mix 'syrup'"; `example` shows one, or is empty. `node` and `out` must outlive this.
    Mapping(const Node& node, diag::Text who, const std::vector<std::string>& known,
            std::string_view example, diag::Diagnostics& out);

    [[nodiscard]] const Node& node() const { return node_; }
    /// The value of `key`, whatever it is; null when it is not there.
    [[nodiscard]] const Node* find(std::string_view key) const { return node_.find(key); }
    /// Whether an unknown key of the mapping, told already, is most likely a slip for this one.
    [[nodiscard]] bool misspelt(std::string_view key) const;
    /// The same as find(), of a key whose absence from the mapping is an error; `hint` tells what
    /// to add. A key that is only misspelt has been told.
    const Node* require(std::string_view key, diag::Text hint) const;

  private:
    const Node& node_;
    diag::Text who_;
    std::vector<std::string> meant_;  ///< by the unknown keys, where one is near
    diag::Diagnostics& out_;
};

/// Whether `node` is one text or number; a list, a mapping or nothing is an error. `name` is the
/// key in messages and `takes` what belongs there: "'fill'", "a volume".
bool is_scalar(const Node& node, const diag::Text& name, const diag::Text& takes, diag::Text hint,
               diag::Diagnostics& out);

/// The nearest of `known`, or empty; nothing is looked for once `out` holds a great many errors.
std::string nearest_key(std::string_view word, const std::vector<std::string>& known,
                        const diag::Diagnostics& out);

/// "did you mean 'cup'?", or `otherwise` when nothing is near or `out` holds a great many errors,
/// since looking costs time.
diag::Text did_you_mean(std::string_view word, const std::vector<std::string>& known,
                        diag::Text otherwise, const diag::Diagnostics& out);

}  // namespace gallipot::yaml
