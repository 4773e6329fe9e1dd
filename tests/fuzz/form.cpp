#include <algorithm>

#include "folder.hpp"
#include "fuzz.hpp"
#include "loaded.hpp"
#include "tracking/analysis/site.hpp"
#include "tracking/keys/link.hpp"
#include "tracking/log/fields.hpp"
#include "web/pages.hpp"

/// The body of a form: what it means, and the page that shows it again.
namespace gallipot::fuzz {
namespace {

std::map<std::string, const text::Catalog*> all_words() {
    std::map<std::string, const text::Catalog*> all;
    for (const auto& language : hall().job.languages) all[*language] = words(*language, "AU");
    return all;
}

/// The pages of the hall; its log stays empty.
class Pages {
  public:
    Pages()
        : place_(web::place_of(context_, "K1")), page_{context_, *words("en", "AU"), "",
                                                       "?try=1", "../../",           true} {}

    [[nodiscard]] const web::Context& context() const { return context_; }
    [[nodiscard]] const web::Place& place() const { return place_; }
    [[nodiscard]] std::string again(const web::FormData& data,
                                    const web::FormErrors& trouble) const {
        return web::station_page(page_, {place_, "7Q2MX4KD9A"}, data, 422, trouble).body;
    }
    [[nodiscard]] std::string kept(const web::Form& form) const {
        return web::kept_page(page_, 503, form, "7Q2MX4KD9A?try=1").body;
    }

  private:
    tests::Folder folder_;
    keys::Secret secret_{std::array<std::uint8_t, 32>{1, 2, 3}};
    log::Log log_{folder_ / "hall.visits.sqlite"};
    web::Context context_{hall().job,
                          hall().plan,
                          hall().who,
                          [this] { return secret_; },
                          log_,
                          *log::Zone::find("Australia/Sydney"),
                          [] { return log::Instant(std::chrono::seconds(1805317500)); },
                          all_words(),
                          "",
                          "",
                          analysis::sites(hall().job, hall().plan)};
    web::Place place_;
    web::Page page_;
};

constexpr std::string_view markup = "<>\"'&";

void tame(std::string& text) {
    for (char& letter : text)
        if (markup.find(letter) != std::string_view::npos) letter = 'x';
}

/// The same without a letter that means something in HTML.
web::FormData harmless(web::FormData data) {
    for (std::string* text : {&data.token, &data.station, &data.seen, &data.dead, &data.level,
                              &data.by, &data.time, &data.note, &data.corrects, &data.opened,
                              &data.when, &data.minutes, &data.young, &data.trap_nights})
        tame(*text);
    return data;
}
web::Form harmless(const web::Form& form) {
    std::string body;
    for (auto [name, value] : form.fields()) {
        tame(name);
        tame(value);
        body += keys::percent_encoded(name) + "=" + keys::percent_encoded(value) + "&";
    }
    return web::Form(body);
}

/// Tags and quotes of a page.
std::size_t tags(const std::string& page) {
    return static_cast<std::size_t>(std::count_if(page.begin(), page.end(), [](char letter) {
        return letter != '&' && markup.find(letter) != std::string_view::npos;
    }));
}

}  // namespace
}  // namespace gallipot::fuzz

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace gallipot;
    using namespace gallipot::fuzz;
    static const Pages pages;

    const std::string body = text_of(data, size);
    require(web::percent_decoded(keys::percent_encoded(body), true) == body,
            "what is escaped reads the same");
    const web::Form form(body);
    require(tags(pages.kept(form)) == tags(pages.kept(harmless(form))),
            "what was typed is kept as text, never as markup", body);
    const auto typed = web::data(form);
    web::FormErrors trouble;
    const auto& context = pages.context();
    const auto now = context.local_now();
    auto reading = web::read_visit(typed, context.plan, pages.place().planned, context.zone, now);
    if (reading.faults.empty()) {
        const auto& visit = reading.draft.visit;
        require(visit.station == "K1", "a visit is to its station", visit.station);
        require(reading.draft.withdrawn || log::says_something(visit) ||
                    !reading.draft.photos.empty(),
                "a visit says something");
        require(visit.time <= now + std::chrono::minutes(5), "no visit lies in the future");
        require(log::find_fault(visit.note, log::longest_note, true) == log::TextFault::none &&
                    log::find_fault(visit.by, log::longest_name, false) == log::TextFault::none,
                "texts are fit to be shown", visit.note);
        return 0;
    }
    trouble.faults = std::move(reading.faults);
    const std::string page = pages.again(typed, trouble);
    require(tags(page) == tags(pages.again(harmless(typed), trouble)),
            "what was typed comes back as text, never as markup", page);
    return 0;
}
