#include "web/app.hpp"

#include <algorithm>
#include <utility>

#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"
#include "tracking/keys/hash.hpp"
#include "tracking/keys/link.hpp"
#include "tracking/log/fields.hpp"
#include "web/addresses.hpp"
#include "web/compression.hpp"
#include "web/cookies.hpp"
#include "web/cross_site.hpp"
#include "web/form.hpp"
#include "web/services.hpp"

namespace gallipot::web {
namespace {

constexpr const char* known_cookie = "known";

/// Of which page this phone has shown the key before ("ALL", "S/K1"); empty when of none.
std::string known_place(const Request& request, const keys::Secret& secret) {
    for (const std::string& cookie : cookies(request, known_cookie)) {
        const auto dot = cookie.rfind('.');
        if (dot == std::string::npos) continue;
        std::string place = percent_decoded(cookie.substr(0, dot), false);
        if (keys::same_key(keys::visitor_mark(secret, place), cookie.substr(dot + 1))) return place;
    }
    return {};
}

/// Whose request a proxy on this machine passes on: the last address of X-Forwarded-For is the one
/// that the proxy itself has seen.
std::string forwarded_for(const Request& request) {
    if (!is_loopback_host(request.peer)) return request.peer;
    std::string address = request.header("x-forwarded-for");
    address.erase(0, address.find_last_of(", ") + 1);
    return is_address(address) ? address : request.peer;
}

std::string hash_source(const std::string& text) {
    return "'sha256-" + keys::sha256_base64(text) + "'";
}

/// `scripts` none: the page may run none.
std::string policy(const std::string& style, const std::vector<std::string>& scripts) {
    std::string allowed;
    for (const std::string& script : scripts)
        if (!script.empty()) allowed += " " + hash_source(script);
    return "default-src 'none'; style-src " + hash_source(style) +
           (allowed.empty() ? "" : "; script-src" + allowed) +
           "; img-src 'self' data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
}

/// Browsers make a page around a picture that is opened by itself, with a style of their own.
constexpr const char* picture_policy =
    "default-src 'none'; img-src 'self'; style-src 'unsafe-inline'; frame-ancestors 'none'";

/// "../../" for "/S/K1/KEY": from a page to the folder that all pages are in.
std::string way_up(const std::string& path) {
    std::string up;
    for (auto slashes = std::count(path.begin(), path.end(), '/'); slashes > 1; --slashes)
        up += "../";
    return up;
}

Response too_many(const Page& page, const std::string& key) {
    Response response = plain_page(page, 429, key);
    response.headers.emplace_back("Retry-After", "60");
    return response;
}

/// A code keeps the name that the station had when its label was printed.
std::string name_in_code(const std::optional<log::Target>& target, const std::string& asked) {
    if (!target) return asked;
    return target->called.empty() ? target->station : target->called;
}

}  // namespace

struct App::Impl {
    Services services;
    std::string style_policy;
    std::string script_policy;
    std::string household_policy;

    Impl(const Context& context, AccessLog& access_log, const Access& access)
        : services(context, access_log, access),
          style_policy(policy(context.style, {})),
          script_policy(policy(context.style, {context.script, context.photo_script})),
          household_policy(policy(context.household_style, {})) {}

