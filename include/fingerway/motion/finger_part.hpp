// What this part answers: a finger's move and what the fingers of a hand do together, small and quick to add up, as the
// search asks for it very often.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include "fingerway/instrument/finger.hpp"

namespace fingerway {

/// Four numbers that the processor compares at once; a type that g++ and clang have in common.
using FourFloats = float __attribute__((vector_size(16)));

/// What a hand takes of one finger's move: of each the largest of its fingers counts. In ms, 0 where there is none.
struct Largest {
  enum : std::size_t { busy, gap, crossing_gap, travel };
  FourFloats of{};

  void raise_to(const Largest& other) { of = of < other.of ? other.of : of; }
  void lower_to(const Largest& other) { of = other.of < of ? other.of : of; }
};

/// What is counted over the fingers of a hand, in one number, so that one addition counts all of it.
class Tally {
 public:
  Tally() = default;
  /// Of one finger; its way is a digit of the number of a `Together`.
  Tally(std::uint16_t ways, bool impossible, bool crosses)
      : counts_(ways + (impossible ? one_impossible : 0) + (crosses ? one_crosses : 0)) {}

  void add(const Tally& other) { counts_ += other.counts_; }
  /// The sum of the fingers' ways.
  [[nodiscard]] std::uint16_t ways() const { return static_cast<std::uint16_t>(counts_); }
  [[nodiscard]] bool impossible() const { return (counts_ & some_impossible) != 0; }
  [[nodiscard]] bool crosses() const { return counts_ >= one_crosses; }

 private:
  // Five fingers need three bits.
  static constexpr std::uint32_t one_impossible = 1U << 16U, some_impossible = 7U << 16U, one_crosses = 1U << 19U;
  std::uint32_t counts_ = 0;
};

/// A move as its hand needs it. There are very many changes of a hand, so they are kept small.
struct alignas(32) FingerPart {
  Largest largest;
  float busy_again = 0;  ///< ms
  float points = 0;
  Tally tally;
};

/// What the five fingers of a hand do together, from the way each of them goes, whatever is under them.
struct Together {
  std::uint8_t movers = 0;       ///< fingers that move for the next note
  std::uint8_t ways = 0;         ///< in which they do: down, up and aside are bits 1, 2, 4
  std::uint8_t differences = 0;  ///< neighbouring fingers that do different things; contrary ones count twice
  float individuation = 0;       ///< points
  float holding = 0;             ///< points
  float points = 0;              ///< of all three: what one hand makes awkward but for its moves
};

/// Of it what every change asks for; small, as it is looked up so often.
struct TogetherBrief {
  float points = 0;
  std::uint8_t movers = 0, ways = 0;
};

/// By the ways of the left and of the right hand (left times 8), and by fingers that move.
using MoversTable = std::array<std::array<float, finger_count + 1>, 64>;

}  // namespace fingerway
