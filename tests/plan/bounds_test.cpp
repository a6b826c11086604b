// What the search leaves out: no change weighs less, or takes a smaller share of its time, than what is told of the
// bands it is between; nor less than what each hand has to do.
#include <catch2/catch.hpp>

#include "plan/passage_ways.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

struct Checked {
  std::size_t changes = 0, bands_with_many = 0, below_hands = 0, below_band = 0, told_wrong = 0, loads_below = 0;
};

/// What is told of the changes between two places, as the search asks for it.
struct Told {
  Weight rough = 0, close = 0, hands = 0;
  Load load = 0;
};
Told told(StepPrices& prices, const BandPlace& from, const BandPlace& to) {
  Told told;
  const StepPrices::From roughly = prices.start(from, Look::rough);
  told.hands = roughly.bound(to, forbidden);
  told.rough = roughly.cost(to, forbidden);
  told.close = prices.start(from, Look::close).cost(to, forbidden);
  told.load = prices.load(to);
  return told;
}

std::vector<BandPlace> bands_of(const NoteShape& shape) {
  std::vector<BandPlace> bands;
  for (std::uint32_t b = 0; b < shape.bands.size(); ++b) bands.push_back({.band = b, .mark = shape.bands[b].enter});
  return bands;
}
BandPlace way_of(const NoteShape& shape, std::uint32_t way) {
  const std::uint32_t band = shape.band_of(way);
  return {.band = band, .node = way, .mark = shape.enter_of(band, way)};
}

/// Every change of a passage against what is told of it and of its bands, and against the whole of it written out.
Checked checked(const Played& played, const Passage& passage) {
  Checked result;
  Workshop workshop(played);
  const PassageWays ways(workshop, passage, {});
  for (std::size_t note = 0; note + 1 < ways.size(); ++note) {
    StepPrices& prices = ways.prices(note);
    const Steps steps = prices.written_out();
    const auto from = ways.shape(note);
    const auto to = ways.shape(note + 1);
    std::vector<std::vector<Told>> between;
    for (const BandPlace& a : bands_of(*from)) {
      auto& row = between.emplace_back();
      for (const BandPlace& b : bands_of(*to)) row.push_back(told(prices, a, b));
    }
    for (const BandPlace& b : bands_of(*to)) result.bands_with_many += to->end_of(b.band) - to->bands[b.band].first > 1;
    const auto compare = [&](const Told& least, Weight weight, Load load) {
      result.below_hands += weight < least.hands ? 1 : 0;
      result.below_band += weight < least.rough || weight < least.close ? 1 : 0;
      result.loads_below += load < least.load ? 1 : 0;
    };
    for (std::uint32_t i = 0; i < from->ways; ++i) {
      const BandPlace a = way_of(*from, i);
      std::vector<Told> to_bands;
      for (const BandPlace& b : bands_of(*to)) to_bands.push_back(told(prices, a, b));
      for (std::uint32_t j = 0; j < to->ways; ++j) {
        const BandPlace b = way_of(*to, j);
        const Weight weight = steps.weight_at(i, j);
        const Told exact = told(prices, a, b);
        ++result.changes;
        result.told_wrong += exact.close != weight || is_forbidden(exact.load) != is_forbidden(weight) ? 1 : 0;
        for (const Told& least :
             {exact, to_bands[b.band], between[a.band][b.band], told(prices, bands_of(*from)[a.band], b)}) {
          compare(least, weight, exact.load);
        }
      }
    }
  }
  return result;
}

/// The numbers there are, and others with which a second hand that goes the other way makes a change cheaper.
std::vector<MotionNumbers> numbers() {
  MotionNumbers contrary = own_numbers();
  contrary.contrary_two_hands.value = 0.05;
  for (LevelNumbers& level : contrary.levels) level.onset_scatter.value *= 5;
  return {own_numbers(), contrary};
}

}  // namespace

TEST_CASE("no change weighs less than what is told of its bands and of its hands") {
  for (const MotionNumbers& some : numbers()) {
    const Played bassoon = played(own_played("bassoon").instrument, some, Level::amateur);
    for (Attack attack : {Attack::slurred, Attack::tongued}) {
      Passage passage =
          passage_of({"B1", "C#2", "F2", "Bb2", "G2", "C3", "C#3", "F#3", "A3", "D4"}, {.attack = attack});
      // Rests hide crossings; so fast there is too little time even so.
      if (attack == Attack::tongued) {
        for (NoteEvent& note : passage.notes) note.length = note.length * ScoreTime(1, 2);
        passage.tempo = TempoMap({{.at = ScoreTime(), .tempo = Qpm(400.0), .source = TempoSource::request}});
      }
      const Checked all = checked(bassoon, passage);
      CHECK(all.changes > 1000);
      CHECK(all.bands_with_many > 10);
      CHECK(all.below_hands == 0);
      CHECK(all.below_band == 0);
      CHECK(all.loads_below == 0);
      CHECK(all.told_wrong == 0);
    }
  }
}

TEST_CASE("the same of trills and tremolos, whose ways are not one for each posture") {
  for (const MotionNumbers& some : numbers()) {
    const Played bassoon = played(own_played("bassoon").instrument, some, Level::amateur);
    Passage passage = passage_of({"F2", "C3", "G2", "D3", "A2", "Eb2", "F2"}, {.attack = Attack::slurred});
    passage.notes[1].kind = NoteKind::trill;
    passage.notes[1].other = spelled("D3");
    passage.notes[3].kind = NoteKind::tremolo;
    passage.notes[3].other = spelled("F2");
    passage.notes[5].kind = NoteKind::tremolo;
    passage.notes[5].other = spelled("C3");
    const Checked all = checked(bassoon, passage);
    CHECK(all.changes > 300);
    CHECK(all.below_hands == 0);
    CHECK(all.below_band == 0);
    CHECK(all.loads_below == 0);
    CHECK(all.told_wrong == 0);
  }
}
