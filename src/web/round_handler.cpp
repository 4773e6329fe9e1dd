#include "base/system/error.hpp"
#include "web/form.hpp"
#include "web/form_context.hpp"
#include "web/round_form.hpp"
#include "web/services.hpp"

namespace gallipot::web {
namespace {

/// Which row a draft came from: a row can be several entries.
struct Sent {
    std::size_t row = 0;
    log::Draft draft;
};

/// Reads the rows that hold something; their faults stay with them.
std::vector<Sent> read_rows(const Context& context, RoundForm& form) {
    std::vector<Sent> sent;
    for (std::size_t i = 0; i < form.rows.size(); ++i) {
        RoundRow& row = form.rows[i];
        if (!row.returned) continue;
        if (!row.station) {
            row.errors.faults.push_back({"station", "web.round.unknown", {}});
            continue;
        }
        const Place place = place_at(context, *row.station);
        const Before before = before_form(context, place, row.data, std::nullopt);
        FormContext reading = read_visit(row.data, context.plan, place.planned, context.zone,
                                         context.local_now(), before);
        row.errors.faults = std::move(reading.faults);
        row.errors.doubted = reading.doubted;
        row.errors.doubted_count = reading.doubted_count;
        row.errors.opened = reading.opened;
        if (!row.errors.faults.empty()) continue;
        for (log::Draft& draft : drafts_of(reading)) sent.push_back({i, std::move(draft)});
    }
    return sent;
}

void record_rows(const Context& context, RoundForm& form) {
    const std::vector<Sent> sent = read_rows(context, form);
    std::vector<log::Draft> drafts;
    drafts.reserve(sent.size());
    for (const Sent& one : sent) drafts.push_back(one.draft);
    const auto recorded = context.log.record(drafts, context.now(), context.facts);
    for (std::size_t i = 0; i < sent.size(); ++i) {
        RoundRow& row = form.rows[sent[i].row];
        const log::Recorded& one = recorded[i];
        if (one.outcome == log::Outcome::recorded || one.outcome == log::Outcome::already) {
            row.recorded = one.entry.number;
            continue;
        }
        row.errors.key = "web.trouble.form_used";
        row.errors.before = one.entry;
        row.data.token = new_token();  // sent once more, it is another visit
        row.errors.faults.push_back({"note", "web.round.saved_before", {}});
    }
    for (RoundRow& row : form.rows)
        if (!row.errors.faults.empty()) row.recorded.reset();
}

}  // namespace

Response answer_round(Services& services, const Request& request, const Page& page) {
    const Context& context = services.context;
    if (request.method != "POST")
        return round_page(page, next_round_form(page, remembered_name(request)));
    if (auto refused = services.refuse_form(request, page)) return *std::move(refused);
    const Form sent = sent_form(request);
    RoundForm form = round_form(page, sent);
    if (request.body_cut || sent.damaged()) {
        services.access_log.refused(request.peer, "a damaged form", request.path);
        form.key = "web.trouble.damaged";
        return round_page(page, form, request.body_cut ? 413 : 400);
    }
    if (!services.posts.take("the round", Steady::now())) {
        services.access_log.refused(request.peer, "too many forms", request.path);
        form.key = "web.trouble.too_many_kept";
        return round_page(page, form, 429);
    }
    try {
        record_rows(context, form);
    } catch (const system::SystemError& error) {
        services.access_log.failed(error.what());
        form.key = "web.trouble.not_saved";
        return round_page(page, form, 503);
    }
    Response response = round_page(page, form, form.faulty() > 0 ? 422 : 200);
    if (form.recorded() > 0) remember_name(response, form.by);
    return response;
}

}  // namespace gallipot::web
