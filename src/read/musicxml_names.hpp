// What this part answers: whether two names of parts mean the same instrument, by their words.
// It knows no instruments: the names they go by are handed in.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// The words of a name in small letters, numbers apart: "Bsn.2" is "bsn", "2".
[[nodiscard]] std::vector<std::string> words_of(std::string_view name);

/// How well a part's name fits: not at all, among other words ("bass clarinet" holds "clarinet"), or wholly but for
/// numbers and keys ("2nd Clarinet in B-flat" is "clarinet").
enum class NameFit : std::uint8_t { none, within, whole };
[[nodiscard]] NameFit name_fit(std::string_view part_name, std::string_view wanted);

}  // namespace fingerway
