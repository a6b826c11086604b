#include "fingerway/plan/played.hpp"

#include <utility>

namespace fingerway {

Played played(Instrument instrument, const MotionNumbers& numbers, Level level) {
  Works works = works_of(instrument);
  Derivation derivation = derive(instrument);
  HandOnInstrument hand(instrument, numbers, level);
  return {.instrument = std::move(instrument),
          .works = std::move(works),
          .derivation = std::move(derivation),
          .hand = std::move(hand)};
}

}  // namespace fingerway
