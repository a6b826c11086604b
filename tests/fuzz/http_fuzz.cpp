// What this part answers: does the page's server bear any bytes on a connection, and does it always answer with HTTP,
// or hang up? "$host" stands for its own name, so that what lies behind the guard is reached too.
#include <arpa/inet.h>
#include <sys/socket.h>
#include <unistd.h>

#include <cerrno>

#include "app/serve/http_server.hpp"
#include "fuzz.hpp"

namespace {

using namespace fingerway;

/// What comes back for these bytes. Where nothing does for a while, more is being waited for: then the sending side is
/// closed, and the server hangs up.
std::string answer_to(std::string_view bytes, int port) {
  const int connection = ::socket(AF_INET, SOCK_STREAM, 0);
  const timeval a_while{.tv_sec = 0, .tv_usec = 20'000};
  static_cast<void>(::setsockopt(connection, SOL_SOCKET, SO_RCVTIMEO, &a_while, sizeof(a_while)));
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(static_cast<std::uint16_t>(port));
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  fuzz::require(::connect(connection, reinterpret_cast<const sockaddr*>(&address), sizeof(address)) == 0,
                "a server that takes no more connections");
  while (!bytes.empty()) {
    const ssize_t sent = ::send(connection, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) break;  // it hung up
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  std::string answer;
  char buffer[4096];
  for (;;) {
    const ssize_t got = ::recv(connection, buffer, sizeof(buffer), 0);
    if (got < 0 && (errno == EAGAIN || errno == EWOULDBLOCK)) {
      ::shutdown(connection, SHUT_WR);
    } else if (got <= 0) {
      break;
    } else {
      answer.append(buffer, static_cast<std::size_t>(got));
    }
  }
  ::close(connection);
  return answer;
}

ServiceLimits little_room() {
  ServiceLimits limits;
  limits.kept_score_bytes = std::size_t{2} << 20U;
  return limits;
}

const HttpServer& server() {
  static Service service({}, little_room());
  static const HttpServer one(service, {.port = 0, .allow_host = {}});
  return one;
}

}  // namespace

/// Reading all instruments takes its time, which is no input's fault.
extern "C" int LLVMFuzzerInitialize(int* /*argc*/, char*** /*argv*/) {
  static_cast<void>(server());
  return 0;
}

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string request(fuzz::text_of(data, size));
  const std::string host = "127.0.0.1:" + std::to_string(server().port());
  for (std::size_t at = 0; (at = request.find("$host", at)) != std::string::npos; at += host.size()) {
    request.replace(at, 5, host);
  }
  const std::string answer = answer_to(request, server().port());
  fuzz::require(answer.empty() || answer.starts_with("HTTP/1.1 "), "an answer that is not HTTP", answer);
  fuzz::require(answer.find("a fault in fingerway itself") == std::string::npos, "a fault of its own", answer);
  return 0;
}
