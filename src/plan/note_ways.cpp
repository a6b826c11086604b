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

class ShapeBuilder {
 public:
  ShapeBuilder(const Played& played, const ShapeAsked& asked, const IdlePlaces& places)
      : played_(played), asked_(asked), places_(places) {}

  NoteShape build(std::shared_ptr<const Admitted> first, std::shared_ptr<const Admitted> seconds) {
    result_.other = asked_.other;
    result_.kind = asked_.kind;
    result_.first = std::move(first);
    result_.seconds = std::move(seconds);
    for (std::uint32_t c = 0; c < result_.first->candidates.size(); ++c) {
      if (asked_.other) {
        add_pairs(c);
      } else {
        add_plain(c);
      }
    }
    find_runs();
    return std::move(result_);
  }

 private:
  void add_plain(std::uint32_t c) {
    BothHands<std::vector<std::uint32_t>> numbers;
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      for (const HandPosture& posture : hand_postures(played_, result_.first->candidates[c], places_, side)) {
        numbers[s].push_back(local_number(result_.enter[s], posture));
      }
    }
    for (const std::uint32_t left : numbers[0]) {
      for (const std::uint32_t right : numbers[1]) result_.ways.push_back({.candidate = c, .enter = {left, right}});
    }
  }

  /// A way to play a trill or tremolo, before it is packed.
  struct Pair {
    Posture enter, leave;
    PairWay way;
  };

  /// The second fingering of a trill touches neither the note before nor the one after (a trill ends on its main note),
  /// so only the best one for each first fingering and idle place can ever be used. A tremolo ends on its second note.
  void add_pairs(std::uint32_t c) {
    const Candidate& first = result_.first->candidates[c];
    for (const Posture& idle : postures(played_, first, places_)) {
      std::optional<Pair> best;
      for (std::uint32_t s = 0; s < result_.seconds->candidates.size(); ++s) {
        const Pair pair = priced(first, s, idle);
        if (asked_.kind == NoteKind::tremolo) {
          add(c, pair);
        } else if (!best || pair.way.weight < best->way.weight) {
          best = pair;
        }
      }
      if (best) add(c, *best);
    }
  }

  Pair priced(const Candidate& first, std::uint32_t s, const Posture& idle) const {
    const Candidate& second = result_.seconds->candidates[s];
    const PairPostures postures = pair_postures(played_, first, second, idle);
    // As the note starts a finger is where it has let go, or flicks; over the touch it trills with it comes at once
    // after.
    Pair pair{.enter = idle,
              .leave = asked_.kind == NoteKind::tremolo ? postures.to : postures.from,
              .way = {.second = s,
                      .leave = {},
                      .rate = trill_rate(played_.hand, postures.from, postures.to),
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

  void add(std::uint32_t c, const Pair& pair) {
    PackedWay way{.candidate = c, .enter = {}};
    PairWay& rest = result_.pairs.emplace_back(pair.way);
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      way.enter[s] = local_number(result_.enter[s], hand_of(pair.enter, side));
      rest.leave[s] = local_number(result_.leave[s], hand_of(pair.leave, side));
    }
    result_.ways.push_back(way);
  }

  /// A trill is priced at the slowest rate that still is one; its load does not depend on the tempo.
  [[nodiscard]] double trill_load(NotesPerSecond rate) const {
    if (rate.value() <= 0.0) return 1e3;
    return played_.hand.numbers().laborious_from.value / rate.value();
  }

  void find_runs() {
    const auto& ways = result_.ways;
    for (std::uint32_t w = 0; w < ways.size();) {
      result_.runs.push_back(w);
      std::vector<std::uint32_t> rights;
      for (const std::uint32_t first = w; w < ways.size() && alike(ways[first], ways[w]); ++w) {
        rights.push_back(ways[w].enter[1]);
      }
      const auto known = std::ranges::find(result_.right_sets, rights);
      result_.right_set.push_back(static_cast<std::uint32_t>(known - result_.right_sets.begin()));
      if (known == result_.right_sets.end()) result_.right_sets.push_back(std::move(rights));
    }
    result_.runs.push_back(static_cast<std::uint32_t>(result_.size()));
    if (ways.empty()) result_.runs = {0, 1};
  }
  static bool alike(const PackedWay& a, const PackedWay& b) {
    return a.candidate == b.candidate && a.enter[0] == b.enter[0];
  }

  const Played& played_;
  const ShapeAsked& asked_;
  const IdlePlaces& places_;
  NoteShape result_;
};

}  // namespace

std::size_t NoteShape::bytes() const {
  std::size_t sum = sizeof(*this) + sizeof(PackedWay) * ways.size() + sizeof(PairWay) * pairs.size();
  sum += sizeof(std::uint32_t) * (runs.size() + right_set.size());
  for (const auto& set : right_sets) sum += sizeof(set) + sizeof(std::uint32_t) * set.size();
  for (const auto* hands : {&enter, &leave}) {
    for (const auto& postures : *hands) sum += sizeof(HandPosture) * postures.size();
  }
  return sum;
}

NoteShape note_shape(const Played& played, const ShapeAsked& asked, std::shared_ptr<const Admitted> first,
                     std::shared_ptr<const Admitted> seconds, const IdlePlaces& places) {
  return ShapeBuilder(played, asked, places).build(std::move(first), std::move(seconds));
}

}  // namespace fingerway
