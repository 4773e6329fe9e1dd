#include "web/head.hpp"

#include "fuzz.hpp"
#include "tracking/keys/link.hpp"
#include "web/cross_site.hpp"
#include "web/form.hpp"

/// The head of a request, and what is read from its fields.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    constexpr std::size_t most_body = 16 * 1024;
    const std::string text = text_of(data, size);
    const auto head = web::check_head(text, most_body);
    if (head.status != 0) {
        require(head.status >= 400 && head.status < 600 && !head.why.empty(),
                "what is refused is told why");
    } else {
        require(head.body <= most_body, "no body is larger than allowed");
        require(text.substr(0, text.find("\r\n\r\n")).find('\0') == std::string::npos,
                "no head holds NUL", text);
    }

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
