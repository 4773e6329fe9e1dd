#include "web/services.hpp"

#include "tracking/keys/link.hpp"
#include "tracking/log/fields.hpp"
#include "web/cookies.hpp"
#include "web/cross_site.hpp"
#include "web/form.hpp"

namespace gallipot::web {
namespace {

constexpr const char* name_cookie = "by";

bool is_form(const Request& request) {
    return is_form_type(request.header("content-type"));
}

}  // namespace

Services::Services(const Context& of, AccessLog& to, const Access& given)
    : context(of),
      access_log(to),
      access(given),
      wrong_keys(given.rates.wrong_keys),
      requests(given.rates.requests),
      posts(given.rates.posts),
      reports(given.rates.reports),
      phones(of.log, of.secret, of.now) {
    if (of.job.log.address) own_hosts.push_back(host_of(**of.job.log.address));
}

std::optional<Response> Services::refuse_form(const Request& request, const Page& page) {
    if (is_cross_site(request, own_hosts)) {
        access_log.refused(request.peer, "a form from another site", request.path);
        return plain_page(page, 403, "web.trouble.cross_site");
    }
    if (!is_form(request)) {
        access_log.refused(request.peer, "not a form", request.path);
        return plain(415, "Send a form\n");
    }
    return std::nullopt;
}

Response Services::no_such_page(const Request& request, const Page& page, std::string_view why) {
    access_log.refused(request.peer, why, request.path);
    return plain_page(page, 404, "web.trouble.not_found");
}

Response Services::only_caretaker(const Request& request, const Page& page) {
    if (request.method == "POST")
        if (auto refused = refuse_form(request, page)) return *std::move(refused);
    access_log.refused(request.peer, "not the caretaker's phone", request.path);
    return keep(request, page, plain_page(page, 403, "web.trouble.only_caretaker"),
                "web.trouble.not_caretaker");
}

Response Services::keep(const Request& request, const Page& page, Response refused,
                        const std::string& key) {
    const auto parts = parts_of(request.path);
    if (request.method != "POST" || parts.empty() || !is_form(request) ||
        is_cross_site(request, own_hosts))
        return refused;
    Response response = kept_page(page, refused.status, sent_form(request),
                                  keys::percent_encoded(parts.back()) + page.form_query, key);
    response.headers.insert(response.headers.end(), refused.headers.begin(), refused.headers.end());
    return response;
}

Form sent_form(const Request& request) {
    return {request.body, request.header("content-type")};
}

std::vector<std::string> parts_of(const std::string& path) {
    std::vector<std::string> parts;
    std::size_t from = 1;
    while (from <= path.size()) {
        const auto end = std::min(path.find('/', from), path.size());
        parts.push_back(path.substr(from, end - from));
        from = end + 1;
    }
    return parts;
}

Response redirect(const std::string& where) {
    Response response;
    response.status = 303;
    response.headers.emplace_back("Location", where);
    return response;
}

Response plain(int status, std::string text) {
    Response response;
    response.status = status;
    response.type = "text/plain; charset=utf-8";
    response.body = std::move(text);
    return response;
}

std::string remembered_name(const Request& request) {
    for (const std::string& cookie : cookies(request, name_cookie)) {
        std::string name = percent_decoded(cookie, false);
        if (log::find_fault(name, log::longest_name, false) == log::TextFault::none) return name;
    }
    return {};
}

void remember_name(Response& response, const std::string& name) {
    if (!name.empty()) set_cookie(response, {name_cookie, keys::percent_encoded(name)});
}

}  // namespace gallipot::web
