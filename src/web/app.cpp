#include "web/app.hpp"

#include <atomic>
#include <utility>

#include "base/strings/ascii.hpp"
#include "base/system/files.hpp"
#include "tracking/keys/hash.hpp"
#include "tracking/keys/link.hpp"
#include "tracking/log/exchange.hpp"
#include "tracking/log/fields.hpp"
#include "web/addresses.hpp"
#include "web/cross_site.hpp"
#include "web/form.hpp"
#include "web/pages.hpp"

namespace gallipot::web {
namespace {

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

/// The values of the cookies of that name, as they were sent.
std::vector<std::string> cookies(const Request& request, const std::string& name) {
    std::vector<std::string> values;
    const std::string all = request.header("cookie");
    for (std::size_t from = 0; from < all.size();) {
        const auto end = std::min(all.find(';', from), all.size());
        const auto first = std::min(all.find_first_not_of(' ', from), end);
        const std::string_view cookie = std::string_view(all).substr(first, end - first);
        if (cookie.starts_with(name + "=")) values.emplace_back(cookie.substr(name.size() + 1));
        from = end + 1;
    }
    return values;
}

void set_cookie(Response& response, const std::string& name, const std::string& value) {
    response.headers.emplace_back(
        "Set-Cookie", name + "=" + value + "; Max-Age=15552000; Path=/; HttpOnly; SameSite=Strict");
}

constexpr const char* name_cookie = "by";
constexpr const char* known_cookie = "known";

/// The name that this phone's last visit was recorded under; empty when there is none.
std::string remembered_name(const Request& request) {
    for (const std::string& cookie : cookies(request, name_cookie)) {
        std::string name = percent_decoded(cookie, false);
        if (log::find_fault(name, log::longest_name, false) == log::TextFault::none) return name;
    }
    return {};
}

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

constexpr std::size_t csv_piece = 1u << 16;

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

std::string policy(const std::string& style) {
    return "default-src 'none'; style-src 'sha256-" + keys::sha256_base64(style) +
           "'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
}

}  // namespace

struct App::Impl {
    const Context& context;
    AccessLog& access_log;
    const Access access;
    RateLimit wrong_keys;
    RateLimit requests;
    RateLimit posts;
    std::string style_policy;
    std::vector<std::string> own_hosts;
    std::atomic<bool> exporting{false};

    Impl(const Context& of, AccessLog& to, const Access& given)
        : context(of),
          access_log(to),
          access(given),
          wrong_keys(given.rates.wrong_keys),
          requests(given.rates.requests),
          posts(given.rates.posts),
          style_policy(policy(of.style)) {
        if (of.job.log.address) own_hosts.push_back(host_of(**of.job.log.address));
    }

    Response route(const Request& request, const Page& page) {
        const std::string network = network_of(request.peer);
        // What comes from this machine itself is the household's, or a proxy's that has limits.
        if (network != this_machine && !requests.take(network, Steady::now())) {
            access_log.refused(request.peer, "too many requests", request.path);
            return keep(request, page, too_many(page, "web.trouble.too_many"));
        }
        const std::string host = host_name(request.header("host"));
        if (!access.hosts.has(host)) {
            access_log.refused(request.peer, "a host that is not ours", "/" + host);
            return plain(421, page.words("web.trouble.wrong_host") + "\n");
        }
        if (request.method != "GET" && request.method != "HEAD" && request.method != "POST") {
            access_log.refused(request.peer, "method not allowed", request.path);
            Response response = plain(405, "Method not allowed\n");
            response.headers.emplace_back("Allow", "GET, HEAD, POST");
            return response;
        }
        if (request.path == "/robots.txt") return plain(200, "User-agent: *\nDisallow: /\n");
        if (request.path == "/favicon.ico") return plain(404, "");
        const auto parts = parts_of(request.path);
        const bool station_asked = parts.size() >= 3 && strings::same_letters(parts[0], "S");
        if (!station_asked && !(parts.size() >= 2 && strings::same_letters(parts[0], "ALL")))
            return no_such_page(request, page, "no such page");

        // Each key counts as wrong until it has turned out right. Whoever has shown too many wrong
        // ones gets the same answer to a right one, so that guessing on tells nothing.
        const std::string known = known_place(request, context.secret());
        const std::string guesser = known.empty() ? network : "with the key of " + known;
        if (!wrong_keys.take(guesser, Steady::now())) {
            access_log.refused(request.peer, "too many wrong keys", request.path);
            return keep(request, page, too_many(page, "web.trouble.too_many_wrong"));
        }
        const auto target = station_asked ? log::find_target(context.plan, parts[1]) : std::nullopt;
        // As much work for a station that is not there as for a wrong key.
        const std::string key =
            station_asked ? keys::station_key(context.secret(), name_in_code(target, parts[1]))
                          : keys::overview_key(context.secret());
        const bool right = keys::same_key(key, parts[station_asked ? 2 : 1]);
        if (!right) return no_such_page(request, page, "wrong key");
        wrong_keys.give_back(guesser);
        // The label of a station that the job had once.
        if (station_asked && !target) return gone_page(page, parts[1]);

        Response response = station_asked ? station(request, page, parts, *target, key)
                                          : overview(request, page, parts, key);
        if (known.empty()) {
            const std::string place = station_asked ? "S/" + target->station : "ALL";
            set_cookie(
                response, known_cookie,
                keys::percent_encoded(place) + "." + keys::visitor_mark(context.secret(), place));
        }
        return response;
    }

