#include "web/app.hpp"

#include <atomic>

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

bool same_word(std::string_view typed, std::string_view capitals) {
    if (typed.size() != capitals.size()) return false;
    for (std::size_t i = 0; i < typed.size(); ++i) {
        const char c =
            typed[i] >= 'a' && typed[i] <= 'z' ? static_cast<char>(typed[i] - 'a' + 'A') : typed[i];
        if (c != capitals[i]) return false;
    }
    return true;
}

constexpr std::string_view name_cookie = "by=";

/// The name that this phone's last visit was recorded under; empty when there is none.
std::string remembered_name(const Request& request) {
    const std::string cookies = request.header("cookie");
    for (std::size_t from = 0; from < cookies.size();) {
        const auto end = std::min(cookies.find(';', from), cookies.size());
        const auto first = cookies.find_first_not_of(' ', from);
        const std::string_view cookie =
            first < end ? std::string_view(cookies).substr(first, end - first) : std::string_view();
        if (cookie.starts_with(name_cookie)) {
            std::string name = percent_decoded(cookie.substr(name_cookie.size()), false);
            if (log::find_fault(name, log::longest_name, false) == log::TextFault::none)
                return name;
        }
        from = end + 1;
    }
    return {};
}

std::string name_cookie_for(const std::string& name) {
    return std::string(name_cookie) + keys::percent_encoded(name) +
           "; Max-Age=15552000; Path=/; HttpOnly; SameSite=Strict";
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

std::string policy(const std::string& style) {
    return "default-src 'none'; style-src 'sha256-" + keys::sha256_base64(style) +
           "'; img-src data:; form-action 'self'; base-uri 'none'; frame-ancestors 'none'";
}

}  // namespace

struct App::Impl {
    const Context& context;
    Refusals& refusals;
    RateLimit wrong_keys;
    RateLimit requests;
    RateLimit posts;
    std::string style_policy;
    std::vector<std::string> own_hosts;
    std::atomic<bool> exporting{false};

    Impl(const Context& of, Refusals& refused, const Rates& rates)
        : context(of),
          refusals(refused),
          wrong_keys(rates.wrong_keys),
          requests(rates.requests),
          posts(rates.posts),
          style_policy(policy(of.style)) {
        if (of.job.log.address) own_hosts.push_back(host_of(**of.job.log.address));
    }

    Response route(const Request& request, const Page& page) {
        // A reverse proxy on this machine has limits of its own.
        if (!is_loopback_host(request.peer) && !requests.take(request.peer, Steady::now())) {
            refusals.refused(request.peer, "too many requests", request.path);
            return plain_page(page, 429, "web.trouble.too_many");
        }
        if (request.method != "GET" && request.method != "HEAD" && request.method != "POST") {
            refusals.refused(request.peer, "method not allowed", request.path);
            Response response = plain(405, "Method not allowed\n");
            response.headers.emplace_back("Allow", "GET, HEAD, POST");
            return response;
        }
        if (request.path == "/robots.txt") return plain(200, "User-agent: *\nDisallow: /\n");
        const auto parts = parts_of(request.path);
        if (parts.size() >= 3 && same_word(parts[0], "S")) return station(request, page, parts);
        if (parts.size() >= 2 && same_word(parts[0], "ALL")) return overview(request, page, parts);
        if (request.path == "/favicon.ico") return plain(404, "");
        return no_such_page(request, page, "no such page");
    }

    Response no_such_page(const Request& request, const Page& page, std::string_view why) {
        refusals.refused(request.peer, why, request.path);
        // Whoever has a right key never comes here, so nobody can be locked out of their station by
        // a neighbour's guessing. The guessing itself is hopeless: a key has 50 bits.
        if (!wrong_keys.take(request.peer, Steady::now()))
            return plain_page(page, 429, "web.trouble.too_many");
        return not_found_page(page);
    }

    Response station(const Request& request, const Page& page,
                     const std::vector<std::string>& parts) {
        const auto target = log::find_target(context.plan, parts[1]);
        // As much work for a station that is not there as for a wrong key.
        const std::string key =
            keys::station_key(context.secret, target ? target->station : parts[1]);
        if (!keys::same_key(key, parts[2]) || !target)
            return no_such_page(request, page, "wrong key");

        const StationPage of{place_of(context, target->station), key};
        if (parts.size() == 3) {
            if (request.method == "POST") return record(request, page, of);
            visit::Visit named;
            named.station = target->station;
            named.container = target->container;
            return station_page(page, of,
                                empty_form(log::print_target(named), remembered_name(request)));
        }
        if (parts.size() == 5 && request.method != "POST") {
            const auto number = entry_number(parts[4]);
            const auto entry = number ? context.log.find(*number) : std::nullopt;
            if (entry && entry->visit.station == target->station) {
                if (same_word(parts[3], "SAVED")) return saved_page(page, of, *entry);
                if (same_word(parts[3], "CORRECT") && !entry->withdrawn)
                    return correction_page(page, of, typed(*entry));
            }
        }
        return no_such_page(request, page, "no such page");
    }

