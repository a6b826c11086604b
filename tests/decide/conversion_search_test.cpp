// Elementary changes, and the search for sets of them that help.
#include "fingerway/decide/conversion_search.hpp"

#include <catch2/catch.hpp>

#include "decide/payoff_toy.hpp"

using namespace fingerway;

namespace {

void one_by_one(std::size_t count, const std::function<void(std::size_t)>& job) {
  for (std::size_t i = 0; i < count; ++i) job(i);
}

void backwards(std::size_t count, const std::function<void(std::size_t)>& job) {
  for (std::size_t i = count; i > 0; --i) job(i - 1);
}

/// D-flat and E-flat below the stave, back and forth in slurred sixteenths.
Repertoire low_shake() {
  Repertoire repertoire;
  Piece piece;
  piece.passage = passage_of({"Db2", "Eb2", "Db2", "Eb2", "Db2", "Eb2"}, {.each = ScoreTime(1, 4)});
  piece.name = "low shake";
  repertoire.pieces = {piece};
  return repertoire;
}

std::size_t count_kind(const std::vector<ElementaryChange>& changes, ChangeKind kind) {
  return static_cast<std::size_t>(
      std::ranges::count_if(changes, [&](const ElementaryChange& c) { return c.kind == kind; }));
}

}  // namespace

TEST_CASE("the toy's keys could each hold two more pads shut, be doubled, or get a roller") {
  // Its pads rest open, so that no key can let one open; "hole" is the name of no key of it.
  const std::vector<ElementaryChange> all = elementary_changes(toy_instrument());
  CHECK(count_kind(all, ChangeKind::opens) == 0);
  CHECK(count_kind(all, ChangeKind::closes) == 6);
  CHECK(count_kind(all, ChangeKind::duplicate) == 3);  // one and two for L2, three for L1: no other finger has a key
  CHECK(count_kind(all, ChangeKind::roller) == 1);
}

TEST_CASE("a linkage reaches no further along the body than the limit") {
  ChangeLimits near;
  near.reach = Mm(10.0);
  // Keys stand 10 mm apart: one reaches two's pad, two both others, three two's.
  CHECK(count_kind(elementary_changes(toy_instrument(), near), ChangeKind::closes) == 4);
}

TEST_CASE("bare finger holes take part in no change") {
  Instrument toy = toy_instrument();
  for (Touch& touch : toy.touches) touch.name = "hole";
  const auto all = elementary_changes(toy);
  CHECK(count_kind(all, ChangeKind::closes) == 0);
  CHECK(count_kind(all, ChangeKind::duplicate) == 0);
}

TEST_CASE("changes are made on the mechanism, and the fingerings follow") {
  const Instrument toy = toy_instrument();
  // Key three also shuts the first hole: B3 with it alone.
  const ElementaryChange link{.kind = ChangeKind::closes,
                              .touch = toy_three,
                              .pad = PadId(0),
                              .beside = {},
                              .finger = Finger::L2,
                              .price = PriceClass::middle};
  const auto linked = with_changes(toy, std::vector{link});
  REQUIRE(linked.has_value());
  const Played made = toy_played(*linked);
  CHECK(as_candidate(made.instrument, made.derivation, pitch_named("B3"),
                     {.pressed = {toy_three}, .half = {}, .flicked = {}})
            .has_value());
  const ElementaryChange roller{.kind = ChangeKind::roller,
                                .touch = toy_one,
                                .pad = {},
                                .beside = toy_two,
                                .finger = Finger::L1,
                                .price = PriceClass::small};
  CHECK(with_changes(toy, std::vector{roller})->slides[0].roller);
  const ElementaryChange twin{.kind = ChangeKind::duplicate,
                              .touch = toy_one,
                              .pad = {},
                              .beside = toy_three,
                              .finger = Finger::L2,
                              .price = PriceClass::large};
  const auto doubled = with_changes(toy, std::vector{twin});
  REQUIRE(doubled->touches.size() == 4);
  CHECK(doubled->touches[3].finger == Finger::L2);
  CHECK(moved_by(*doubled, TouchId(3)) == PadSet{PadId(0)});
}

TEST_CASE("one key cannot open and shut the same pad") {
  ElementaryChange opens{.kind = ChangeKind::opens,
                         .touch = toy_one,
                         .pad = PadId(1),
                         .beside = {},
                         .finger = Finger::L1,
                         .price = PriceClass::middle};
  ElementaryChange closes = opens;
  closes.kind = ChangeKind::closes;
  CHECK_FALSE(agree(opens, closes));
  CHECK_FALSE(agree(opens, opens));
  closes.pad = PadId(2);
  CHECK(agree(opens, closes));
}

TEST_CASE("where nothing is hard there is nothing to search for") {
  Repertoire easy;
  easy.pieces = {made_piece({"C4", "B3"}, 1, 1)};
  const SearchResult result = search_conversions(toy_played(toy_instrument()), easy, {}, one_by_one);
  CHECK(result.pairs.empty());
  CHECK(result.proposed.empty());
  CHECK(result.changes == 10);
}

TEST_CASE("for the low register the search rediscovers linkages that make the impossible trill go") {
  const Played& stock = own_played("bassoon");
  const SearchResult result = search_conversions(stock, low_shake(), {}, one_by_one);
  REQUIRE_FALSE(result.pairs.empty());
  CHECK(result.pairs[0].low == pitch_named("Db2"));
  CHECK(result.pairs[0].high == pitch_named("Eb2"));
  REQUIRE_FALSE(result.proposed.empty());
  // The linkage of the trade: the low D-flat key frees the E-flat pad as well, and the low C key holds it shut.
  const Instrument& bassoon = stock.instrument;
  const PadId eflat = find_pad(bassoon, "low-eflat").value();
  const TouchId dflat_key = touch_named(bassoon, "L4.low-dflat");
  const TouchId c_key = touch_named(bassoon, "LT.low-c");
  const auto linkage = std::ranges::find_if(result.proposed, [&](const ProposedSet& set) {
    return set.changes.size() == 2 &&
           std::ranges::any_of(set.changes,
                               [&](const ElementaryChange& c) {
                                 return c.kind == ChangeKind::opens && c.touch == dflat_key && c.pad == eflat;
                               }) &&
           std::ranges::any_of(set.changes, [&](const ElementaryChange& c) {
             return c.kind == ChangeKind::closes && c.touch == c_key && c.pad == eflat;
           });
  });
  REQUIRE(linkage != result.proposed.end());
  CHECK(verdict(stock.hand.numbers(), result.pairs[0].rate) == Verdict::out_of_reach);
  CHECK(verdict(stock.hand.numbers(), linkage->rates[0]) < Verdict::out_of_reach);
  CHECK(finding(linkage->balance) == PayoffFinding::pays);
  for (const ProposedSet& set : result.proposed) CHECK(set.changes.size() <= 3);
}

TEST_CASE("the search finds the same whatever the order its jobs are done in") {
  const Played& stock = own_played("bassoon");
  SearchLimits small;
  small.trials = 300;
  small.full = 3;
  const SearchResult a = search_conversions(stock, low_shake(), small, one_by_one);
  const SearchResult b = search_conversions(stock, low_shake(), small, backwards);
  REQUIRE(a.proposed.size() == b.proposed.size());
  CHECK(a.tried == b.tried);
  CHECK(a.tried <= 300 * a.pairs.size());
  for (std::size_t i = 0; i < a.proposed.size(); ++i) CHECK(a.proposed[i].changes == b.proposed[i].changes);
}
