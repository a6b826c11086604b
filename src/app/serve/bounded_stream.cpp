#include "bounded_stream.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace fingerway {
namespace {

/// How long a wait may not notice that the server stops.
constexpr std::chrono::milliseconds look_up{100};
constexpr std::chrono::milliseconds running_out{1'000};
constexpr std::size_t most_running_out = std::size_t{4} << 20U;

/// The address and port that `ask` (getpeername, getsockname) tells of an IPv4 socket.
template <class Ask>
void address_of(socket_t socket, const Ask& ask, std::string& ip, int& port) {
  sockaddr_in address{};
  socklen_t length = sizeof(address);
  if (ask(socket, reinterpret_cast<sockaddr*>(&address), &length) != 0 || address.sin_family != AF_INET) return;
  std::array<char, INET_ADDRSTRLEN> text{};
  if (::inet_ntop(AF_INET, &address.sin_addr, text.data(), text.size()) != nullptr) ip = text.data();
  port = ntohs(address.sin_port);
}

}  // namespace

BoundedStream::BoundedStream(socket_t socket, const StreamLimits& limits, const std::atomic<bool>& over)
    : socket_(socket), limits_(limits), over_(over), arrived_by_(Clock::now() + limits.arrival) {}

bool BoundedStream::ready(short events, Clock::time_point until) const {
  until = std::min(until, Clock::now() + limits_.silence);
  for (;;) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(until - Clock::now());
    if (over_ || left.count() <= 0) return false;
    pollfd waited{.fd = socket_, .events = events, .revents = 0};
    const int found = ::poll(&waited, 1, static_cast<int>(std::min(left, look_up).count()));
    if (found > 0) return true;
    if (found < 0 && errno != EINTR) return false;
  }
}

bool BoundedStream::is_readable() const { return begin_ < end_ || ready(POLLIN, arrived_by_); }

bool BoundedStream::is_writable() const { return ready(POLLOUT, left_by_); }

bool BoundedStream::fill() {
  if (!ready(POLLIN, arrived_by_)) return false;
  const ssize_t got = ::recv(socket_, buffer_.data(), buffer_.size(), MSG_DONTWAIT);
  if (got <= 0) return false;
  begin_ = 0;
  end_ = static_cast<std::size_t>(got);
  return true;
}

ssize_t BoundedStream::read(char* into, std::size_t size) {
  if (begin_ == end_ && !fill()) return -1;
  const std::size_t given = std::min(size, end_ - begin_);
  if (!count_head(buffer_.data() + begin_, given)) return -1;
  std::memcpy(into, buffer_.data() + begin_, given);
  begin_ += given;
  return static_cast<ssize_t>(given);
}

bool BoundedStream::count_head(const char* bytes, std::size_t size) {
  for (std::size_t i = 0; i < size && in_head_; ++i) {
    ++head_bytes_;
    if (bytes[i] == '\n') {
      in_head_ = !line_is_empty_;
      line_is_empty_ = true;
    } else if (bytes[i] != '\r') {
      line_is_empty_ = false;
    }
  }
  return head_bytes_ <= limits_.head_bytes;
}

ssize_t BoundedStream::write(const char* from, std::size_t size) {
  if (left_by_ == Clock::time_point::max()) left_by_ = Clock::now() + limits_.leaving;
  if (!is_writable()) return -1;
  return ::send(socket_, from, size, MSG_NOSIGNAL | MSG_DONTWAIT);
}

void BoundedStream::get_remote_ip_and_port(std::string& ip, int& port) const {
  address_of(socket_, ::getpeername, ip, port);
}

void BoundedStream::get_local_ip_and_port(std::string& ip, int& port) const {
  address_of(socket_, ::getsockname, ip, port);
}

void BoundedStream::finish() {
  static_cast<void>(::shutdown(socket_, SHUT_WR));
  arrived_by_ = Clock::now() + running_out;
  for (std::size_t dropped = 0; dropped < most_running_out && fill(); dropped += end_) continue;
}

}  // namespace fingerway