    Response route(const Request& request, Page& page) {
        const std::string network = network_of(request.peer);
        // What comes from this machine itself is the household's, or a proxy's that has limits.
        if (network != this_machine && !services.requests.take(network, Steady::now())) {
            services.access_log.refused(request.peer, "too many requests", request.path);
            return services.keep(request, page, too_many(page, "web.trouble.too_many"));
        }
        const std::string host = host_name(request.header("host"));
        if (!services.access.hosts.has(host)) {
            services.access_log.refused(request.peer, "a host that is not ours", "/" + host);
            return plain(421, page.words("web.trouble.wrong_host") + "\n");
        }
        if (request.method != "GET" && request.method != "HEAD" && request.method != "POST") {
            services.access_log.refused(request.peer, "method not allowed", request.path);
            Response response = plain(405, "Method not allowed\n");
            response.headers.emplace_back("Allow", "GET, HEAD, POST");
            return response;
        }
        if (request.path == "/robots.txt") return plain(200, "User-agent: *\nDisallow: /\n");
        if (request.path == "/favicon.ico") return plain(404, "");

        const auto parts = parts_of(request.path);
        const auto phone = services.phones.phone_of(request);
        page.caretaker = phone.has_value();
        if (!parts.empty() && strings::same_letters(parts[0], "ROUND") && parts.size() == 1)
            return phone ? answer_round(services, request, page)
                         : services.only_caretaker(request, page);
        if (parts.size() == 3 && strings::same_letters(parts[0], "ALL") &&
            strings::same_letters(parts[1], "PHOTO"))
            return phone ? answer_photo(services, request, page, parts[2])
                         : services.only_caretaker(request, page);
        if (!parts.empty() && strings::same_letters(parts[0], "ALL") &&
            (parts.size() == 1 || is_below_overview(parts[1]))) {
            // The code was opened and this phone did not keep what it was given.
            if (!phone && request.query_value("new") == "1")
                return plain_page(page, 403, "web.trouble.no_cookies");
            if (!phone) return services.only_caretaker(request, page);
            Response response = answer_overview(services, request, page, parts);
            // What a phone has been given goes on while it is used.
            if (response.status == 200)
                services.phones.let_in(response, phone, is_over_tls(request));
            return response;
        }
        return route_with_key(request, page, parts, phone, network);
    }

    /// Pages that are opened by a code, or by what hangs on one.
    Response route_with_key(const Request& request, const Page& page,
                            const std::vector<std::string>& parts,
                            const std::optional<std::string>& phone, const std::string& network) {
        const Context& context = services.context;
        const bool station_asked = parts.size() >= 3 && strings::same_letters(parts[0], "S");
        const bool household_asked =
            parts.size() >= 2 && context.household && strings::same_letters(parts[0], "HOME");
        if (!station_asked && !household_asked &&
            !(parts.size() >= 2 && strings::same_letters(parts[0], "ALL")))
            return services.no_such_page(request, page, "no such page");

        // Each key counts as wrong until it has turned out right. Whoever has shown too many wrong
        // ones gets the same answer to a right one, so that guessing on tells nothing.
        const std::string known =
            phone ? "phone " + *phone : known_place(request, context.secret());
        const std::string guesser = known.empty() ? network : "with the key of " + known;
        if (!services.wrong_keys.take(guesser, Steady::now())) {
            services.access_log.refused(request.peer, "too many wrong keys", request.path);
            return services.keep(request, page, too_many(page, "web.trouble.too_many_wrong"));
        }
        const auto target = station_asked ? log::find_target(context.plan, parts[1]) : std::nullopt;
        // As much work for a station that is not there as for a wrong key.
        const std::string key =
            station_asked     ? keys::station_key(context.secret(), name_in_code(target, parts[1]))
            : household_asked ? keys::household_key(context.secret())
                              : keys::overview_key(context.secret());
        const bool right = keys::same_key(key, parts[station_asked ? 2 : 1]);
        if (!right) return services.no_such_page(request, page, "wrong key");
        services.wrong_keys.give_back(guesser);
        // The label of a station that the job had once.
        if (station_asked && !target) return gone_page(page, parts[1]);

        Response response = station_asked     ? station(request, page, parts, *target, key)
                            : household_asked ? household(request, page, parts)
                                              : caretaker_code(request, page, parts, phone);
        if (known.empty()) {
            const std::string place = station_asked     ? "S/" + target->station
                                      : household_asked ? "HOME"
                                                        : "ALL";
            set_cookie(response, {known_cookie, keys::percent_encoded(place) + "." +
                                                    keys::visitor_mark(context.secret(), place)});
        }
        return response;
    }

    Response station(const Request& request, const Page& page,
                     const std::vector<std::string>& parts, const log::Target& target,
                     const std::string& key) {
        const StationPage of{place_of(services.context, target.station), key};
        const bool told = parts.size() == 4 && (strings::same_letters(parts[3], "TELL") ||
                                                strings::same_letters(parts[3], "TOLD"));
        const bool landing = parts.size() == 3 && request.method != "POST";
        if (told || (landing && !page.caretaker))
            return answer_neighbour(services, request, page, of);
        if (!page.caretaker) return services.only_caretaker(request, page);
        return answer_caretaker(services, request, page, of, target);
    }

