// What this part answers: where a fact or a number comes from and how sure it is.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// How sure a line of data is. Anything below medium is marked in what users read.
enum class Confidence : std::uint8_t { very_low, low, medium, high };

/// Sources of one line ("common practice", "memory", an address, a book) and how sure it is.
struct Evidence {
  std::vector<std::string> sources;
  Confidence confidence = Confidence::medium;
  std::string disputed = {};  ///< what another source says and which; empty where none disagrees

  friend bool operator==(const Evidence&, const Evidence&) = default;
};

/// True where people must be told that the line is doubtful.
[[nodiscard]] constexpr bool doubtful(Confidence c) { return c < Confidence::medium; }
/// "very low", "low", "medium", "high".
[[nodiscard]] std::string_view words(Confidence c);
/// Reads "very-low", "low", "medium", "high".
[[nodiscard]] std::optional<Confidence> parse_confidence(std::string_view text);

}  // namespace fingerway
