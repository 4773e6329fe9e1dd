#include "base/image/photo.hpp"
#include "web/services.hpp"

namespace gallipot::web {

Response answer_photo(Services& services, const Request& request, const Page& page,
                      const std::string& id) {
    if (request.method == "POST") return services.no_such_page(request, page, "no such page");
    const bool small = request.query_value("small") == "1";
    // What is in it never changes: a phone that has it need not fetch it again, but asks whether it
    // still may see it.
    const std::string mark = '"' + id + (small ? "-small\"" : "\"");
    Response response;
    response.headers.emplace_back("ETag", mark);
    response.type = "image/jpeg";
    if (services.context.log.photos().has(id) && request.header("if-none-match") == mark) {
        response.status = 304;
        return response;
    }
    auto photo = services.context.log.photos().read(id);
    if (!photo) return services.no_such_page(request, page, "no such photo");
    if (small) {
        auto shrunk = image::small_photo(*photo);
        if (!std::holds_alternative<std::string>(shrunk))
            return services.no_such_page(request, page, "no such photo");
        photo = std::get<std::string>(std::move(shrunk));
    }
    response.body = *std::move(photo);
    return response;
}

}  // namespace gallipot::web