    /// The household sheet, to be read: nothing hangs on it.
    Response household(const Request& request, const Page& page,
                       const std::vector<std::string>& parts) {
        if (request.method == "POST" || parts.size() != 2)
            return services.no_such_page(request, page, "no such page");
        Response response;
        response.body = services.context.household(page.words);
        response.of_household = true;
        return response;
    }

    /// Makes the phone the caretaker's. It goes on to an address without the key, so that a phone
    /// that was lost, and ended, does not keep the key among the pages it has visited.
    Response caretaker_code(const Request& request, const Page& page,
                            const std::vector<std::string>& parts,
                            const std::optional<std::string>& phone) {
        if (request.method == "POST") return services.no_such_page(request, page, "no such page");
        if (parts.size() == 3 && strings::same_letters(parts[2], "VISITS.CSV"))
            return export_visits(services, page);
        if (parts.size() != 2) return services.no_such_page(request, page, "no such page");
        Response response = redirect("../ALL" + page.language_query +
                                     (page.language_query.empty() ? "?" : "&") + "new=1");
        services.phones.let_in(response, phone, is_over_tls(request));
        return response;
    }

    /// Asked for under the name that log.address has, which leads to a proxy with TLS.
    [[nodiscard]] bool is_over_tls(const Request& request) const {
        const auto& address = services.context.job.log.address;
        return address && strings::same_letters((**address).substr(0, 8), "https://") &&
               host_of("https://" + request.header("host")) == host_of(**address);
    }

    static bool is_below_overview(const std::string& part) {
        return strings::same_letters(part, "VISITS.CSV") || strings::same_letters(part, "READ") ||
               strings::same_letters(part, "END");
    }

    /// For what could not be answered otherwise.
    Response failure(const Request& request, const Page& page, int status, const char* key) {
        try {
            return services.keep(request, page, plain_page(page, status, key));
        } catch (...) {
            return plain(status, "Something went wrong. What was not confirmed was not saved.\n");
        }
    }
};

bool App::may_send_photos(const Request& head) {
    try {
        const auto parts = parts_of(head.path);
        return head.method == "POST" && is_multipart(head.header("content-type")) &&
               parts.size() == 3 && strings::same_letters(parts[0], "S") &&
               impl_->services.phones.phone_of(head).has_value();
    } catch (const std::exception& error) {
        impl_->services.access_log.failed(error.what());
        return false;
    }
}

App::App(const Context& context, AccessLog& access_log, const Access& access)
    : impl_(std::make_unique<Impl>(context, access_log, access)) {}
App::~App() = default;

Response App::answer(const Request& asked) {
    Impl& impl = *impl_;
    const Context& context = impl.services.context;
    AccessLog& access_log = impl.services.access_log;
    Request request = asked;
    if (impl.services.access.behind_proxy) request.peer = forwarded_for(request);
    const std::string asked_for = request.query_value("lang");
    const std::string accepted = request.header("accept-language");
    const text::Catalog& words = choose_words(context, asked_for, accepted);
    const bool by_hand = context.words.contains(asked_for);
    const std::string language = by_hand ? "?lang=" + asked_for : std::string();
    Page page{
        context, words, language,
        language + (by_hand ? "&try=" : "?try=") + (request.query_value("try") == "1" ? "2" : "1"),
        way_up(request.path)};
    Response response;
    try {
        response = impl.route(request, page);
    } catch (const system::SystemError& error) {
        access_log.failed(error.what());
        response = impl.failure(request, page, 503, "web.trouble.failed");
    } catch (const std::exception& error) {
        access_log.failed(std::string("a fault of ours: ") + error.what());
        response = impl.failure(request, page, 500, "web.trouble.fault");
    } catch (...) {
        access_log.failed("a fault of ours");
        response = impl.failure(request, page, 500, "web.trouble.fault");
    }
    compress(request, response);
    const bool picture = response.type == "image/jpeg";
    add_safety_headers(response, picture                 ? picture_policy
                                 : response.scripted     ? impl.script_policy
                                 : response.of_household ? impl.household_policy
                                                         : impl.style_policy);
    return response;
}

}  // namespace gallipot::web
