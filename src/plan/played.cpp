#include "fingerway/plan/played.hpp"

#include <algorithm>
#include <utility>

namespace fingerway {
namespace {

bool listed(const std::vector<OwnFingering>& list, WrittenPitch pitch, const Fingering& fingering) {
  return std::ranges::any_of(list,
                             [&](const OwnFingering& own) { return own.pitch == pitch && own.fingering == fingering; });
}

/// The largest known fingerings of the note that this one contains; itself where it contains none.
std::vector<Fingering> kernels(const Player& player, const Instrument& instrument, WrittenPitch pitch,
                               const Fingering& fingering) {
  std::vector<Fingering> largest;
  const auto offer = [&](const Fingering& known) {
    if (!contains(fingering, known)) return;
    if (!largest.empty() && known.pressed.size() < largest.front().pressed.size()) return;
    if (!largest.empty() && known.pressed.size() > largest.front().pressed.size()) largest.clear();
    largest.push_back(known);
  };
  for (const TableFingering& line : instrument.table) {
    if (line.pitch == pitch) offer(line.fingering);
  }
  const auto offer_all = [&](const std::vector<OwnFingering>& list) {
    for (const OwnFingering& own : list) {
      if (own.pitch == pitch) offer(own.fingering);
    }
  };
  offer_all(player.not_learned);
  if (player.learned) offer_all(*player.learned);
  if (largest.empty()) largest.push_back(fingering);
  return largest;
}

/// Takes away what the player cannot press or has not learned. Families keep their holds by index.
void restrict_to(const Player& player, const Instrument& instrument, Derivation& derivation) {
  if (!player.limits_fingerings() && player.holds_through) return;
  for (std::size_t f = 0; f < finger_count; ++f) {
    HoldMask usable = 0;
    for (std::size_t h = 0; h < derivation.holds[f].size(); ++h) {
      if (!derivation.holds[f][h].touches.intersects(player.unusable)) usable |= HoldMask{1} << h;
    }
    for (auto& [pitch, families] : derivation.families) {
      for (Family& family : families) family.holds[f] &= usable;
      std::erase_if(families, [&](const Family& family) { return family.holds[f] == 0; });
    }
  }
  for (auto& entry : derivation.by_pitch) {
    std::erase_if(entry.second,
                  [&](const Candidate& c) { return !plays(player, instrument, entry.first, c.fingering); });
  }
  std::erase_if(derivation.by_pitch, [](const auto& entry) { return entry.second.empty(); });
}

}  // namespace

Played played(Instrument instrument, const MotionNumbers& numbers, Level level) {
  return played(std::move(instrument), numbers, Player{.level = level});
}

Played played(Instrument instrument, const MotionNumbers& numbers, const Player& player) {
  Works works = works_of(instrument);
  Derivation derivation = derive(instrument);
  restrict_to(player, instrument, derivation);
  HandOnInstrument hand(instrument, numbers, player.level, player.hand);
  return {.instrument = std::move(instrument),
          .works = std::move(works),
          .derivation = std::move(derivation),
          .hand = std::move(hand),
          .player = player};
}

bool plays(const Player& player, const Instrument& instrument, WrittenPitch pitch, const Fingering& fingering) {
  if ((fingering.pressed | fingering.flicked).intersects(player.unusable)) return false;
  if (!player.learned && player.not_learned.empty() && player.holds_through) return true;
  if (player.learned && listed(*player.learned, pitch, fingering)) return !listed(player.not_learned, pitch, fingering);
  return std::ranges::all_of(kernels(player, instrument, pitch, fingering), [&](const Fingering& kernel) {
    if (!player.holds_through && kernel != fingering) return false;
    return !listed(player.not_learned, pitch, kernel) && (!player.learned || listed(*player.learned, pitch, kernel));
  });
}

}  // namespace fingerway
