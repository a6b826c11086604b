// What teachers, players and handbooks say, in tests/reference with their sources, beside what the program does at
// amateur level. The floors are a little below what tools/agreement prints, so that agreement that is lost is seen.
#include <catch2/catch.hpp>

#include <iostream>

#include "agreement/score.hpp"

using namespace fingerway;

namespace {

const std::vector<std::string> families = {"bassoon", "clarinet", "saxophone", "flute", "oboe"};

Statements statements_of(const std::string& family) {
  return read_statements(project_folder() / "tests" / "reference", family);
}

}  // namespace

TEST_CASE("the plans finger as teachers say") {
  Share sure;
  Share all;
  for (const std::string& family : families) {
    const Statements statements = statements_of(family);
    CHECK(statements.choices.size() >= 15);
    for (const ChoiceRule& rule : statements.choices) {
      if (!counts(rule.head)) continue;
      const bool met = judge(own_played(rule.head.instrument), rule).met;
      all.add(met);
      if (rule.head.confidence == "high") sure.add(met);
      if (!met) std::cout << "not as said: " << family << ' ' << rule.head.name << ": " << rule.head.says << '\n';
    }
  }
  CHECK(sure.all >= 90);
  CHECK(sure.value() >= 0.95);
  CHECK(all.value() >= 0.93);
}

TEST_CASE("trills fall on the side of playable or not where the trade puts them, and in its order") {
  Share sides;
  std::vector<JudgedTrill> judged;
  std::vector<Statements> kept;
  kept.reserve(families.size());
  for (const std::string& family : families) {
    kept.push_back(statements_of(family));
    CHECK(kept.back().trills.size() >= 10);
    for (const TrillStatement& statement : kept.back().trills) {
      if (!counts(statement.head)) continue;
      const NotesPerSecond rate = judge(own_played(statement.head.instrument), statement);
      const Verdict found = verdict(own_numbers(), rate);
      judged.push_back({.statement = &statement, .rate = rate, .verdict = found});
      sides.add(right_side(statement.said, found));
      if (right_side(statement.said, found)) continue;
      std::cout << "not as said: " << family << ' ' << statement.head.name << ": " << statement.head.says << ' '
                << rate.value() << " notes/s\n";
    }
  }
  CHECK(sides.all >= 60);
  CHECK(sides.value() >= 0.93);
  CHECK(rank_agreement(judged).value() >= 0.9);
}

TEST_CASE("rank agreement is 1 for rates in the trade's order, 0 for the reverse, a half for equal ones") {
  const auto said = [](Said s) {
    return TrillStatement{.head = {}, .kind = Between::trill, .from = {}, .to = {}, .said = s};
  };
  const TrillStatement good = said(Said::good);
  const TrillStatement hard = said(Said::very_difficult);
  const auto at = [](const TrillStatement& s, double rate) {
    return JudgedTrill{.statement = &s, .rate = NotesPerSecond(rate), .verdict = Verdict::fluent};
  };
  CHECK(rank_agreement({at(good, 9), at(hard, 5)}).value() == 1.0);
  CHECK(rank_agreement({at(good, 5), at(hard, 9)}).value() == 0.0);
  CHECK(rank_agreement({at(good, 7), at(hard, 7)}).value() == 0.5);
}
