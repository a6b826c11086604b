// What this part answers: what teachers, players and handbooks say, as read from tests/reference: which fingering to
// choose in a context, and which trills, tremolos and slurs go well. It judges nothing (judge.hpp).
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "fingerway/music/pitch.hpp"
#include "fingerway/music/score_time.hpp"
#include "support/passages.hpp"

namespace fingerway {

/// What every statement says of itself.
struct StatementHead {
  std::string family;      ///< "clarinet": the instrument it is about
  std::string instrument;  ///< what to judge it on: the family, or the family with a conversion
  std::string name;        ///< "12a", unique within its family and kind
  std::string says;
  std::string source;
  std::string confidence;  ///< "high", "medium", "low"
  std::string doubt;       ///< why it should not be scored; empty where nothing speaks against it
};

/// What must be pressed or flicked at one note of a passage: one of `press` (if there are any), none of `without`.
struct Wish {
  std::size_t note = 0;
  std::vector<std::vector<std::string>> press;
  std::vector<std::vector<std::string>> without;
};

struct ChoiceRule {
  StatementHead head;
  std::vector<std::string> notes;
  NoteRow row;
  std::vector<Wish> wishes;
};

/// From easy to hard.
enum class Said : std::uint8_t { good, awkward, very_difficult, impossible };
[[nodiscard]] std::string_view words(Said said);
enum class Between : std::uint8_t { trill, tremolo, slur };
/// Trills and tremolos go back and forth; a slur is done once, and its rate cannot be put in one order with theirs.
[[nodiscard]] constexpr bool comparable(Between a, Between b) { return (a == Between::slur) == (b == Between::slur); }

struct TrillStatement {
  StatementHead head;
  Between kind = Between::trill;
  WrittenPitch from;
  WrittenPitch to;
  Said said = Said::good;
};

struct Statements {
  std::vector<ChoiceRule> choices;
  std::vector<TrillStatement> trills;
};

/// Everything in tests/reference/FAMILY_choices.yaml and FAMILY_trills.yaml; a family without files has none.
/// Throws std::runtime_error naming file, statement and what is wrong.
[[nodiscard]] Statements read_statements(const std::filesystem::path& folder, const std::string& family);

/// True for a statement that counts: no doubt, no contradiction, at least medium confidence.
[[nodiscard]] bool counts(const StatementHead& head);

}  // namespace fingerway
