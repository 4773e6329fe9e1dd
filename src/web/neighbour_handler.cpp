#include "base/strings/ascii.hpp"
#include "base/system/error.hpp"
#include "tracking/log/fields.hpp"
#include "web/addresses.hpp"
#include "web/form.hpp"
#include "web/neighbour_page.hpp"
#include "web/services.hpp"

namespace gallipot::web {
namespace {

Response report(Services& services, const Request& request, const Page& page,
                const StationPage& station) {
    if (auto refused = services.refuse_form(request, page)) return *std::move(refused);
    const Form form = sent_form(request);
    const ReportForm typed = report_form(form);
    const auto again = [&](int status, const std::string& key) {
        return neighbour_page(page, station, typed, status, key);
    };
    if (request.body_cut || form.damaged()) {
        services.access_log.refused(request.peer, "a damaged form", request.path);
        return again(request.body_cut ? 413 : 400, "web.trouble.damaged");
    }
    const std::string words = log::tidy(typed.words);
    if (log::find_fault(words, log::longest_report, true) != log::TextFault::none)
        return again(422, "web.tell.fault_words");
    if (!typed.spilt && !typed.missing && !typed.pests && words.empty())
        return again(422, "web.tell.fault_nothing");
    if (!services.reports.take(network_of(request.peer), Steady::now())) {
        services.access_log.refused(request.peer, "too many reports", request.path);
        return again(429, "web.tell.too_many");
    }
    log::NeighbourReport told;
    told.station = station.place.planned.id;
    told.time = services.context.local_now();
    told.spilt = typed.spilt;
    told.missing = typed.missing;
    told.pests = typed.pests;
    told.words = words;
    told.recorded = services.context.now();
    try {
        const std::string token = typed.token.empty() ? new_token() : typed.token.substr(0, 64);
        if (services.context.log.report(told, token) == log::ReportOutcome::too_many)
            return again(429, "web.tell.too_many");
    } catch (const system::SystemError& error) {
        services.access_log.failed(error.what());
        return again(503, "web.tell.not_saved");
    }
    return redirect("TOLD" + page.language_query);
}

}  // namespace

Response answer_neighbour(Services& services, const Request& request, const Page& page,
                          const StationPage& station) {
    const auto parts = parts_of(request.path);
    const bool post = request.method == "POST";
    if (parts.size() == 3) return neighbour_page(page, station, empty_report());
    if (strings::same_letters(parts[3], "TELL"))
        return post ? report(services, request, page, station)
                    : redirect("../" + station.key + page.language_query);
    if (post) return services.no_such_page(request, page, "no such page");
    return told_page(page, station);
}

}  // namespace gallipot::web
