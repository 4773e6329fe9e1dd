#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

/// The names this server goes by. A page elsewhere can make a name of its own lead to our address
/// ("DNS rebinding") and would then count as one of ours: a request for any other name is refused.
namespace gallipot::web {

class OwnHosts {
  public:
    /// `listening` is where the server listens (without a port), `others` what else leads to it:
    /// names or addresses, with or without a port.
    OwnHosts(const std::string& listening, const std::vector<std::string>& others);

    /// Whether `host`, without port and brackets, is one of ours. While the server listens at all
    /// of this machine's addresses, those it has by now count.
    [[nodiscard]] bool has(const std::string& host) const;

  private:
    bool anywhere_;
    std::set<std::string> names_;  // in small letters
};

/// The host of a Host field (RFC 9110, 7.2) in small letters, without port and brackets. Empty for
/// what is malformed.
std::string host_name(std::string_view field);

}  // namespace gallipot::web
