#include <CLI/CLI.hpp>
#include <algorithm>
#include <csignal>
#include <fmt/format.h>
#include <memory>
#include <mutex>
#include <ostream>
#include <sys/resource.h>
#include <thread>

#include "app/papers.hpp"
#include "app/secret_watch.hpp"
#include "app/session.hpp"
#include "base/system/files.hpp"
#include "cli/command.hpp"
#include "cli/tell.hpp"
#include "cli/terminal.hpp"
#include "cli/terminal_code.hpp"
#include "cli/visit_log.hpp"
#include "papers/qr/symbol.hpp"
#include "tracking/analysis/site.hpp"
#include "tracking/log/period.hpp"
#include "web/addresses.hpp"
#include "web/app.hpp"
#include "web/cross_site.hpp"
#include "web/hosts.hpp"
#include "web/server.hpp"

namespace gallipot::cli {
namespace {

namespace fs = std::filesystem;

constexpr int usual_port = 8017;

struct ServeOptions {
    std::string job;
    std::string listen;  ///< HOST:PORT; empty: not given
    std::vector<std::string> hosts;
    bool behind_proxy = false;
    std::string templates;
};

/// The log of ours that the codes open; none when the job has none, or a page of the user's own.
std::optional<std::string> own_address(const job::Job& job) {
    if (!job.log.address || keys::own_page(**job.log.address)) return std::nullopt;
    return **job.log.address;
}

/// Where to listen: --listen, else this machine only, at the port of log.address.
web::HostPort where_to_listen(const ServeOptions& options, const job::Job& job) {
    web::HostPort listen{"127.0.0.1", -1};
    if (!options.listen.empty()) listen = web::parse_host(options.listen);
    if (listen.port < 0) {
        const auto address = own_address(job);
        listen.port = address ? web::parse_host(web::host_of(*address)).port : -1;
        if (listen.port < 0) listen.port = usual_port;
    }
    return listen;
}

/// Under which names the pages are asked for: where the server listens, log.address and --host.
web::OwnHosts own_hosts(const ServeOptions& options, const web::HostPort& listen,
                        const job::Job& job) {
    std::vector<std::string> others = options.hosts;
    if (const auto address = own_address(job)) others.push_back(web::host_of(*address));
    return {listen.host, others};
}

std::string in_link(const std::string& host) {
    return host.find(':') == std::string::npos ? host : "[" + host + "]";
}

/// Where a browser finds the pages, best for phones first.
std::vector<std::string> links_to(const web::HostPort& listen, int port) {
    std::vector<std::string> links;
    if (web::is_any_host(listen.host))
        for (const std::string& address : web::own_addresses())
            links.push_back(fmt::format("http://{}:{}", address, port));
    const std::string self = web::is_any_host(listen.host) ? "127.0.0.1" : in_link(listen.host);
    links.push_back(fmt::format("http://{}:{}", self, port));
    return links;
}

void warn_of_address(const job::Job& job, const web::HostPort& listen,
                     const std::vector<std::string>& links, Environment& environment) {
    const auto address = own_address(job);
    if (!address) {
        warn(environment)
            << "the codes on the labels do not open these pages; set "
               "log.address in the job to one of the addresses and render the labels again\n";
        return;
    }
    const std::string host = web::host_of(*address);
    if (std::any_of(links.begin(), links.end(),
                    [&](const std::string& link) { return web::host_of(link) == host; }))
        return;
    warn(environment) << "the labels' codes open " << *address
                      << ", which is none of the addresses above. ";
    const auto mine = web::own_addresses();
    const std::string bare = web::parse_host(host).host;
    if (web::is_loopback_host(listen.host) &&
        std::find(mine.begin(), mine.end(), in_link(bare)) != mine.end())
        environment.err << "Phones reach it with --listen 0.0.0.0:" << listen.port << '\n';
    else
        environment.err
            << "That is right with a reverse proxy there; else set log.address and render the "
               "labels again\n";
}

void print_greeting(const app::Session& session, const web::HostPort& listen, int port,
                    const std::string& overview_key, Environment& environment) {
    const auto links = links_to(listen, port);
    environment.out << "The visit log of " << session.job->title->main() << " is at\n";
    for (const std::string& link : links) environment.out << "  " << link << '\n';
    if (web::is_loopback_host(listen.host))
        environment.out
            << "for this machine only; for phones on the same network: --listen 0.0.0.0:" << port
            << '\n';
    environment.out.flush();
    warn_of_address(*session.job, listen, links, environment);
    const auto address = own_address(*session.job);
    const std::string overview =
        keys::overview_link(address ? *address : links.front(), overview_key);
    environment.out << "The caretaker's code: scan it once with your own phone, and the labels' "
                       "codes open the\n"
                       "forms, the round and the overview on it; on any other phone they tell what "
                       "it is, first\n"
                       "aid and how to report to you (keep this link to yourself):\n  "
                    << overview << '\n';
    environment.out << terminal_code(qr::encode(overview),
                                     terminal_of_results(environment).colours);
    environment.out << "Stop with Ctrl-C.\n";
    environment.out.flush();
}

/// What the log holds that counts for nothing, and a clock by which no visit can be dated.
void warn_of_log(const log::Log& visits, const app::Session& session, Environment& environment) {
    visits.each(
        log::Log::Which::all, [](const log::Entry&) { return true; }, NamedUnreadable(environment));
    const log::LocalTime clock = app::zone_of(session).local(app::now());
    if (!log::Period(session.plan, clock).clock_can_be())
        warn(environment)
            << "this machine's clock says " << log::print_time(clock)
            << ", which cannot be; set it. Until then phones are asked for the time\n";
}

/// As many connections as the gate counts on, if the system lets us.
void raise_open_files() {
    rlimit limit{};
    if (::getrlimit(RLIMIT_NOFILE, &limit) != 0) return;
    limit.rlim_cur = std::min<rlim_t>(limit.rlim_max, 4096);
    ::setrlimit(RLIMIT_NOFILE, &limit);
}

/// Waits for the signals that end a program. They must be blocked before any thread is made.
class Stop {
  public:
    Stop() {
        sigemptyset(&signals_);
        for (const int signal : {SIGINT, SIGTERM, SIGHUP}) sigaddset(&signals_, signal);
        pthread_sigmask(SIG_BLOCK, &signals_, &before_);
    }
    ~Stop() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
    Stop(const Stop&) = delete;
    Stop& operator=(const Stop&) = delete;
    void wait() const {
        int signal = 0;
        sigwait(&signals_, &signal);
    }

