#pragma once

#include <memory>
#include <string>

#include "web/context.hpp"
#include "web/limits.hpp"
#include "web/message.hpp"
#include "web/refusals.hpp"

namespace gallipot::web {

/// How often what may be asked. The defaults are for a household.
struct Rates {
    Rate wrong_keys{30, std::chrono::seconds(2)};       ///< from one address
    Rate requests{200, std::chrono::milliseconds(50)};  ///< from one address but this machine's own
    Rate posts{60, std::chrono::seconds(1)};            ///< to one station
};

/// From a request to its answer: which page, who may see it, what is recorded. Knows no socket.
/// May be used by several threads at once.
class App {
  public:
    /// Both must outlive it.
    App(const Context& context, Refusals& refusals, const Rates& rates = {});
    ~App();

    /// Never throws: what goes wrong is an answer too.
    Response answer(const Request& request);

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace gallipot::web
