// What sets of conversions do for a repertoire, with outcomes made by hand.
#include "fingerway/decide/payoff.hpp"

#include <catch2/catch.hpp>

#include "decide/payoff_toy.hpp"

using namespace fingerway;

namespace {

constexpr Verdict fluent = Verdict::fluent;
constexpr Verdict workable = Verdict::workable;
constexpr Verdict laborious = Verdict::laborious;
constexpr Verdict out_of_reach = Verdict::out_of_reach;

std::vector<Variant> stock_and(std::vector<std::optional<double>> costs) {
  std::vector<Variant> variants = {priced_variant({}, 0.0)};
  for (std::size_t i = 0; i < costs.size(); ++i) variants.push_back(priced_variant({i}, costs[i]));
  return variants;
}

Payoff payoff_of(const Repertoire& repertoire, const std::vector<Variant>& variants, const OutcomeGrid& outcomes,
                 std::optional<double> budget = {}, const std::vector<OutcomeGrid>& worlds = {}) {
  return payoff({.repertoire = repertoire,
                 .variants = variants,
                 .outcomes = outcomes_of(outcomes, worlds),
                 .worlds = worlds.size(),
                 .budget = budget});
}

/// The first conversion beside the stock instrument, in full.
SetInFull first_set(const Repertoire& repertoire, const OutcomeGrid& outcomes) {
  const std::vector<Variant> variants = stock_and({100.0});
  return set_in_full({.repertoire = repertoire,
                      .variants = variants,
                      .outcomes = [&](std::size_t, std::size_t variant) { return outcomes[variant]; },
                      .worlds = 0,
                      .budget = {}},
                     outcomes.front(), 1);
}

Repertoire two_pieces() {
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"B3", "C4"}, 2, 3), made_piece({"B3", "C4", "B3"}, 1, 1)};
  return repertoire;
}

/// Two notes, one piece that counts once.
struct OneEach {
  Repertoire repertoire;
  OutcomeGrid outcomes;

  explicit OneEach(const std::vector<int>& points) {
    repertoire.pieces = {made_piece({"B3", "C4"}, 1, 1)};
    for (int p : points) outcomes.push_back({made_outcome(p, {fluent, fluent})});
  }
};

}  // namespace

TEST_CASE("a gain is the points saved, times weight, times how often it is played") {
  const Repertoire repertoire = two_pieces();
  const OutcomeGrid outcomes = {{made_outcome(100, {fluent, fluent}), made_outcome(50, {fluent, fluent, fluent})},
                                {made_outcome(70, {fluent, fluent}), made_outcome(60, {fluent, fluent, fluent})}};
  const Payoff result = payoff_of(repertoire, stock_and({100.0}), outcomes);
  // 2 x 3 x (100 - 70) = 180; 1 x 1 x (50 - 60) = -10; of 6 x 100 + 50 = 650 points.
  const SetInFull in_full = first_set(repertoire, outcomes);
  CHECK(in_full.pieces[0].balance.gain == Approx(180));
  CHECK(in_full.pieces[1].balance.gain == Approx(-10));
  CHECK(result.sets[1].balance.gain == Approx(170));
  CHECK(result.sets[1].balance.stock_points == Approx(650));
  CHECK(result.sets[1].balance.share() == Approx(170.0 / 650.0));
  CHECK(result.sets[0].balance.gain == 0.0);
}

TEST_CASE("a conversion that changes nothing pays nothing") {
  const Repertoire repertoire = two_pieces();
  const std::vector<PassageOutcome> same = {made_outcome(100, {fluent, out_of_reach}),
                                            made_outcome(50, {fluent, laborious, fluent})};
  const Payoff result = payoff_of(repertoire, stock_and({100.0}), {same, same}, {}, {{same, same}});
  CHECK(result.sets[1] == result.sets[0]);
  CHECK(result.sets[1].balance.gain == 0.0);
  CHECK(finding(result.sets[1].balance) == PayoffFinding::no_difference);
  CHECK(result.sets[1].relieved == 0);
  CHECK(result.sets[1].spoiled == 0);
  CHECK(result.sets[1].changed_share == 0.0);
  const SetInFull set = first_set(repertoire, {same, same});
  CHECK(set.relearning.changed == 0.0);
  CHECK(set.relearning.frequent_changed == 0);
  CHECK(set.habits.empty());
  CHECK(set.lost.empty());
  CHECK(result.best == 0);
  CHECK(result.front == std::vector<std::size_t>{0});
  CHECK(result.standing[1].pays == 0);
}

