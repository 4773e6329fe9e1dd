#pragma once

#include <functional>
#include <memory>

#include "catch_all.hpp"

#include "base/diag/diagnostic.hpp"
#include "base/system/files.hpp"
#include "domain/job/on_day.hpp"
#include "domain/job/reader.hpp"
#include "domain/plan/planner.hpp"
#include "folder.hpp"
#include "tracking/analysis/site.hpp"
#include "web/app.hpp"

namespace gallipot::tests {

/// The hall of the examples with its log in a folder of its own, and a clock that is set by hand.
class House {
  public:
    explicit House(const web::Rates& rates = {}, bool behind_proxy = false,
                   const std::function<void(std::string&)>& change = {}) {
        const std::string top = GALLIPOT_SOURCE_DIR;
        diag::Diagnostics found;
        std::string text = system::read_file(top + "/examples/hall.yaml");
        if (change) change(text);
        const auto source = std::make_shared<const diag::Source>(diag::Source{"hall.yaml", text});
        // As it is on the day of `now`.
        job_ = job::on_day(job::read_job(source, found).value(),
                           job::Date{std::chrono::year{2027} / 3 / 18});
        std::map<std::string, std::string> old_names;
        for (const job::Station& station : job_.stations)
            for (const auto& older : station.was) old_names.emplace(*older, *station.id);
        log_.set_old_names(old_names);
        who_ = safety::who_to_call(job_.help, found);
        plan_ = plan::make_plan(
            job_, [](const job::Station&) { return std::string(); }, found);
        for (const auto& language : job_.languages) {
            catalogs_.push_back(std::make_unique<text::Catalog>(
                std::vector<std::string>{top + "/templates"}, *language, *job_.help.region, found));
            words_[*language] = catalogs_.back().get();
        }
        INFO(diag::print(found));
        REQUIRE(found.errors() == 0);
        context_ = std::make_unique<web::Context>(web::Context{
            job_, plan_, who_, [this] { return secret; }, log_,
            *log::Zone::find("Australia/Sydney"), [this] { return now; }, words_,
            system::read_file(top + "/templates/web/style.css"),
            system::read_file(top + "/templates/web/round.js"), analysis::sites(job_, plan_),
            evidence::facts_of(job_, plan_), system::read_file(top + "/templates/web/photo.js"),
            [](const text::Catalog& words) {
                return "<p>the sheet in " + words.language() + "</p>";
            },
            system::read_file(top + "/templates/web/sheet.css")});
        app_ = std::make_unique<web::App>(
            *context_, access_log,
            web::Access{{"127.0.0.1", {"192.168.1.20:8017"}}, behind_proxy, rates});
    }

    [[nodiscard]] std::string station(const std::string& id) const {
        return "/S/" + id + "/" + keys::station_key(secret, id);
    }
    /// The caretaker's code, and the page that it leads to.
    [[nodiscard]] std::string code() const { return "/ALL/" + keys::overview_key(secret); }
    [[nodiscard]] static std::string overview() { return "/ALL"; }

    /// The cookie of a phone of the caretaker.
    [[nodiscard]] static std::string caretaker(const keys::Secret& of, const std::string& id) {
        return "caretaker-" + keys::job_mark(of) + "=" + id + "." + keys::phone_mark(of, id);
    }
    [[nodiscard]] static keys::Secret first_secret() {
        return keys::Secret{std::array<std::uint8_t, 32>{1, 2, 3}};
    }

    // By a phone of the caretaker.
    web::Response get(const std::string& path, const std::string& language = "en") {
        return app().answer(request("GET", path, language));
    }
    /// By a phone that is not the caretaker's.
    web::Response get_as_neighbour(const std::string& path, const std::string& language = "en") {
        web::Request sent = request("GET", path, language);
        sent.headers.erase("cookie");
        return app().answer(sent);
    }
    web::Response post_as_neighbour(const std::string& path, const std::string& body) {
        web::Request sent = request("POST", path, "en");
        sent.headers.erase("cookie");
        sent.body = body;
        sent.headers["content-type"] = "application/x-www-form-urlencoded";
        return app().answer(sent);
    }
    web::Response post(const std::string& path, const std::string& body) {
        web::Request sent = request("POST", path, "en");
        sent.body = body;
        sent.headers["content-type"] = "application/x-www-form-urlencoded";
        return app().answer(sent);
    }
    static web::Request request(const std::string& method, const std::string& path,
                                const std::string& language) {
        web::Request sent;
        sent.method = method;
        sent.path = path;
        sent.headers = {{"host", "192.168.1.20:8017"},
                        {"accept-language", language},
                        {"cookie", caretaker(first_secret(), phone)}};
        sent.peer = "192.168.1.7";
        return sent;
    }

    /// The page without the scripts that are ours.
    [[nodiscard]] std::string without_own_scripts(std::string page) const {
        for (const std::string& script : {context_->script, context_->photo_script}) {
            const std::string whole = "<script>" + script + "</script>";
            if (const auto at = page.find(whole); at != std::string::npos)
                page.erase(at, whole.size());
        }
        return page;
    }

    web::App& app() { return *app_; }
    log::Log& visits() { return log_; }
    [[nodiscard]] std::filesystem::path log_file() const { return folder_ / "hall.visits.sqlite"; }
    std::vector<log::Entry> recorded(const std::string& id) { return log_.last(id, 1000); }
    [[nodiscard]] const web::Context& context() const { return *context_; }

    /// 2027-03-18 08:05 in Sydney.
    log::Instant now{std::chrono::seconds(1805317500)};
    keys::Secret secret = first_secret();
    static constexpr const char* phone = "0123456789ABCDEF";
    std::vector<std::string> told;  ///< lines of the access log
    web::AccessLog access_log{[this](const std::string& line) { told.push_back(line); },
                              [this] { return now; }};

  private:
    Folder folder_;
    job::Job job_;
    safety::WhoToCall who_;
    plan::Plan plan_;
    log::Log log_{folder_ / "hall.visits.sqlite"};
    std::vector<std::unique_ptr<text::Catalog>> catalogs_;
    std::map<std::string, const text::Catalog*> words_;
    std::unique_ptr<web::Context> context_;
    std::unique_ptr<web::App> app_;
};

/// The value of a header, or empty.
inline std::string header(const web::Response& response, const std::string& name) {
    for (const auto& [key, value] : response.headers)
        if (key == name) return value;
    return {};
}

/// How often `part` stands in `text`.
inline int times(const std::string& text, const std::string& part) {
    int count = 0;
    for (auto at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++count;
    return count;
}

/// The value of the form's hidden field.
inline std::string hidden_value(const std::string& page, const std::string& name) {
    const std::string before = "name=\"" + name + "\" value=\"";
    const auto at = page.find(before);
    if (at == std::string::npos) return {};
    const auto from = at + before.size();
    return page.substr(from, page.find('"', from) - from);
}

}  // namespace gallipot::tests
