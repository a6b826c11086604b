// A running server of the tests' own, and what a page would ask it.
#pragma once

#include <httplib.h>

#include <nlohmann/json.hpp>
#include <string>

#include "app/serve/http_server.hpp"

namespace fingerway {

inline constexpr const char* json_type = "application/json";

/// One service with a server before it, on a free port.
class ServedPage {
 public:
  explicit ServedPage(const ServiceLimits& limits = {}, const ServiceOptions& options = {})
      : service_(options, limits), server_(service_, {.port = 0, .allow_host = {}}) {}

  [[nodiscard]] int port() const { return server_.port(); }

  [[nodiscard]] httplib::Client client() const {
    httplib::Client client("127.0.0.1", port());
    client.set_read_timeout(120);
    return client;
  }

  /// The answer's status and text.
  [[nodiscard]] httplib::Result ask(const std::string& path, const nlohmann::json& request) const {
    return client().Post("/api/" + path, request.dump(), json_type);
  }

  /// The answer's JSON; null where it is an error.
  [[nodiscard]] nlohmann::json answer(const std::string& path, const nlohmann::json& request) const {
    const httplib::Result result = ask(path, request);
    return result && result->status == 200 ? nlohmann::json::parse(result->body) : nlohmann::json();
  }

  [[nodiscard]] std::string demo(const std::string& id) const { return answer("demo", {{"demo", id}})["score"]; }

 private:
  Service service_;
  HttpServer server_;
};

/// The first message of an error.
inline std::string first_message(const httplib::Result& result) {
  if (!result) return "no answer";
  return nlohmann::json::parse(result->body).at("error").at("messages").at(0);
}

}  // namespace fingerway
