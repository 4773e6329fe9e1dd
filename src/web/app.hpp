#pragma once

#include <memory>
#include <string>

#include "web/access_log.hpp"
#include "web/context.hpp"
#include "web/hosts.hpp"
#include "web/limits.hpp"
#include "web/message.hpp"

namespace gallipot::web {

/// How often what may be asked. The defaults are for a household. A network is what network_of()
/// gives for an address.
struct Rates {
    /// From one network, or with the cookie of one page: beyond, no key is looked at.
    Rate wrong_keys{30, std::chrono::seconds(2)};
    Rate requests{200, std::chrono::milliseconds(50)};  ///< from one network but this machine
    Rate posts{60, std::chrono::seconds(1)};            ///< to one station
    Rate reports{10, std::chrono::seconds(30)};         ///< of neighbours, from one network
};

/// Who may ask.
struct Access {
    OwnHosts hosts;
    /// A reverse proxy on this machine passes the requests on and says in X-Forwarded-For whose
    /// they are. Requests from elsewhere are never believed in this.
    bool behind_proxy = false;
    Rates rates = {};
};

/// From a request to its answer: which page, who may see it, what is recorded. Knows no socket.
/// May be used by several threads at once.
class App {
  public:
    /// Both must outlive it.
    App(const Context& context, AccessLog& access_log, const Access& access);
    ~App();

    /// Never throws: what goes wrong is an answer too.
    Response answer(const Request& request);

    /// Whether the body of this request, of which the head is here, may be as long as photos are: a
    /// visit sent by a phone of the caretaker. Never throws.
    bool may_send_photos(const Request& head);

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace gallipot::web
