#include "note_ways.hpp"

#include <algorithm>
#include <utility>

#include "trill_nodes.hpp"

namespace fingerway {
namespace {

/// Numbers the postures of one note from 0, in the order in which they come. There are few.
std::uint32_t local_number(std::vector<HandPosture>& all, const HandPosture& posture) {
  const auto known = std::ranges::find(all, posture);
  const auto number = static_cast<std::uint32_t>(known - all.begin());
  if (known == all.end()) all.push_back(posture);
  return number;
}

/// What one hand does with a candidate, whatever the other does, and the postures that go with it.
struct HandShape {
  std::array<std::uint8_t, 5> holds{};  ///< Candidate::hold
  TouchSet flicked;
  std::uint32_t first_posture = 0, postures = 0;
  std::optional<std::uint32_t> any = {};  ///< of several: NoteShape::enter
};

class ShapeBuilder {
 public:
  ShapeBuilder(const Played& played, const ShapeAsked& asked, const IdlePlaces& places, LeastParts& least)
      : played_(played), asked_(asked), places_(places), least_(least) {}

  NoteShape build(std::shared_ptr<const Admitted> first, std::shared_ptr<const Admitted> seconds) {
    result_.other = asked_.other;
    result_.kind = asked_.kind;
    result_.first = std::move(first);
    result_.seconds = std::move(seconds);
    if (result_.first->candidates.empty() || (asked_.other && result_.seconds->candidates.empty()))
      return std::move(result_);
    result_.ways = 0;
    result_.bands.reserve(result_.first->candidates.size());
    for (auto& hands : hands_) hands.reserve(result_.first->candidates.size());
    for (std::uint32_t c = 0; c < result_.first->candidates.size(); ++c) {
      Band& band = result_.bands.emplace_back();
      band.first = result_.ways;
      if (asked_.other) {
        add_pairs(result_.first->candidates[c]);
      } else {
        add_plain(band, result_.first->candidates[c]);
      }
    }
    asked_.other ? number_pairs() : number_plain();
    return std::move(result_);
  }

 private:
  void add_plain(Band& band, const Candidate& candidate) {
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      const HandShape& hand = shape_of(side, candidate);
      band.first_posture[s] = hand.first_posture;
      band.postures[s] = hand.postures;
      band.enter[s] = static_cast<std::uint32_t>(&hand - hands_[s].data());
    }
    result_.ways += band.postures[0] * band.postures[1];
  }

  /// Candidates for which a hand does the same have its postures in common.
  const HandShape& shape_of(Hand side, const Candidate& candidate) {
    const auto s = static_cast<std::size_t>(side);
    HandShape asked{.flicked = candidate.fingering.flicked};
    for (std::size_t d = 0; d < 5; ++d) asked.holds[d] = candidate.hold[side == Hand::left ? d : d + 5];
    const auto same = [&](const HandShape& known) {
      return known.holds == asked.holds && known.flicked == asked.flicked;
    };
    const auto known = std::ranges::find_if(hands_[s], same);
    if (known != hands_[s].end()) return *known;
    HandPostures& enter = result_.enter[s];
    const HandStates states = hand_states(played_, candidate, places_, side);
    asked.first_posture = static_cast<std::uint32_t>(enter.each.size());
    states.spell_out(enter.each);
    asked.postures = static_cast<std::uint32_t>(enter.each.size()) - asked.first_posture;
    if (asked.postures > 1) {
      asked.any = static_cast<std::uint32_t>(enter.any.size());
      enter.any.push_back(any_of(side, states));
    }
    return hands_[s].emplace_back(asked);
  }

  [[nodiscard]] AnyPosture any_of(Hand side, const HandStates& states) const {
    AnyPosture any{.first = states.first()};
    for (std::size_t d = 0; d < 5; ++d) {
      if ((states.several() >> d & 1U) == 0) continue;
      const Several& several = least_.of(all_fingers[side == Hand::left ? d : d + 5], states.of(d));
      any.several[d] = &several;
      any.alike = any.alike && several.alike;
    }
    return any;
  }

  void number_plain() {
    for (Band& band : result_.bands) {
      for (std::size_t s = 0; s < 2; ++s) {
        const HandShape& hand = hands_[s][band.enter[s]];
        const auto each = static_cast<std::uint32_t>(result_.enter[s].each.size());
        band.enter[s] = hand.any ? each + *hand.any : hand.first_posture;
      }
      band.leave = band.enter;
    }
  }

  /// A way to play a trill or tremolo, before it is packed.
  struct Pair {
    Posture enter, leave;
    PairWay way;
  };

