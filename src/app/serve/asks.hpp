// What this part answers: what the page asks for, as plain values read from JSON. It is strict: unknown fields, wrong
// types and numbers out of range are faults that name the field. It looks nothing up.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/requests.hpp"
#include "fingerway/report/choice_marks.hpp"
#include "fingerway/report/lanes.hpp"

namespace fingerway {

struct AskedPin {
  std::size_t note = 0;
  std::vector<std::string> press, half, flick;
  bool whole = true;
};

struct AskedStretch {
  std::size_t first = 0;
  std::size_t last = 0;
  std::vector<std::string> touches;
};

struct AskedChoices {
  std::vector<AskedPin> pins;
  std::vector<AskedStretch> bans;
  std::vector<AskedStretch> holds;
};

/// A passage of a score that was brought, on one instrument or two.
struct PlanAsk {
  std::string score;     ///< token
  ScoreRequest passage;  ///< without file
  PlayedRequest played;
  std::string with;  ///< the second instrument; empty: none
  bool smoothest = false;
  AskedChoices choices;
  AskedChoices second_choices;
};
[[nodiscard]] PlanAsk parse_plan_ask(std::string_view body);

struct EngravingAsk {
  std::string plan;  ///< token; empty: `passage` says what to engrave, without marks
  std::size_t side = 0;
  std::optional<MarkWhich> marks;
  PlanAsk passage;
};
[[nodiscard]] EngravingAsk parse_engraving_ask(std::string_view body);

struct LanesAsk {
  std::string plan;
  std::vector<LaneSpan> spans;
};
[[nodiscard]] LanesAsk parse_lanes_ask(std::string_view body);

struct NoteAsk {
  std::string plan;
  std::size_t side = 0;
  std::size_t note = 0;
  std::size_t most = 8;
  double width = 480;
};
[[nodiscard]] NoteAsk parse_note_ask(std::string_view body);

struct TrillAsk {
  PlayedRequest played;
  int widest = 12;
  std::string from, to;  ///< empty where all are asked for
  double width = 480;
};
[[nodiscard]] TrillAsk parse_trills_ask(std::string_view body);
[[nodiscard]] TrillAsk parse_trill_ask(std::string_view body);

/// A choices file's text for a plan that is kept.
struct ChoicesAsk {
  std::string plan;
  std::size_t side = 0;
  std::string text;
};
[[nodiscard]] ChoicesAsk parse_choices_ask(std::string_view body);

/// A line of the engraving as the page drew it, with the lanes that belong under it.
struct EngravedSystem {
  std::string svg;
  LaneSpan span;
};

struct SaveAsk {
  std::string plan;
  std::size_t side = 0;
  std::string kind;  ///< "musicxml", "choices", "json", "csv", "page"
  MarkWhich marks = MarkWhich::choices;
  std::vector<EngravedSystem> systems;
};
[[nodiscard]] SaveAsk parse_save_ask(std::string_view body);

/// One field that is a text: {"demo": "..."}, {"pupil": "..."}.
[[nodiscard]] std::string parse_one_text(std::string_view body, const std::string& field);

}  // namespace fingerway
