// Judges all statements of tests/reference with the numbers of instruments/motion.yaml, prints how far the program
// agrees, instrument by instrument, and every miss with the reason. Started by tools/agreement.
#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <iostream>
#include <list>
#include <map>
#include <set>

#include "agreement/score.hpp"
#include "fingerway/base/errors.hpp"

using namespace fingerway;

namespace {

const std::vector<std::string> every_family = {"bassoon", "clarinet", "saxophone", "flute", "oboe"};

struct Row {
  Share choices;
  Share sure_choices;  ///< of high confidence
  Share choices_with_doubts;
  std::vector<JudgedTrill> trills;
  std::vector<JudgedTrill> trills_with_doubts;

  void add(const Row& other) {
    for (auto [to, from] : {std::pair{&choices, &other.choices},
                            {&sure_choices, &other.sure_choices},
                            {&choices_with_doubts, &other.choices_with_doubts}}) {
      to->met += from->met;
      to->all += from->all;
    }
    trills.insert(trills.end(), other.trills.begin(), other.trills.end());
    trills_with_doubts.insert(trills_with_doubts.end(), other.trills_with_doubts.begin(),
                              other.trills_with_doubts.end());
  }
};

Share sides(const std::vector<JudgedTrill>& trills) {
  Share share;
  for (const JudgedTrill& t : trills) share.add(right_side(t.statement->said, t.verdict));
  return share;
}

std::string share_words(const Share& share) {
  return fmt::format("{:3} of {:3} {:5.1f} %", share.met, share.all, 100.0 * share.value());
}

class Agreement {
 public:
  Agreement(std::filesystem::path project, Level level)
      : project_(std::move(project)),
        level_(level),
        numbers_(read_motion_numbers(project_ / "instruments" / "motion.yaml")) {}

  Row judge_family(const std::string& family, bool tell_all) {
    statements_.push_back(read_statements(project_ / "tests" / "reference", family));
    Row row;
    std::cout << family << '\n';
    for (const ChoiceRule& rule : statements_.back().choices) judge_choice(rule, row, tell_all);
    for (const TrillStatement& statement : statements_.back().trills) judge_trill(statement, row, tell_all);
    return row;
  }

 private:
  const Played* on(const StatementHead& head) {
    const auto known = played_.find(head.instrument);
    if (known != played_.end()) return &known->second;
    try {
      Instrument instrument = read_instrument(head.instrument, {{project_ / "instruments"}});
      return &played_.emplace(head.instrument, played(std::move(instrument), numbers_, level_)).first->second;
    } catch (const InputError& error) {
      std::cout << "  not judged: " << head.name << ": " << error.what() << '\n';
      return nullptr;
    }
  }

  static void tell(const StatementHead& head, const std::string& kind) {
    std::cout << fmt::format("  {} {} ({}{}): {}\n      said by: {}\n", kind, head.name, head.confidence,
                             head.doubt.empty() ? "" : ", in doubt: " + head.doubt, head.says, head.source);
  }

  void judge_choice(const ChoiceRule& rule, Row& row, bool tell_all) {
    const Played* played = on(rule.head);
    if (played == nullptr) return;
    const ChoiceVerdict verdict = judge(*played, rule);
    row.choices_with_doubts.add(verdict.met);
    if (counts(rule.head)) {
      row.choices.add(verdict.met);
      if (rule.head.confidence == "high") row.sure_choices.add(verdict.met);
    }
    if (verdict.met && tell_all) {
      std::cout << fmt::format("  met {} by {}\n", rule.head.name,
                               verdict.margin ? fmt::format("{:.1f} points", verdict.margin->value()) : "necessity");
    }
    if (verdict.met) return;
    tell(rule.head, "choice not met:");
    std::cout << reasons(*played, rule, verdict);
  }

  void judge_trill(const TrillStatement& statement, Row& row, bool tell_all) {
    const Played* played = on(statement.head);
    if (played == nullptr) return;
    const NotesPerSecond rate = judge(*played, statement);
    const JudgedTrill judged{.statement = &statement, .rate = rate, .verdict = verdict(numbers_, rate)};
    row.trills_with_doubts.push_back(judged);
    if (counts(statement.head)) row.trills.push_back(judged);
    const bool right = right_side(statement.said, judged.verdict);
    if (right && !tell_all) return;
    tell(statement.head, right ? "trill" : "trill on the wrong side:");
    std::cout << fmt::format("      {} to {}: said {}, found {} at {:.2f} notes a second\n",
                             name(chart_spelling(statement.from)), name(chart_spelling(statement.to)),
                             words(statement.said), words(judged.verdict), rate.value());
  }

  std::filesystem::path project_;
  Level level_;
  MotionNumbers numbers_;
  std::map<std::string, Played> played_;
  std::list<Statements> statements_;  ///< judged trills point into it
};

void print_table(const std::vector<std::pair<std::string, Row>>& rows) {
  std::cout << fmt::format("\n{:12} {:18} {:18} {:18} {:18} {:5}\n", "", "choices", "of high conf.", "with doubts",
                           "trills: side", "rank");
  for (const auto& [title, row] : rows) {
    std::cout << fmt::format("{:12} {:18} {:18} {:18} {:18} {:5.3f}\n", title, share_words(row.choices),
                             share_words(row.sure_choices), share_words(row.choices_with_doubts),
                             share_words(sides(row.trills)), rank_agreement(row.trills).value());
  }
  const Row& total = rows.back().second;
  std::cout << fmt::format("\nTrills with doubtful ones: {}, rank {:.3f}\n",
                           share_words(sides(total.trills_with_doubts)),
                           rank_agreement(total.trills_with_doubts).value());
}

}  // namespace

int main(int argc, char** argv) {
  CLI::App app("How far the program agrees with what teachers, players and handbooks say.");
  std::vector<std::string> families = every_family;
  std::string project = ".";
  std::string level = "amateur";
  bool tell_all = false;
  app.add_option("families", families, "Only these instruments");
  app.add_option("--project", project, "The project's folder");
  app.add_option("--level", level)->check(CLI::IsMember({"professional", "amateur", "beginner"}));
  app.add_flag("--all", tell_all, "Tell of what agrees as well");
  CLI11_PARSE(app, argc, argv);
  try {
    const Level at = level == "professional" ? Level::professional
                     : level == "beginner"   ? Level::beginner
                                             : Level::amateur;
    Agreement agreement(project, at);
    std::vector<std::pair<std::string, Row>> rows;
    Row total;
    for (const std::string& family : families) {
      rows.emplace_back(family, agreement.judge_family(family, tell_all));
      total.add(rows.back().second);
    }
    rows.emplace_back("all", std::move(total));
    print_table(rows);
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 2;
  }
  return 0;
}
