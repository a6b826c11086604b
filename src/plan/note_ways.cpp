#include "note_ways.hpp"

#include <unordered_map>

#include "trill_nodes.hpp"

namespace fingerway {
namespace {

/// Numbers the postures of one note from 0, in the order in which they come.
class LocalNumbers {
 public:
  explicit LocalNumbers(std::vector<HandNumber>& all) : all_(all) {}

  std::uint32_t number(HandNumber posture) {
    const auto [entry, is_new] = numbers_.try_emplace(posture, static_cast<std::uint32_t>(all_.size()));
    if (is_new) all_.push_back(posture);
    return entry->second;
  }

 private:
  std::vector<HandNumber>& all_;
  std::unordered_map<HandNumber, std::uint32_t> numbers_;
};

class WaysBuilder {
 public:
  WaysBuilder(const Played& played, BothHands<HandChanges>& changes, const NoteAsked& asked, const IdlePlaces& places)
      : played_(played), changes_(changes), asked_(asked), places_(places) {}

  NoteWays build(const std::vector<Candidate>& candidates, const std::vector<Candidate>& seconds) {
    NoteLayer& note = result_.note;
    note.pitch = asked_.pitch;
    note.other = asked_.other;
    note.context = asked_.context;
    note.candidates = candidates;
    note.seconds = seconds;
    note.choices = played_.derivation.of(asked_.pitch).size();
    result_.kind = asked_.kind;
    for (std::uint32_t c = 0; c < candidates.size(); ++c) {
      if (note.other) {
        add_pairs(c);
      } else {
        add_plain(c);
      }
    }
    if (result_.ways.empty()) {
      result_.weights.push_back(0);
      result_.loads.push_back(0);
    }
    return std::move(result_);
  }

 private:
  void add_plain(std::uint32_t c) {
    const Candidate& candidate = result_.note.candidates[c];
    BothHands<std::vector<std::uint32_t>> numbers;
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      for (const HandPosture& posture : hand_postures(played_, candidate, places_, side)) {
        numbers[s].push_back(enter_[s].number(changes_[s].number(posture)));
      }
    }
    const NoteCost cost = note_cost(played_, candidate, asked_.context);
    const Weight own = weight(cost.total());
    const auto cost_number = static_cast<std::uint32_t>(result_.costs.size());
    result_.costs.push_back(cost);
    for (const std::uint32_t left : numbers[0]) {
      for (const std::uint32_t right : numbers[1]) {
        result_.ways.push_back(
            {.candidate = c, .second = 0, .cost = cost_number, .enter = {left, right}, .leave = {left, right}});
        result_.weights.push_back(own);
        result_.loads.push_back(0);
      }
    }
    result_.leave = result_.enter;
  }

  /// A way to play a trill or tremolo, before it is packed.
  struct Pair {
    std::uint32_t second = 0;
    Posture enter, leave;
    NotesPerSecond rate;
    NoteCost cost;
    Weight weight = 0;
  };

  /// The second fingering of a trill touches neither the note before nor the one after (a trill ends on its main note),
  /// so only the best one for each first fingering and idle place can ever be used. A tremolo ends on its second note.
  void add_pairs(std::uint32_t c) {
    const Candidate& first = result_.note.candidates[c];
    for (const Posture& idle : postures(played_, first, places_)) {
      std::optional<Pair> best;
      for (std::uint32_t s = 0; s < result_.note.seconds.size(); ++s) {
        const Pair pair = priced(first, s, idle);
        if (asked_.kind == NoteKind::tremolo) {
          add(c, pair);
        } else if (!best || pair.weight < best->weight) {
          best = pair;
        }
      }
      if (best) add(c, *best);
    }
  }

  Pair priced(const Candidate& first, std::uint32_t s, const Posture& idle) const {
    const Candidate& second = result_.note.seconds[s];
    const PairPostures postures = pair_postures(played_, first, second, idle);
    // As the note starts a finger is where it has let go, or flicks; over the touch it trills with it comes at once
    // after.
    Pair pair{.second = s,
              .enter = idle,
              .leave = asked_.kind == NoteKind::tremolo ? postures.to : postures.from,
              .rate = trill_rate(played_.hand, postures.from, postures.to),
              .cost = note_cost(played_, first, asked_.context)};
    const NoteCost other = note_cost(played_, second, asked_.context);
    for (std::size_t t = 0; t < note_term_count; ++t) pair.cost.terms[t] = (pair.cost.terms[t] + other.terms[t]) / 2;
    const double load = trill_load(pair.rate);
    const MotionNumbers& n = played_.hand.numbers();
    pair.weight = weight(pair.cost.total() + Points(tightness(n, load) + overload(n, load)));
    return pair;
  }

  void add(std::uint32_t c, const Pair& pair) {
    PackedNode way{.candidate = c, .second = pair.second, .cost = static_cast<std::uint32_t>(result_.costs.size())};
    for (Hand side : both_hands) {
      const auto s = static_cast<std::size_t>(side);
      way.enter[s] = enter_[s].number(changes_[s].number(hand_of(pair.enter, side)));
      way.leave[s] = leave_[s].number(changes_[s].number(hand_of(pair.leave, side)));
    }
    result_.ways.push_back(way);
    result_.costs.push_back(pair.cost);
    result_.rates.push_back(pair.rate);
    result_.weights.push_back(pair.weight);
    result_.loads.push_back(load_units(trill_load(pair.rate)));
  }

  /// A trill is priced at the slowest rate that still is one; its load does not depend on the tempo.
  [[nodiscard]] double trill_load(NotesPerSecond rate) const {
    if (rate.value() <= 0.0) return 1e3;
    return played_.hand.numbers().laborious_from.value / rate.value();
  }

  const Played& played_;
  BothHands<HandChanges>& changes_;
  const NoteAsked& asked_;
  const IdlePlaces& places_;
  NoteWays result_;
  BothHands<LocalNumbers> enter_{LocalNumbers(result_.enter[0]), LocalNumbers(result_.enter[1])};
  BothHands<LocalNumbers> leave_{LocalNumbers(result_.leave[0]), LocalNumbers(result_.leave[1])};
};

}  // namespace

NoteWays note_ways(const Played& played, BothHands<HandChanges>& changes, const NoteAsked& asked,
                   const std::vector<Candidate>& candidates, const std::vector<Candidate>& seconds,
                   const IdlePlaces& places) {
  return WaysBuilder(played, changes, asked, places).build(candidates, seconds);
}

Node node(const NoteWays& ways, const BothHands<HandChanges>& changes, std::size_t number) {
  Node result;
  if (ways.ways.empty()) return result;
  const PackedNode& way = ways.ways[number];
  result.candidate = way.candidate;
  const auto spelled = [&](const BothHands<std::vector<HandNumber>>& hands, const BothHands<std::uint32_t>& at) {
    return joined(changes[0].posture(hands[0][at[0]]), changes[1].posture(hands[1][at[1]]));
  };
  result.enter = spelled(ways.enter, way.enter);
  result.leave = spelled(ways.leave, way.leave);
  result.cost = ways.costs[way.cost];
  if (ways.note.other) {
    result.other = way.second;
    result.rate = ways.rates[way.cost];
    result.ends_on_second = ways.kind == NoteKind::tremolo;
  }
  return result;
}

}  // namespace fingerway
