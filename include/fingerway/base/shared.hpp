// What this part answers: values of which many hold the same one, kept once.
// It does not find equal values; whoever makes them does.
#pragma once

#include <memory>
#include <optional>
#include <utility>

namespace fingerway {

/// A value that never changes and that many may hold, or nothing. Reads like an optional, takes two words, and compares
/// what it holds.
template <class T>
class Shared {
 public:
  Shared() = default;
  Shared(std::nullopt_t) {}
  Shared(const T& value) : value_(std::make_shared<const T>(value)) {}
  Shared(T&& value) : value_(std::make_shared<const T>(std::move(value))) {}

  [[nodiscard]] bool has_value() const { return value_ != nullptr; }
  [[nodiscard]] explicit operator bool() const { return has_value(); }
  [[nodiscard]] const T& operator*() const { return *value_; }
  [[nodiscard]] const T* operator->() const { return value_.get(); }
  /// Where it is kept: the same for all that hold the very same one; null for nothing.
  [[nodiscard]] const T* kept() const { return value_.get(); }

  friend bool operator==(const Shared& a, const Shared& b) { return a.value_ == b.value_ || (a && b && *a == *b); }

 private:
  std::shared_ptr<const T> value_;
};

}  // namespace fingerway
