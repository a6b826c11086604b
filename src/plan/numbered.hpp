// What this part answers: the same number for equal things. Private to plan.
#pragma once

#include <bit>
#include <cstdint>
#include <unordered_map>
#include <vector>

namespace fingerway {

/// Words mixed into one, by which equal things are found.
class Mixed {
 public:
  Mixed& add(std::uint64_t word) {
    value_ = (value_ ^ word) * 0x9E37'79B9'7F4A'7C15U;
    value_ ^= value_ >> 32U;
    return *this;
  }
  /// Zeros of either sign are equal.
  Mixed& add_real(double number) { return add(std::bit_cast<std::uint64_t>(number + 0.0)); }
  [[nodiscard]] std::size_t value() const { return value_; }

 private:
  std::uint64_t value_ = 0;
};

/// Numbers of equal things, from 0 in the order in which they come up.
template <class T, class Hash = std::hash<T>>
class Numbered {
 public:
  std::uint32_t number(const T& thing) {
    const auto [entry, is_new] = numbers_.try_emplace(thing, static_cast<std::uint32_t>(things_.size()));
    if (is_new) things_.push_back(&entry->first);
    return entry->second;
  }
  [[nodiscard]] const T& operator[](std::uint32_t number) const { return *things_[number]; }
  [[nodiscard]] std::size_t size() const { return things_.size(); }

 private:
  std::unordered_map<T, std::uint32_t, Hash> numbers_;
  std::vector<const T*> things_;  ///< into numbers_
};

}  // namespace fingerway