TEST_CASE("only notes that cross from hard to good are relieved, and the other way spoiled") {
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"B3", "C4", "B3", "C4", "B3", "C4"}, 1, 5)};
  const OutcomeGrid outcomes = {
      {made_outcome(100, {out_of_reach, laborious, out_of_reach, workable, fluent, laborious})},
      {made_outcome(50, {fluent, workable, laborious, fluent, out_of_reach, out_of_reach})}};
  const Payoff result = payoff_of(repertoire, stock_and({100.0}), outcomes);
  const SetInFull set = first_set(repertoire, outcomes);
  REQUIRE(set.relieved.size() == 2);
  CHECK(set.relieved[0].site == NoteSite{.piece = 0, .note = 0});
  CHECK(set.relieved[0].before == out_of_reach);
  CHECK(set.relieved[0].after == fluent);
  CHECK(set.relieved[1].site.note == 1);
  REQUIRE(set.spoiled.size() == 1);
  CHECK(set.spoiled[0].site.note == 4);
  CHECK(result.sets[1].relieved == 2);
  CHECK(result.sets[1].spoiled == 1);
  CHECK(result.sets[1].helped == 1);
  CHECK(result.sets[1].balance.relieved == 10.0);
  CHECK(result.sets[1].balance.spoiled == 5.0);
  CHECK(finding(result.sets[1].balance) == PayoffFinding::pays);
}

TEST_CASE("a turn tells the milliseconds of a change, the rate of a trill, or that there is no fingering") {
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"B3", "C4", "B3"}, 1, 1)};
  repertoire.pieces[0].passage.notes[1].other = spelled("D4");
  PassageOutcome before = made_outcome(100, {out_of_reach, out_of_reach, out_of_reach});
  before.notes[0].arrive = OutcomeChange{.time_ms = 600.0, .available_ms = 500.0, .possible = true};
  before.notes[1].other = Fingering{};
  before.notes[1].rate = 2.5;
  before.notes[2].fingering.reset();
  PassageOutcome after = made_outcome(50, {fluent, fluent, fluent});
  after.notes[1].other = Fingering{};
  after.notes[1].rate = 9.0;
  const std::vector<Turn> turns = first_set(repertoire, {{before}, {after}}).relieved;
  REQUIRE(turns.size() == 3);
  CHECK(turns[0].hardship == Hardship::change);
  CHECK(turns[0].before_figure == 600.0);
  CHECK(turns[0].after_figure == 50.0);
  CHECK(turns[0].available_ms == 500.0);
  CHECK(turns[1].hardship == Hardship::trill);
  CHECK(turns[1].before_figure == 2.5);
  CHECK(turns[1].after_figure == 9.0);
  CHECK(turns[2].hardship == Hardship::no_fingering);
  CHECK_FALSE(turns[2].before_figure.has_value());
}

TEST_CASE("adding a passage never changes another's figures") {
  const Repertoire both = two_pieces();
  Repertoire first = both;
  first.pieces.pop_back();
  const OutcomeGrid outcomes = {
      {made_outcome(100, {fluent, out_of_reach}), made_outcome(50, {laborious, fluent, fluent})},
      {made_outcome(70, {fluent, workable}), made_outcome(60, {fluent, fluent, out_of_reach})}};
  const OutcomeGrid of_first = {{outcomes[0][0]}, {outcomes[1][0]}};
  const SetInFull all = first_set(both, outcomes);
  const SetInFull one = first_set(first, of_first);
  CHECK(all.pieces[0] == one.pieces[0]);
  CHECK(all.relieved[0] == one.relieved[0]);
}

TEST_CASE("what a balance comes to") {
  const auto of = [](double gain, double relieved, double spoiled) {
    return finding({.stock_points = 100.0, .gain = gain, .relieved = relieved, .spoiled = spoiled});
  };
  CHECK(of(2.0, 1, 0) == PayoffFinding::pays);
  CHECK(of(2.0, 0, 0) == PayoffFinding::easier);
  CHECK(of(50.0, 1, 1) == PayoffFinding::easier);
  CHECK(of(1.9, 1, 0) == PayoffFinding::no_difference);
  CHECK(of(0.0, 0, 0) == PayoffFinding::no_difference);
  CHECK(of(1.9, 0, 1) == PayoffFinding::harder);
  CHECK(of(-2.0, 5, 0) == PayoffFinding::harder);
  CHECK(finding({}) == PayoffFinding::no_difference);
}

