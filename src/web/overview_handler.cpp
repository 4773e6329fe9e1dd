#include "base/strings/ascii.hpp"
#include "base/system/error.hpp"
#include "tracking/log/exchange.hpp"
#include "web/form.hpp"
#include "web/services.hpp"

namespace gallipot::web {
namespace {

constexpr std::size_t csv_piece = 1u << 16;

Response mark_read(Services& services, const Form& form) {
    if (const auto number = entry_number(form.value("report")))
        services.context.log.mark_report_read(*number, services.context.now());
    return redirect("../ALL");
}

Response end_phone(Services& services, const Form& form) {
    const std::string id = form.value("phone");
    if (services.context.log.find_phone(id)) services.phones.end(id);
    return redirect("../ALL");
}

}  // namespace

Response answer_overview(Services& services, const Request& request, const Page& page,
                         const std::vector<std::string>& parts) {
    const auto phone = services.phones.phone_of(request);
    const bool post = request.method == "POST";
    if (parts.size() == 1 && !post) {
        Response response =
            overview_page(page, overview_filter(request), phone.value_or(std::string()),
                          request.query_value("new") == "1");
        return response;
    }
    if (parts.size() != 2) return services.no_such_page(request, page, "no such page");
    if (strings::same_letters(parts[1], "VISITS.CSV") && !post)
        return export_visits(services, page);
    if (!post) return redirect("../ALL" + page.language_query);
    if (auto refused = services.refuse_form(request, page)) return *std::move(refused);
    const Form form = sent_form(request);
    return strings::same_letters(parts[1], "READ") ? mark_read(services, form)
                                                   : end_phone(services, form);
}

/// Written to a file before the answer begins: an error on the way is an answer of its own, and
/// whoever fetches it slowly holds up no reader of the log. One at a time.
Response export_visits(Services& services, const Page& page) {
    if (services.exporting.exchange(true)) return plain_page(page, 503, "web.trouble.busy");
    // Let go when the answer is, sent or not.
    const std::shared_ptr<void> last(nullptr, [&services](void*) { services.exporting = false; });
    const auto file = std::make_shared<system::ScratchFile>();
    std::string text = log::csv_heading();
    services.context.log.each(
        log::Log::Which::active,
        [&](const log::Entry& entry) {
            text += log::csv_line(entry.visit);
            if (text.size() >= csv_piece) file->write(std::exchange(text, {}));
            return true;
        },
        [&](const log::Unreadable& entry) {
            services.access_log.failed("entry " + std::to_string(entry.number) +
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

}  // namespace gallipot::web