    Response record(const Request& request, const Page& page, const StationPage& of) {
        if (is_cross_site(request, own_hosts)) {
            refusals.refused(request.peer, "a form from another site", request.path);
            return plain_page(page, 403, "web.trouble.cross_site");
        }
        if (!request.header("content-type").starts_with("application/x-www-form-urlencoded")) {
            refusals.refused(request.peer, "not a form", request.path);
            return plain(415, "Send a form\n");
        }
        const auto form = Form::parse(request.body);
        if (!form) {
            refusals.refused(request.peer, "a broken form", request.path);
            return plain(400, "The form is broken\n");
        }
        Typed as_typed = typed(*form);
        Trouble trouble;
        const auto again = [&](int status) {
            return as_typed.corrects.empty() || trouble.before
                       ? station_page(page, of, as_typed, status, trouble)
                       : correction_page(page, of, as_typed, status, trouble);
        };
        if (!posts.take(of.place.planned.id, Steady::now())) {
            refusals.refused(request.peer, "too many forms", request.path);
            trouble.key = "web.trouble.too_many_kept";
            return again(429);
        }
        Reading reading =
            read_visit(as_typed, context.plan, of.place.planned, context.zone, context.local_now());
        trouble.faults = std::move(reading.faults);
        if (!trouble.faults.empty()) return again(422);

        log::Recorded recorded;
        try {
            recorded = context.log.record(reading.draft, context.now());
        } catch (const system::SystemError& error) {
            refusals.failed(error.what());
            trouble.key = "web.trouble.not_saved";
            return again(503);
        }
        switch (recorded.outcome) {
            case log::Outcome::recorded:
            case log::Outcome::already: {
                Response response =
                    redirect(of.key + "/SAVED/" + std::to_string(recorded.entry.number) +
                             page.language_query);
                if (!reading.draft.visit.by.empty())
                    response.headers.emplace_back("Set-Cookie",
                                                  name_cookie_for(reading.draft.visit.by));
                return response;
            }
            case log::Outcome::form_used:
                trouble.key = "web.trouble.form_used";
                trouble.before = recorded.entry;
                break;
            case log::Outcome::corrected_since:
                trouble.key = recorded.entry.withdrawn ? "web.trouble.withdrawn_since"
                                                       : "web.trouble.corrected_since";
                if (recorded.entry.withdrawn)
                    as_typed.corrects.clear();
                else
                    as_typed.corrects = std::to_string(recorded.entry.number);
                as_typed.withdraw = false;
                break;
            case log::Outcome::nothing_there:
                return no_such_page(request, page, "no such entry");
        }
        as_typed.token = new_token();
        return again(409);
    }

    Response overview(const Request& request, const Page& page,
                      const std::vector<std::string>& parts) {
        const std::string key = keys::overview_key(context.secret);
        if (!keys::same_key(key, parts[1])) return no_such_page(request, page, "wrong key");
        if (request.method == "POST") return no_such_page(request, page, "no such page");
        if (parts.size() == 2) return overview_page(page, key);
        if (parts.size() == 3 && same_word(parts[2], "VISITS.CSV")) return csv(page);
        return no_such_page(request, page, "no such page");
    }

    Response csv(const Page& page) {
        if (exporting.exchange(true)) return plain_page(page, 503, "web.trouble.busy");
        Response response;
        response.type = "text/csv; charset=utf-8";
        response.headers.emplace_back("Content-Disposition", "attachment; filename=\"visits.csv\"");
        // Let go when the answer is, sent or not.
        const std::shared_ptr<void> done(nullptr, [this](void*) { exporting = false; });
        response.stream = [this, done](const Sink& sink) {
            constexpr std::size_t piece = 1u << 16;
            std::string text = log::csv_heading();
            bool there = true;
            context.log.each(log::Log::Which::standing, [&](const log::Entry& entry) {
                text += log::csv_line(entry.visit);
                if (text.size() < piece) return true;
                there = sink(text);
                text.clear();
                return there;
            });
            if (there && !text.empty()) sink(text);
        };
        return response;
    }
};

App::App(const Context& context, Refusals& refusals, const Rates& rates)
    : impl_(std::make_unique<Impl>(context, refusals, rates)) {}
App::~App() = default;

Response App::answer(const Request& request) {
    Response response;
    const std::string asked_for = request.query_value("lang");
    const std::string accepted = request.header("accept-language");
    const text::Catalog& words = choose_words(impl_->context, asked_for, accepted);
    const bool by_hand = impl_->context.words.contains(asked_for);
    const std::string language = by_hand ? "?lang=" + asked_for : std::string();
    const Page page{
        impl_->context, words, language,
        language + (by_hand ? "&try=" : "?try=") + (request.query_value("try") == "1" ? "2" : "1")};
    try {
        response = impl_->route(request, page);
    } catch (const system::SystemError& error) {
        impl_->refusals.failed(error.what());
        response = plain_page(page, 503, "web.trouble.failed");
    } catch (const std::exception& error) {
        impl_->refusals.failed(std::string("a fault of ours: ") + error.what());
        response = plain(500, "Something went wrong. What was not confirmed was not saved.\n");
    }
    add_safety_headers(response, impl_->style_policy);
    return response;
}

}  // namespace gallipot::web