  /// The second fingering of a trill touches neither the note before nor the one after (a trill ends on its main note),
  /// so only the best one for each first fingering and idle place can ever be used. A tremolo ends on its second note.
  void add_pairs(const Candidate& first) {
    for (const Posture& idle : postures(played_, first, places_)) {
      std::optional<Pair> best;
      for (std::uint32_t s = 0; s < result_.seconds->candidates.size(); ++s) {
        const Pair pair = priced(first, s, idle);
        if (asked_.kind == NoteKind::tremolo) {
          add(pair);
        } else if (!best || pair.way.weight < best->way.weight) {
          best = pair;
        }
      }
      if (best) add(*best);
    }
  }

  Pair priced(const Candidate& first, std::uint32_t s, const Posture& idle) const {
    const Candidate& second = result_.seconds->candidates[s];
    const PairPostures both = pair_postures(played_, first, second, idle);
    // As the note starts a finger is where it has let go, or flicks; over the touch it trills with it comes at once
    // after.
    Pair pair{.enter = idle,
              .leave = asked_.kind == NoteKind::tremolo ? both.to : both.from,
              .way = {.second = s,
                      .enter = {},
                      .leave = {},
                      .rate = trill_rate(played_.hand, both.from, both.to),
                      .cost = note_cost(played_, first, asked_.context)}};
    NoteCost& cost = pair.way.cost;
    const NoteCost other = note_cost(played_, second, asked_.context);
    for (std::size_t t = 0; t < note_term_count; ++t) cost.terms[t] = (cost.terms[t] + other.terms[t]) / 2;
    const double load = trill_load(pair.way.rate);
    const MotionNumbers& n = played_.hand.numbers();
    pair.way.weight = weight(cost.total() + Points(tightness(n, load) + overload(n, load)));
    pair.way.load = load_units(load);
    return pair;
  }

  void add(const Pair& pair) {
    PairWay& way = result_.pairs.emplace_back(pair.way);
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      way.enter[s] = local_number(result_.enter[s].each, hand_of(pair.enter, side));
      way.leave[s] = local_number(result_.leave[s].each, hand_of(pair.leave, side));
    }
    ++result_.ways;
  }

  void number_pairs() {
    for (std::size_t b = 0; b < result_.bands.size(); ++b) {
      Band& band = result_.bands[b];
      const auto ways = std::span(result_.pairs).subspan(band.first, result_.end_of(b) - band.first);
      for (Hand side : both_hands) {
        const auto s = static_cast<std::size_t>(side);
        band.enter[s] = number_any(side, result_.enter[s], ways, [s](const PairWay& way) { return way.enter[s]; });
        band.leave[s] = number_any(side, result_.leave[s], ways, [s](const PairWay& way) { return way.leave[s]; });
      }
    }
  }

  /// The number of any of the postures of these ways.
  template <class Number>
  std::uint32_t number_any(Hand side, HandPostures& postures, std::span<const PairWay> ways,
                           const Number& number) const {
    HandStates any;
    for (std::size_t d = 0; d < 5; ++d) {
      std::vector<StateIndex> states;
      for (const PairWay& way : ways) states.push_back(postures.each[number(way)].at[d]);
      std::ranges::sort(states);
      states.erase(std::unique(states.begin(), states.end()), states.end());
      any.add_finger(states);
    }
    if (any.several() == 0) return number(ways.front());
    postures.any.push_back(any_of(side, any));
    return static_cast<std::uint32_t>(postures.each.size() + postures.any.size() - 1);
  }

  /// A trill is priced at the slowest rate that still is one; its load does not depend on the tempo.
  [[nodiscard]] double trill_load(NotesPerSecond rate) const {
    if (rate.value() <= 0.0) return 1e3;
    return played_.hand.numbers().laborious_from.value / rate.value();
  }

  const Played& played_;
  const ShapeAsked& asked_;
  const IdlePlaces& places_;
  LeastParts& least_;
  NoteShape result_;
  BothHands<std::vector<HandShape>> hands_;
};

}  // namespace

std::uint32_t NoteShape::band_of(std::uint32_t way) const {
  const auto behind = std::ranges::upper_bound(bands, way, {}, &Band::first);
  return static_cast<std::uint32_t>(behind - bands.begin()) - 1;
}

std::size_t NoteShape::bytes() const {
  std::size_t sum = sizeof(*this) + sizeof(Band) * bands.size() + sizeof(PairWay) * pairs.size();
  for (const auto* hands : {&enter, &leave}) {
    for (const HandPostures& postures : *hands) {
      sum += sizeof(HandPosture) * postures.each.size() + sizeof(AnyPosture) * postures.any.size();
    }
  }
  return sum;
}

NoteShape note_shape(const Played& played, const ShapeAsked& asked, std::shared_ptr<const Admitted> first,
                     std::shared_ptr<const Admitted> seconds, const IdlePlaces& places, LeastParts& least) {
  return ShapeBuilder(played, asked, places, least).build(std::move(first), std::move(seconds));
}

}  // namespace fingerway
