// What this part answers: what a payoff works on: the passages of a folder or list, and the instrument with every set
// of conversions that can stand on it. It plans nothing.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fingerway/decide/conversion_sets.hpp"
#include "fingerway/decide/repertoire.hpp"
#include "fingerway/decide/worlds.hpp"
#include "requests.hpp"

namespace fingerway {

/// What a user asks a payoff for; work files keep it, so that shards can be merged.
struct PayoffRequest {
  std::string repertoire;                ///< a folder, a list or a score
  PlayedRequest played;                  ///< the stock instrument
  std::vector<std::string> conversions;  ///< empty: all that fit the instrument
  std::optional<double> budget;
  std::size_t samples = 4;
};

/// More sets than this are refused, and more sampled worlds.
inline constexpr std::size_t most_sets = 512;
inline constexpr std::size_t most_samples = 1000;

struct PayoffMaterial {
  Repertoire repertoire;
  std::vector<ConversionSheet> conversions;  ///< in the order asked for
  std::vector<Variant> variants;             ///< the stock instrument, every conversion, every set the budget allows
  std::vector<RefusedSet> refused;           ///< sets that contradict themselves, without those that contain one
  MotionNumbers numbers;
};

/// Throws InputError or FileError where the instrument, a conversion or the list cannot be read; scores that cannot are
/// skipped with a note, unless none is left.
[[nodiscard]] PayoffMaterial load_payoff(const PayoffRequest& request, const InstrumentFolders& folders);

/// The passages alone, as a player of the instrument reads them.
[[nodiscard]] Repertoire load_repertoire(const std::string& folder_or_list, const Played& stock);

}  // namespace fingerway
