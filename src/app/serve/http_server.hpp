// What this part answers: the requests of the page over HTTP on this machine: routes, guards, bounds. What the answers
// say is the service's (service.hpp).
#pragma once

#include <memory>
#include <string>

#include "service.hpp"
#include "stream_limits.hpp"

namespace fingerway {

struct HttpOptions {
  int port = 8642;         ///< 0: any free one
  std::string allow_host;  ///< a further name or address to answer to, and to listen on; empty: loopback only
  StreamLimits limits = {};
};

/// Listens once it is constructed, on a thread of its own, until it is destroyed.
class HttpServer {
 public:
  /// Throws FileError where the port is taken.
  HttpServer(Service& service, const HttpOptions& options);
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  [[nodiscard]] int port() const { return port_; }
  [[nodiscard]] std::string address() const;

 private:
  struct Listener;
  std::unique_ptr<Listener> listener_;
  int port_ = 0;
};

}  // namespace fingerway
