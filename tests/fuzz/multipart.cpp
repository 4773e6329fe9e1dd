#include "web/multipart.hpp"

#include "fuzz.hpp"
#include "web/form.hpp"

/// The body of a form with files; its first line names the boundary.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;

    const std::string input = text_of(data, size);
    const auto line = std::min(input.find('\n'), input.size());
    const std::string type = "multipart/form-data; boundary=" + input.substr(0, line);
    const std::string body = input.substr(std::min(line + 1, input.size()));
    const web::MultipartBody all = web::read_multipart(body, type);
    require(all.parts.size() <= web::maximum_parts, "no more parts than may be");
    std::size_t bytes = 0;
    for (const web::Part& part : all.parts) {
        require(part.content.empty() ||
                    (part.content.data() >= body.data() &&
                     part.content.data() + part.content.size() <= body.data() + body.size()),
                "a part lies in its body");
        bytes += part.content.size();
    }
    require(bytes <= body.size(), "parts do not lie over one another");
    const web::Form form(body, type);
    require(all.whole || form.damaged(), "what is not whole is said to be damaged");
    for (const auto& [name, value] : form.fields())
        require(name.find('\0') == std::string::npos && value.find('\0') == std::string::npos,
                "no field holds a NUL");
    return 0;
}