    /// A code keeps the name that the station had when its label was printed.
    static std::string name_in_code(const std::optional<log::Target>& target,
                                    const std::string& asked) {
        if (!target) return asked;
        return target->called.empty() ? target->station : target->called;
    }

    Response no_such_page(const Request& request, const Page& page, std::string_view why) {
        access_log.refused(request.peer, why, request.path);
        return plain_page(page, 404, "web.trouble.not_found");
    }

    static Response too_many(const Page& page, const std::string& key) {
        Response response = plain_page(page, 429, key);
        response.headers.emplace_back("Retry-After", "60");
        return response;
    }

    /// `refused`, but a form that was sent comes back with what was typed: as it is, without a look
    /// at the key or the log. Not that of another site's page.
    Response keep(const Request& request, const Page& page, Response refused) {
        const auto parts = parts_of(request.path);
        if (request.method != "POST" || parts.size() != 3 || !is_form(request) ||
            is_cross_site(request, own_hosts))
            return refused;
        Response response = kept_page(page, refused.status, Form(request.body),
                                      keys::percent_encoded(parts[2]) + page.form_query);
        response.headers.insert(response.headers.end(), refused.headers.begin(),
                                refused.headers.end());
        return response;
    }

    static bool is_form(const Request& request) {
        return request.header("content-type").starts_with("application/x-www-form-urlencoded");
    }

    Response station(const Request& request, const Page& page,
                     const std::vector<std::string>& parts, const log::Target& target,
                     const std::string& key) {
        const StationPage of{place_of(context, target.station), key};
        if (parts.size() == 3) {
            if (request.method == "POST") return record(request, page, of);
            visit::Visit named;
            named.station = target.station;
            named.container = target.container;
            return station_page(page, of,
                                empty_form(log::print_target(named), remembered_name(request)));
        }
        if (parts.size() == 5 && request.method != "POST") {
            const auto number = entry_number(parts[4]);
            const auto entry = number ? context.log.find(*number) : std::nullopt;
            if (entry && entry->visit.station == target.station) {
                if (strings::same_letters(parts[3], "SAVED"))
                    return saved_page(
                        page, of, *entry,
                        entry->corrects ? context.log.find(*entry->corrects) : std::nullopt);
                if (strings::same_letters(parts[3], "CORRECT")) {
                    const auto active = context.log.active(*number);
                    if (active && !active->withdrawn)
                        return correction_page(page, of, *active, data(*active));
                }
            }
        }
        return no_such_page(request, page, "no such page");
    }

    Response record(const Request& request, const Page& page, const StationPage& of) {
        if (is_cross_site(request, own_hosts)) {
            access_log.refused(request.peer, "a form from another site", request.path);
            return plain_page(page, 403, "web.trouble.cross_site");
        }
        if (!is_form(request)) {
            access_log.refused(request.peer, "not a form", request.path);
            return plain(415, "Send a form\n");
        }
        const Form form(request.body);
        FormData as_typed = data(form);
        FormErrors errors;
        std::optional<log::Entry> old;  // that is corrected
        const auto again = [&](int status) {
            try {
                return old && !as_typed.corrects.empty() && !errors.before
                           ? correction_page(page, of, *old, as_typed, status, errors)
                           : station_page(page, of, as_typed, status, errors);
            } catch (const system::SystemError&) {
                return form_page(page, of, as_typed, status, errors);
            }
        };
        if (request.body_cut || form.damaged()) {
            access_log.refused(request.peer, "a damaged form", request.path);
            errors.key = "web.trouble.damaged";
            return again(request.body_cut ? 413 : 400);
        }
        if (!posts.take(of.place.planned.id, Steady::now())) {
            access_log.refused(request.peer, "too many forms", request.path);
            errors.key = "web.trouble.too_many_kept";
            return again(429);
        }
        log::Recorded recorded;
        FormContext reading;
        try {
            if (const auto number = entry_number(as_typed.corrects)) {
                old = context.log.find(*number);
                if (old && old->visit.station == of.place.planned.id)
                    keep_what_is_not_there(as_typed, form, *old);
                else
                    old.reset();
            }
            reading = read_visit(as_typed, context.plan, of.place.planned, context.zone,
                                 context.local_now(), old);
            errors.faults = std::move(reading.faults);
            errors.doubted = reading.doubted;
            if (!errors.faults.empty()) return again(422);
            recorded = context.log.record(reading.draft, context.now(), context.facts);
        } catch (const system::SystemError& error) {
            access_log.failed(error.what());
            errors.key = "web.trouble.not_saved";
            return again(503);
        }
        switch (recorded.outcome) {
            case log::Outcome::recorded:
            case log::Outcome::already: {
                Response response =
                    redirect(of.key + "/SAVED/" + std::to_string(recorded.entry.number) +
                             page.language_query);
                if (!reading.draft.visit.by.empty())
                    set_cookie(response, name_cookie,
                               keys::percent_encoded(reading.draft.visit.by));
                return response;
            }
            case log::Outcome::form_used:
                errors.key = "web.trouble.form_used";
                errors.before = recorded.entry;
                break;
            case log::Outcome::corrected_since:
                errors.key = recorded.entry.withdrawn ? "web.trouble.withdrawn_since"
                                                      : "web.trouble.corrected_since";
                if (recorded.entry.withdrawn)
                    as_typed.corrects.clear();
                else
                    as_typed.corrects = std::to_string(recorded.entry.number);
                as_typed.withdraw = false;
                old = recorded.entry;
                break;
            case log::Outcome::nothing_there:
                return no_such_page(request, page, "no such entry");
        }
        as_typed.token = new_token();
        return again(409);
    }

