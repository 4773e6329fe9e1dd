#pragma once

#include <memory>
#include <string>

#include "web/app.hpp"
#include "web/gate.hpp"

namespace gallipot::web {

/// The App behind the Gate, with the HTTP library between them. One request a connection: what a
/// second one on the same connection would begin with cannot be mistaken for part of the first.
class Server {
  public:
    /// Throws system::SystemError when it cannot listen there. Both must outlive it.
    Server(const std::string& host, int port, App& app, Refusals& refusals,
           const GateLimits& limits = {});
    ~Server();

    [[nodiscard]] int port() const;
    void run();   ///< until stop()
    void stop();  ///< from any thread

  private:
    struct Impl;
    std::unique_ptr<Impl> impl_;
};

}  // namespace gallipot::web