TEST_CASE("the best set is the greatest gain that the budget allows, at its highest cost") {
  const OneEach made({100, 90, 60, 95});
  const auto variants = stock_and({50.0, 200.0, 10.0});
  CHECK(payoff_of(made.repertoire, variants, made.outcomes).best == 2);
  CHECK(payoff_of(made.repertoire, variants, made.outcomes, 200.0).best == 2);
  CHECK(payoff_of(made.repertoire, variants, made.outcomes, 199.0).best == 1);
  CHECK(payoff_of(made.repertoire, variants, made.outcomes, 49.0).best == 3);
  CHECK(payoff_of(made.repertoire, variants, made.outcomes, 9.0).best == 0);
}

TEST_CASE("of equal gains the cheaper set is the best; one of unknown cost is within no budget") {
  const OneEach made({100, 60, 60, 40});
  const auto variants = stock_and({50.0, 20.0, std::nullopt});
  CHECK(payoff_of(made.repertoire, variants, made.outcomes, 1000.0).best == 2);
  CHECK(payoff_of(made.repertoire, variants, made.outcomes).best == 3);
}

TEST_CASE("where every set costs more than it saves, the stock instrument is the best") {
  const OneEach made({100, 110, 100});
  CHECK(payoff_of(made.repertoire, stock_and({50.0, 20.0}), made.outcomes).best == 0);
}

TEST_CASE("a set is taken as it was planned: worse than its best member, it is not the best") {
  const OneEach made({100, 60, 80, 70});
  std::vector<Variant> variants = stock_and({50.0, 20.0});
  variants.push_back(priced_variant({0, 1}, 70.0));
  const Payoff result = payoff_of(made.repertoire, variants, made.outcomes);
  CHECK(result.best == 1);
  CHECK(result.sets[3].balance.gain == Approx(30));
}

TEST_CASE("the front holds the sets that no other beats in cost and gain") {
  const OneEach made({100, 90, 95, 50, 50});
  const auto variants = stock_and({50.0, 60.0, 200.0, 300.0});
  CHECK(payoff_of(made.repertoire, variants, made.outcomes).front == std::vector<std::size_t>{0, 1, 3});
}

TEST_CASE("on the front a set stands by the most it may cost") {
  const OneEach made({100, 50, 90});
  auto variants = stock_and({100.0, 50.0});
  variants[1].cost.low = 10.0;
  variants[2].cost.low = 20.0;
  CHECK(payoff_of(made.repertoire, variants, made.outcomes).front == std::vector<std::size_t>{0, 2, 1});
}

TEST_CASE("standing counts the sampled worlds in which a conclusion comes out again") {
  Repertoire repertoire;
  repertoire.pieces = {made_piece({"B3", "C4"}, 1, 1)};
  const auto grid = [](int stock, int converted, Verdict before) {
    return OutcomeGrid{{made_outcome(stock, {fluent, before})}, {made_outcome(converted, {fluent, fluent})}};
  };
  const Payoff result = payoff_of(repertoire, stock_and({100.0}), grid(100, 80, out_of_reach), {},
                                  {grid(200, 100, laborious), grid(100, 90, fluent), grid(100, 130, fluent)});
  CHECK(result.worlds == 3);
  CHECK(result.standing[1].pays == 1);
  CHECK(result.standing[1].same_finding == 1);
  CHECK(result.standing[1].best == 2);
  CHECK(result.standing[0].best == 1);
  CHECK(result.standing[1].least_share == Approx(-0.3));
  CHECK(result.standing[1].greatest_share == Approx(0.5));
  CHECK(result.standing[1].pieces == std::vector<std::size_t>{1});
}

TEST_CASE("all subsets stand in one order, small ones first") {
  using Sets = std::vector<std::vector<std::size_t>>;
  CHECK(subsets(0) == Sets{{}});
  CHECK(subsets(3) == Sets{{}, {0}, {1}, {2}, {0, 1}, {0, 2}, {1, 2}, {0, 1, 2}});
  CHECK(subsets(most_conversions).size() == 4096);
}

TEST_CASE("a set costs and weighs the sum of its conversions") {
  Instrument toy = toy_instrument();
  CHECK(cost_of(toy) == SetCost{});
  ConversionSheet a;
  a.cost_low = 100.0;
  a.cost_high = 150.0;
  a.currency = "EUR";
  a.grams = 10.0;
  a.hours = 2.0;
  ConversionSheet b = a;
  b.cost_low.reset();
  toy.conversions = {a, b};
  const SetCost both = cost_of(toy);
  CHECK(both.known);
  CHECK(both.low == 250.0);
  CHECK(both.high == 300.0);
  CHECK(both.grams == 20.0);
  CHECK(both.hours == 4.0);
  toy.conversions[1].currency = "USD";
  CHECK_FALSE(cost_of(toy).known);
  CHECK(within(both, {}));
  CHECK(within(both, 300.0));
  CHECK_FALSE(within(both, 299.0));
}