    Response overview(const Request& request, const Page& page,
                      const std::vector<std::string>& parts, const std::string& key) {
        if (request.method == "POST") return no_such_page(request, page, "no such page");
        if (parts.size() == 2) return overview_page(page, key);
        if (parts.size() == 3 && strings::same_letters(parts[2], "VISITS.CSV")) return csv(page);
        return no_such_page(request, page, "no such page");
    }

    /// The whole log, written to a file before the answer begins: an error on the way is an answer
    /// of its own, and whoever fetches it slowly holds up no reader of the log. One at a time.
    Response csv(const Page& page) {
        if (exporting.exchange(true)) return plain_page(page, 503, "web.trouble.busy");
        // Let go when the answer is, sent or not.
        const std::shared_ptr<void> last(nullptr, [this](void*) { exporting = false; });
        const auto file = std::make_shared<system::ScratchFile>();
        std::string text = log::csv_heading();
        context.log.each(
            log::Log::Which::active,
            [&](const log::Entry& entry) {
                text += log::csv_line(entry.visit);
                if (text.size() >= csv_piece) file->write(std::exchange(text, {}));
                return true;
            },
            [&](const log::Unreadable& entry) {
                access_log.failed("entry " + std::to_string(entry.number) +
                                  " of the visit log cannot be read (" + entry.column +
                                  "); it is left out");
            });
        file->write(text);
        Response response;
        response.type = "text/csv; charset=utf-8";
        response.headers.emplace_back("Content-Disposition", "attachment; filename=\"visits.csv\"");
        response.file = {file.get(), [file, last](const system::ScratchFile*) {}};
        return response;
    }

    /// For what could not be answered otherwise.
    Response failure(const Request& request, const Page& page, int status, const char* key) {
        try {
            return keep(request, page, plain_page(page, status, key));
        } catch (...) {
            return plain(status, "Something went wrong. What was not confirmed was not saved.\n");
        }
    }
};

App::App(const Context& context, AccessLog& access_log, const Access& access)
    : impl_(std::make_unique<Impl>(context, access_log, access)) {}
App::~App() = default;

Response App::answer(const Request& asked) {
    Impl& impl = *impl_;
    Request request = asked;
    if (impl.access.behind_proxy) request.peer = forwarded_for(request);
    const std::string asked_for = request.query_value("lang");
    const std::string accepted = request.header("accept-language");
    const text::Catalog& words = choose_words(impl.context, asked_for, accepted);
    const bool by_hand = impl.context.words.contains(asked_for);
    const std::string language = by_hand ? "?lang=" + asked_for : std::string();
    const Page page{
        impl.context, words, language,
        language + (by_hand ? "&try=" : "?try=") + (request.query_value("try") == "1" ? "2" : "1")};
    Response response;
    try {
        response = impl.route(request, page);
    } catch (const system::SystemError& error) {
        impl.access_log.failed(error.what());
        response = impl.failure(request, page, 503, "web.trouble.failed");
    } catch (const std::exception& error) {
        impl.access_log.failed(std::string("a fault of ours: ") + error.what());
        response = impl.failure(request, page, 500, "web.trouble.fault");
    } catch (...) {
        impl.access_log.failed("a fault of ours");
        response = impl.failure(request, page, 500, "web.trouble.fault");
    }
    add_safety_headers(response, impl.style_policy);
    return response;
}

}  // namespace gallipot::web
