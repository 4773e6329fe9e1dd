#include "web/head.hpp"

#include <algorithm>

#include "base/strings/ascii.hpp"
#include "fuzz.hpp"
#include "web/addresses.hpp"
#include "web/cross_site.hpp"
#include "web/hosts.hpp"

/// The head of a request as a library may have read it, and what is read from its fields.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    constexpr std::size_t longest = 8 * 1024;
    const std::string text = text_of(data, size);
    web::HeaderFields fields;
    std::string method;
    std::string target;
    for (std::size_t from = 0; from < text.size();) {
        const auto end = std::min(text.find("\r\n", from), text.size());
        const std::string line = text.substr(from, end - from);
        if (from == 0) {
            const auto space = std::min(line.find(' '), line.size());
            method = line.substr(0, space);
            target = line.substr(space, line.find(' ', space + 1) - space);
            target.erase(0, 1);
        } else if (!line.empty()) {
            const auto colon = std::min(line.find(':'), line.size());
            const auto value = std::min(line.find_first_not_of(' ', colon + 1), line.size());
            fields.emplace_back(line.substr(0, colon), line.substr(value));
        }
        from = end + 2;
    }
    if (const auto error = web::check_head(method, target, fields, longest)) {
        require(error->status >= 400 && error->status < 600 && !error->why.empty(),
                "what is refused is told why");
    } else {
        require(target.size() <= longest && target.find('\0') == std::string::npos,
                "no target is long or holds NUL", text);
        const auto hosts = std::count_if(fields.begin(), fields.end(), [](const auto& field) {
            return strings::to_lower(field.first) == "host" &&
                   !web::host_name(field.second).empty();
        });
        require(hosts == 1, "there is one good host", text);
    }
    const std::string name = web::host_name(text);
    require(name.find_first_of("/@ ,[]\"<>") == std::string::npos, "a host is a name", name);
    const std::string network = web::network_of(text);
    require(web::is_address(text) || network.find('/') == std::string::npos ||
                text.find_first_of("/%") != std::string::npos,
            "only addresses have networks", network);

    const std::string host = web::host_of(text);
    web::Request request;
    request.method = "POST";
    request.headers = {{"host", "192.168.1.20:8017"}, {"origin", text}};
    // Only a page of the very host may send a form.
    if (!web::is_cross_site(request, {}))
        require(text.empty() || host == "192.168.1.20:8017", "a form comes from our own page",
                text);
    return 0;
}
