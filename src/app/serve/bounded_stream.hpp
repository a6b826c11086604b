// What this part answers: the bytes of one connection, within bounds of time and size, so that no sender or reader can
// hold a thread or fill the memory for as long as it likes. It knows no HTTP but where a head ends.
#pragma once

#include <httplib.h>

#include <array>
#include <atomic>
#include <chrono>
#include <cstddef>
#include <string>

#include "stream_limits.hpp"

namespace fingerway {

class BoundedStream : public httplib::Stream {
 public:
  /// `over` ends every wait soon after it becomes true.
  BoundedStream(socket_t socket, const StreamLimits& limits, const std::atomic<bool>& over);

  [[nodiscard]] bool is_readable() const override;
  [[nodiscard]] bool is_writable() const override;
  /// -1 where a bound is broken or the other side is gone; what was asked of it then ends.
  ssize_t read(char* into, std::size_t size) override;
  ssize_t write(const char* from, std::size_t size) override;
  void get_remote_ip_and_port(std::string& ip, int& port) const override;
  void get_local_ip_and_port(std::string& ip, int& port) const override;
  [[nodiscard]] socket_t socket() const override { return socket_; }

  /// Says that nothing more comes, and lets what the other side still sends run out for a moment: closed at once, it
  /// would lose the answer.
  void finish();

 private:
  using Clock = std::chrono::steady_clock;

  [[nodiscard]] bool ready(short events, Clock::time_point until) const;
  [[nodiscard]] bool fill();
  /// False when the head is longer than it may be.
  [[nodiscard]] bool count_head(const char* bytes, std::size_t size);

  socket_t socket_;
  StreamLimits limits_;
  const std::atomic<bool>& over_;
  Clock::time_point arrived_by_;
  Clock::time_point left_by_ = Clock::time_point::max();
  std::array<char, 16'384> buffer_;
  std::size_t begin_ = 0;
  std::size_t end_ = 0;
  std::size_t head_bytes_ = 0;
  bool in_head_ = true;
  bool line_is_empty_ = true;
};

}  // namespace fingerway
