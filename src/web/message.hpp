#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/system/scratch_file.hpp"

/// A request and its answer, as the pages see them: no socket and no library's type.
namespace gallipot::web {

struct Request {
    std::string method;  ///< "GET", "HEAD" or "POST"
    std::string path;    ///< decoded, without the query
    std::multimap<std::string, std::string> query;
    std::map<std::string, std::string> headers;  ///< names in small letters
    std::string body;
    bool body_cut = false;      ///< there was more of it than is read
    bool uploads_busy = false;  ///< because as many photos as may be were on their way
    std::string peer;           ///< address of the other end: "192.168.1.7", "::1"

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

struct Response {
    int status = 200;
    std::vector<std::pair<std::string, std::string>> headers;
    std::string type = "text/html; charset=utf-8";
    std::string body;
    bool others_words = false;  ///< it shows words of somebody else beside what is secret
    bool scripted = false;      ///< the page holds a script of ours
    bool of_household = false;  ///< the household sheet, which has a style of its own
    /// A long body, in place of `body`: a temporary file that goes when the answer does.
    std::shared_ptr<const system::ScratchFile> file;
};

/// What keeps a browser from doing with an answer what we did not mean. `policy` is its content
/// security policy.
void add_safety_headers(Response& response, const std::string& policy);

}  // namespace gallipot::web
