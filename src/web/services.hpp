#pragma once

#include <atomic>
#include <optional>
#include <string>
#include <vector>

#include "tracking/log/fields.hpp"
#include "web/access_log.hpp"
#include "web/app.hpp"
#include "web/caretaker_phones.hpp"
#include "web/limits.hpp"
#include "web/pages.hpp"

/// What the handlers of requests share.
namespace gallipot::web {

struct Services {
    Services(const Context& of, AccessLog& to, const Access& given);

    const Context& context;
    AccessLog& access_log;
    const Access access;
    RateLimit wrong_keys;
    RateLimit requests;
    RateLimit posts;
    RateLimit reports;
    CaretakerPhones phones;
    std::vector<std::string> own_hosts;
    std::atomic<bool> exporting{false};

    /// Whether a form may be looked at: none then; else the answer to one of another site's page,
    /// or to what is no form.
    std::optional<Response> refuse_form(const Request& request, const Page& page);

    Response no_such_page(const Request& request, const Page& page, std::string_view why);
    /// A page, or a form, of the caretaker that another phone asks for.
    Response only_caretaker(const Request& request, const Page& page);

    /// `refused`, but a form that was sent comes back with what was typed: as it is, without a look
    /// at the key or the log. Not that of another site's page.
    Response keep(const Request& request, const Page& page, Response refused,
                  const std::string& key = "web.trouble.kept");
};

/// The parts of a path between its slashes.
std::vector<std::string> parts_of(const std::string& path);

/// What was sent; its files are views of the request's body.
Form sent_form(const Request& request);

Response redirect(const std::string& where);
Response plain(int status, std::string text);

/// The name that this phone's last visit was recorded under; empty when there is none.
std::string remembered_name(const Request& request);
void remember_name(Response& response, const std::string& name);

/// A caretaker's requests to a station: its page, a visit, a correction.
Response answer_caretaker(Services& services, const Request& request, const Page& page,
                          const StationPage& station, const log::Target& target);

/// A photo of a visit, whole or (`?small=1`) small; for the caretaker alone.
Response answer_photo(Services& services, const Request& request, const Page& page,
                      const std::string& id);

/// Everybody else's: what it is, and a report to the caretaker.
Response answer_neighbour(Services& services, const Request& request, const Page& page,
                          const StationPage& station);

/// The round: all its stops in one form.
Response answer_round(Services& services, const Request& request, const Page& page);

/// The overview, its table, the phones, what neighbours reported; for the caretaker alone.
Response answer_overview(Services& services, const Request& request, const Page& page,
                         const std::vector<std::string>& parts);

/// The whole log as a table.
Response export_visits(Services& services, const Page& page);

}  // namespace gallipot::web
