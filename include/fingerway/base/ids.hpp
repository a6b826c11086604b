// What this part answers: small typed indices and sets of them that fit a machine word.
// It does not say what an index means; each room defines its own tags.
#pragma once

#include <bit>
#include <cassert>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <iterator>

namespace fingerway {

/// An index into one kind of list (touches, pads, latches); ids of different kinds do not mix.
template <class Tag>
struct Id {
  std::uint8_t index = 0;

  constexpr Id() = default;
  constexpr explicit Id(std::size_t i) : index(static_cast<std::uint8_t>(i)) { assert(i < 64); }
  friend constexpr auto operator<=>(Id, Id) = default;
};

/// A set of ids as one 64-bit word; iterates in rising order of index.
template <class IdT>
class IdSet {
 public:
  /// The largest number of members; readers refuse instruments that need more.
  static constexpr std::size_t capacity = 64;

  constexpr IdSet() = default;
  constexpr IdSet(std::initializer_list<IdT> ids) {
    for (IdT id : ids) insert(id);
  }
  [[nodiscard]] static constexpr IdSet from_bits(std::uint64_t bits) {
    IdSet set;
    set.bits_ = bits;
    return set;
  }

  constexpr void insert(IdT id) { bits_ |= bit(id); }
  constexpr void erase(IdT id) { bits_ &= ~bit(id); }
  [[nodiscard]] constexpr bool contains(IdT id) const { return (bits_ & bit(id)) != 0; }
  /// True when every member of `other` is a member here.
  [[nodiscard]] constexpr bool contains_all(IdSet other) const { return (other.bits_ & ~bits_) == 0; }
  [[nodiscard]] constexpr bool intersects(IdSet other) const { return (bits_ & other.bits_) != 0; }
  [[nodiscard]] constexpr bool empty() const { return bits_ == 0; }
  [[nodiscard]] constexpr int size() const { return std::popcount(bits_); }
  [[nodiscard]] constexpr std::uint64_t bits() const { return bits_; }
  /// The member of lowest index; the set must not be empty.
  [[nodiscard]] constexpr IdT first() const {
    assert(bits_ != 0);
    return IdT(static_cast<std::size_t>(std::countr_zero(bits_)));
  }

  friend constexpr IdSet operator|(IdSet a, IdSet b) { return from_bits(a.bits_ | b.bits_); }
  friend constexpr IdSet operator&(IdSet a, IdSet b) { return from_bits(a.bits_ & b.bits_); }
  /// Set difference.
  friend constexpr IdSet operator-(IdSet a, IdSet b) { return from_bits(a.bits_ & ~b.bits_); }
  constexpr IdSet& operator|=(IdSet b) {
    bits_ |= b.bits_;
    return *this;
  }
  constexpr IdSet& operator-=(IdSet b) {
    bits_ &= ~b.bits_;
    return *this;
  }
  friend constexpr auto operator<=>(IdSet, IdSet) = default;

  class Iterator {
   public:
    using value_type = IdT;
    using difference_type = std::ptrdiff_t;
    using iterator_category = std::input_iterator_tag;
    using reference = IdT;
    using pointer = void;
    constexpr Iterator() = default;
    constexpr explicit Iterator(std::uint64_t bits) : bits_(bits) {}
    constexpr IdT operator*() const { return IdT(static_cast<std::size_t>(std::countr_zero(bits_))); }
    constexpr Iterator& operator++() {
      bits_ &= bits_ - 1;
      return *this;
    }
    constexpr Iterator operator++(int) {
      Iterator old = *this;
      ++*this;
      return old;
    }
    friend constexpr bool operator==(Iterator, Iterator) = default;

   private:
    std::uint64_t bits_ = 0;
  };
  [[nodiscard]] constexpr Iterator begin() const { return Iterator(bits_); }
  [[nodiscard]] constexpr Iterator end() const { return Iterator(0); }

 private:
  static constexpr std::uint64_t bit(IdT id) { return std::uint64_t{1} << id.index; }
  std::uint64_t bits_ = 0;
};

}  // namespace fingerway
