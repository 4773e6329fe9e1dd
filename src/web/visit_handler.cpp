#include <algorithm>

#include "base/image/photo.hpp"
#include "base/strings/ascii.hpp"
#include "base/system/error.hpp"
#include "web/form.hpp"
#include "web/form_context.hpp"
#include "web/services.hpp"

namespace gallipot::web {
namespace {

Fault photo_fault(image::PhotoFault fault, std::int64_t number) {
    constexpr std::int64_t million = 1'000'000;
    switch (fault) {
        case image::PhotoFault::not_a_photo:
            return {"photo", "web.photos.not_a_photo", {{"n", number}}};
        case image::PhotoFault::too_many_bytes:
            return {"photo",
                    "web.photos.too_many_bytes",
                    {{"n", number}, {"most", std::int64_t{image::maximum_file >> 20}}}};
        case image::PhotoFault::too_many_pixels:
            return {"photo",
                    "web.photos.too_many_pixels",
                    {{"n", number}, {"most", image::maximum_pixels / million}}};
        case image::PhotoFault::damaged:
            break;
    }
    return {"photo", "web.photos.damaged", {{"n", number}}};
}

/// A visit, or the correction of one, on its way from the form into the log.
class VisitRecorder {
  public:
    VisitRecorder(Services& services, const Request& request, const Page& page,
                  const StationPage& station)
        : services_(services),
          request_(request),
          page_(page),
          station_(station),
          form_(sent_form(request)),
          typed_(data(form_)) {}

    Response record() {
        if (request_.body_cut || form_.damaged()) {
            services_.access_log.refused(request_.peer, "a damaged form", request_.path);
            errors_.key = is_multipart(request_.header("content-type")) && request_.body_cut
                              ? request_.uploads_busy ? "web.photos.busy" : "web.photos.too_large"
                              : "web.trouble.damaged";
            return again(request_.body_cut ? 413 : 400);
        }
        if (!services_.posts.take(station_.place.planned.id, Steady::now())) {
            services_.access_log.refused(request_.peer, "too many forms", request_.path);
            errors_.key = "web.trouble.too_many_kept";
            return again(429);
        }
        const Context& context = services_.context;
        try {
            find_what_is_corrected();
            std::vector<Fault> photo_faults;
            keep_photos(photo_faults);
            FormContext reading = read_visit(typed_, context.plan, station_.place.planned,
                                             context.zone, context.local_now(), before());
            errors_.faults = std::move(reading.faults);
            errors_.faults.insert(errors_.faults.end(), photo_faults.begin(), photo_faults.end());
            errors_.doubted = reading.doubted;
            errors_.doubted_count = reading.doubted_count;
            errors_.opened = reading.opened;
            if (!errors_.faults.empty()) return again(422);
            const auto recorded =
                context.log.record(drafts_of(reading), context.now(), context.facts);
            return answer(recorded, reading.draft.visit.by);
        } catch (const system::SystemError& error) {
            services_.access_log.failed(error.what());
            errors_.key = "web.trouble.not_saved";
            return again(503);
        }
    }

  private:
    void find_what_is_corrected() {
        const auto number = entry_number(typed_.corrects);
        if (!number) return;
        old_ = services_.context.log.find(*number);
        if (old_ && old_->visit.station == station_.place.planned.id)
            keep_what_is_not_there(typed_, form_, *old_);
        else
            old_.reset();
    }

    /// Before the fields are judged: a photo need not be chosen again because of a wrong count.
    void keep_photos(std::vector<Fault>& faults) {
        const log::PhotoFiles& photos = services_.context.log.photos();
        std::erase_if(typed_.photos, [&](const log::PhotoId& id) { return !photos.has(id); });
        std::int64_t number = 0;
        for (const std::string_view file : form_.files("photo")) {
            ++number;
            const auto cleaned = image::clean_photo(file);
            if (const auto* fault = std::get_if<image::PhotoFault>(&cleaned)) {
                faults.push_back(photo_fault(*fault, number));
                continue;
            }
            const log::PhotoId id = photos.keep(std::get<std::string>(cleaned));
            if (std::ranges::find(typed_.photos, id) != typed_.photos.end()) continue;
            if (typed_.photos.size() == log::maximum_photos) {
                faults.push_back({"photo",
                                  "web.photos.too_many",
                                  {{"most", std::int64_t{log::maximum_photos}}}});
                break;
            }
            typed_.photos.push_back(id);
        }
    }