  private:
    sigset_t signals_{};
    sigset_t before_{};
};

/// The pages of one day, and the job and plan of that day where the job changes over time.
struct DayPages {
    std::optional<app::DayOfJob> own;
    std::unique_ptr<const web::Context> context;
    std::unique_ptr<web::App> app;
};

/// The pages as they are today: the day goes on while they are served.
class Pages {
  public:
    using Make = std::function<std::shared_ptr<DayPages>(std::optional<app::DayOfJob>)>;

    /// `make` makes the pages of a day, of the session's own where it is given none.
    Pages(const app::Session& session, Make make, web::AccessLog& access_log)
        : session_(session),
          make_(std::move(make)),
          access_log_(access_log),
          day_(session.day),
          pages_(make_(std::nullopt)) {}

    std::shared_ptr<DayPages> today() {
        const std::lock_guard lock(mutex_);
        if (!session_.written) return pages_;
        const job::Date today{
            std::chrono::floor<std::chrono::days>(app::zone_of(session_).local(app::now()))};
        if (today == *day_) return pages_;
        day_ = today;
        if (auto job = app::job_on(session_, today))
            pages_ = make_(std::move(job));
        else
            access_log_.failed("the job has errors as it is today; gallipot check names them");
        return pages_;
    }

  private:
    const app::Session& session_;
    Make make_;
    web::AccessLog& access_log_;
    std::mutex mutex_;
    std::optional<job::Date> day_;
    std::shared_ptr<DayPages> pages_;
};

ExitCode serve(const ServeOptions& options, Environment& environment) {
    if (!options.listen.empty() && web::parse_host(options.listen).host.empty()) {
        complain(environment) << "--listen: give it like 0.0.0.0:8017\n";
        return ExitCode::wrong_usage;
    }
    for (const std::string& host : options.hosts)
        if (web::host_name(host).empty()) {
            complain(environment) << "--host: give it like raspberrypi.local\n";
            return ExitCode::wrong_usage;
        }
    {
        // Nothing is written before it is sure that somebody can listen there.
        const app::Session before = app::open_session(
            options.job, app::find_data(options.templates), app::SecretPolicy::only_read);
        if (before.good()) {
            const web::HostPort listen = where_to_listen(options, *before.job);
            web::check_listening(listen.host, listen.port);
        }
    }
    app::Session session = app::open_session(options.job, app::find_data(options.templates),
                                             app::SecretPolicy::create);
    if (!session.good()) return tell(session, environment);
    // A job whose codes need no keys gets a secret all the same once it is served.
    if (!session.secret) app::read_secret(session, app::SecretPolicy::create);
    std::map<std::string, const text::Catalog*> words;
    for (const auto& language : session.job->languages)
        words[*language] = &session.words(*language);
    if (!session.good()) return tell(session, environment);

    tell_of_new_secret(session, environment);  // before there is a log of today
    log::Log visits = app::open_log(session, log::Opening::to_write);
    warn_of_log(visits, session, environment);
    web::AccessLog access_log(
        [&](const std::string& line) { environment.err << line << std::endl; }, app::now);
    app::SecretWatch secret(app::secret_path(session.file), *session.secret,
                            [&](const std::string& what) { access_log.failed(what); });
    raise_open_files();
    std::signal(SIGPIPE, SIG_IGN);  // whoever read what we print may have gone
    const Stop stop;
    const web::HostPort listen = where_to_listen(options, *session.job);
    const std::string style = app::web_file(session.data, "style.css");
    const std::string script = app::web_file(session.data, "round.js");
    const std::string photo_script = app::web_file(session.data, "photo.js");
    const std::string household_style = app::web_file(session.data, "sheet.css");
    // Read when the first phone asks for the sheet: the log goes on where there are no fonts.
    const auto faces = [&session, &environment, mutex = std::make_shared<std::mutex>(),
                        known = std::make_shared<std::optional<fonts::Faces>>()] {
        const std::lock_guard lock(*mutex);
        if (!*known) *known = app::find_faces(session, resources_of(environment));
        return **known;
    };
    Pages pages(
        session,
        [&](std::optional<app::DayOfJob> own) {
            auto made = std::make_shared<DayPages>(DayPages{std::move(own), {}, nullptr});
            const job::Job& job = made->own ? made->own->job : *session.job;
            const plan::Plan& plan = made->own ? made->own->plan : session.plan;
            made->context = std::make_unique<const web::Context>(web::Context{
                job, plan, session.who, [&] { return secret.current(); }, visits,
                app::zone_of(session), app::now, words, style, script, analysis::sites(job, plan),
                evidence::facts_of(job, plan), photo_script,
                [&](const text::Catalog& catalog) {
                    return app::household_page(session, job, plan,
                                               app::household_link(job, secret.current()), catalog,
                                               faces());
                },
                household_style});
            made->app = std::make_unique<web::App>(
                *made->context, access_log,
                web::Access{own_hosts(options, listen, job), options.behind_proxy});
            return made;
        },
        access_log);
    web::Server server(
        listen.host, listen.port,
        [&](const web::Request& request) { return pages.today()->app->answer(request); },
        access_log, {},
        [&](const web::Request& head) { return pages.today()->app->may_send_photos(head); });
    print_greeting(session, listen, server.port(), keys::overview_key(*session.secret),
                   environment);
    std::thread thread([&] { server.run(); });
    stop.wait();
    server.stop();
    thread.join();
    environment.out << "Stopped. Every confirmed visit is in the log.\n";
    return ExitCode::ok;
}

}  // namespace

void add_serve(CLI::App& app, Command& chosen, Environment& environment) {
    auto* command = app.add_subcommand("serve", "The visit log for phones, until it is stopped");
    auto options = std::make_shared<ServeOptions>();
    command->add_option("JOB", options->job, "The job file")->required();
    command->add_option("--listen", options->listen,
                        "HOST:PORT; left out, this machine only, at the port of log.address");
    command
        ->add_option("--host", options->hosts,
                     "A further name under which phones reach it; any other is refused")
        ->type_name("NAME");
    command->add_flag("--behind-proxy", options->behind_proxy,
                      "A reverse proxy on this machine says in X-Forwarded-For who asks");
    command->add_option("--templates", options->templates,
                        "A folder of your own texts, label sheets and designs");
    command->callback([&chosen, &environment, options] {
        chosen = [&environment, options] { return serve(*options, environment); };
    });
}

}  // namespace gallipot::cli
