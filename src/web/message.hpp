#pragma once

#include <functional>
#include <map>
#include <string>
#include <vector>

/// A request and its answer, as the pages see them: no socket and no library's type.
namespace gallipot::web {

struct Request {
    std::string method;  ///< "GET", "HEAD" or "POST"
    std::string path;    ///< decoded, without the query
    std::multimap<std::string, std::string> query;
    std::map<std::string, std::string> headers;  ///< names in small letters
    std::string body;
    std::string peer;  ///< address of the other end: "192.168.1.7", "::1"

    /// Empty when it is not there.
    [[nodiscard]] std::string header(const std::string& name) const {
        const auto found = headers.find(name);
        return found == headers.end() ? std::string() : found->second;
    }
    [[nodiscard]] std::string query_value(const std::string& name) const {
        const auto found = query.find(name);
        return found == query.end() ? std::string() : found->second;
    }
};

/// Takes a piece of an answer; false when the other end is gone.
using Sink = std::function<bool(const std::string& piece)>;

struct Response {
    int status = 200;
    std::vector<std::pair<std::string, std::string>> headers;
    std::string type = "text/html; charset=utf-8";
    std::string body;
    /// Writes a long body piece by piece, in place of `body`.
    std::function<void(const Sink&)> stream;
};

/// What keeps a browser from doing with an answer what we did not mean. `policy` is its content
/// security policy.
void add_safety_headers(Response& response, const std::string& policy);

}  // namespace gallipot::web