    [[nodiscard]] Before before() const {
        return before_form(services_.context, station_.place, typed_, old_);
    }

    /// The first of several that is not simply recorded is the one to be told of.
    Response answer(const std::vector<log::Recorded>& all, const std::string& by) {
        const log::Recorded* recorded = &all.back();
        for (const log::Recorded& one : all)
            if (one.outcome != log::Outcome::recorded && one.outcome != log::Outcome::already) {
                recorded = &one;
                break;
            }
        switch (recorded->outcome) {
            case log::Outcome::recorded:
            case log::Outcome::already: {
                Response response =
                    redirect(station_.key + "/SAVED/" + std::to_string(recorded->entry.number) +
                             page_.language_query);
                remember_name(response, by);
                return response;
            }
            case log::Outcome::form_used:
                errors_.key = "web.trouble.form_used";
                errors_.before = recorded->entry;
                break;
            case log::Outcome::corrected_since:
                errors_.key = recorded->entry.withdrawn ? "web.trouble.withdrawn_since"
                                                        : "web.trouble.corrected_since";
                if (recorded->entry.withdrawn)
                    typed_.corrects.clear();
                else
                    typed_.corrects = std::to_string(recorded->entry.number);
                typed_.withdraw = false;
                old_ = recorded->entry;
                break;
            case log::Outcome::nothing_there:
                return services_.no_such_page(request_, page_, "no such entry");
        }
        typed_.token = new_token();
        return again(409);
    }

    /// The form as it was typed, with what is the matter.
    Response again(int status) {
        try {
            return old_ && !typed_.corrects.empty() && !errors_.before
                       ? correction_page(page_, station_, *old_, typed_, status, errors_)
                       : station_page(page_, station_, typed_, status, errors_);
        } catch (const system::SystemError&) {
            return form_page(page_, station_, typed_, status, errors_);
        }
    }

    Services& services_;
    const Request& request_;
    const Page& page_;
    const StationPage& station_;
    const Form form_;
    FormData typed_;
    FormErrors errors_;
    std::optional<log::Entry> old_;  ///< that is corrected
};

}  // namespace

Response answer_caretaker(Services& services, const Request& request, const Page& page,
                          const StationPage& station, const log::Target& target) {
    const auto parts = parts_of(request.path);
    const Context& context = services.context;
    if (parts.size() == 3) {
        if (request.method == "POST") {
            if (auto refused = services.refuse_form(request, page)) return *std::move(refused);
            return VisitRecorder(services, request, page, station).record();
        }
        visit::Visit named;
        named.station = target.station;
        named.container = target.container;
        return station_page(
            page, station,
            empty_form(context.local_now(), log::print_target(named), remembered_name(request)));
    }
    if (parts.size() == 5 && request.method != "POST") {
        const auto number = entry_number(parts[4]);
        const auto entry = number ? context.log.find(*number) : std::nullopt;
        if (entry && entry->visit.station == target.station) {
            if (strings::same_letters(parts[3], "SAVED"))
                return saved_page(
                    page, station, *entry,
                    entry->corrects ? context.log.find(*entry->corrects) : std::nullopt);
            if (strings::same_letters(parts[3], "CORRECT")) {
                const auto active = context.log.active(*number);
                if (active && !active->withdrawn)
                    return correction_page(page, station, *active, data(*active));
            }
        }
    }
    return services.no_such_page(request, page, "no such page");
}

}  // namespace gallipot::web
