// What this part answers: where every bar, move and label of the finger lanes stands in time, as plain values.
// It draws nothing: the page turns it into SVG (src/report/lanes_svg.cpp).
#pragma once

#include <string>
#include <vector>

#include "fingerway/plan/plan.hpp"

namespace fingerway {

/// Something a finger holds, from `start` to `end`.
struct LaneBar {
  Ms start{0};
  Ms end{0};
  std::string label{};                       ///< short: "D+C"; empty for a finger's main hole
  std::string words{};                       ///< "left thumb: low D + low C, bar 1 beat 1"
  bool half = false;                         ///< the hole is half open
  bool shaken = false;                       ///< moves in a trill
  bool flicked = false;                      ///< pressed at the start of the note only
  bool cut_left = false, cut_right = false;  ///< goes on from the system before, or in the next

  friend bool operator==(const LaneBar&, const LaneBar&) = default;
};

/// A finger's move into a note: it takes from `start` to `end`, the start of the note.
struct LaneMove {
  std::size_t note = 0;
  Ms start{0};
  Ms end{0};
  MoveKind kind = MoveKind::press;
  bool upward = false;    ///< a roll that takes touches off
  Ms heard{0};            ///< of it, while the touch it leaves is still needed
  bool too_long = false;  ///< longer than the time there is
  std::string words{};

  friend bool operator==(const LaneMove&, const LaneMove&) = default;
};

struct Lane {
  Finger finger = Finger::LT;
  std::vector<LaneBar> bars;
  std::vector<LaneMove> moves;

  friend bool operator==(const Lane&, const Lane&) = default;
};

/// What the whole hand needs to get to a note, beside the time there is.
struct LaneNeed {
  std::size_t note = 0;
  Ms start{0};
  Ms end{0};
  Ms available{0};
  bool fits = true;
  bool decides = false;  ///< it sets the speed ceiling
  std::size_t rank = 0;  ///< 1 for the hardest moment, 2 for the next, ...; 0 when it is not told
  std::string words{};

  friend bool operator==(const LaneNeed&, const LaneNeed&) = default;
};

/// One instrument's lanes within a system.
struct LaneBlock {
  std::vector<Lane> lanes;  ///< fingers that change something here
  std::string stay_down;    ///< fingers that hold throughout, in words; may be empty
  std::string unused;       ///< fingers that do nothing here
  std::vector<LaneNeed> needs;

  friend bool operator==(const LaneBlock&, const LaneBlock&) = default;
};

/// A note above the lanes.
struct LaneNote {
  std::size_t note = 0;
  Ms start{0};
  Ms end{0};
  std::string name{};
  bool slurred = false;  ///< from the note before
  bool differs = false;  ///< between the two instruments
  bool playable = true;

  friend bool operator==(const LaneNote&, const LaneNote&) = default;
};

/// A bar line (with the bar's number) or a beat.
struct LaneBeat {
  Ms at{0};
  std::string bar;  ///< empty for a beat within a bar

  friend bool operator==(const LaneBeat&, const LaneBeat&) = default;
};

/// A moment and where it stands across the picture.
struct LaneAnchor {
  Ms at{0};
  double x = 0;

  friend bool operator==(const LaneAnchor&, const LaneAnchor&) = default;
};

/// As much of the passage as fits one line of the page.
struct LaneSystem {
  Ms start{0};
  Ms end{0};
  std::vector<LaneBeat> beats;
  std::vector<LaneNote> notes;
  std::vector<LaneBlock> blocks;  ///< one an instrument
  std::vector<LaneAnchor> axis;   ///< time runs evenly from one to the next; empty: evenly throughout

  friend bool operator==(const LaneSystem&, const LaneSystem&) = default;
};

/// One instrument's plan to be drawn.
struct LanePlan {
  const Played& played;
  const Plan& plan;
  std::vector<std::size_t> hardest;  ///< notes, hardest first
};

struct Lanes {
  double units_per_ms = 0.2;  ///< the same in every system, so that lengths compare
  std::vector<LaneSystem> systems;
  double width = 0;   ///< of the whole picture; 0: as the file pages have it
  bool named = true;  ///< notes carry ids, so that they can be linked to
};

/// Some notes of the passage to be drawn as one line, each under the place where an engraver put it.
struct LaneSpan {
  std::size_t first = 0;
  std::size_t last = 0;
  double width = 0;                 ///< of the picture
  std::vector<LaneAnchor> anchors;  ///< rising in time and place; none: time runs evenly
};

/// Lays out one plan, or two plans of the same passage above each other, in systems of at most `width` units. The
/// shortest usual note becomes about `note_width` units long; systems break at bar lines where they can.
[[nodiscard]] Lanes lay_out(const Passage& passage, const std::vector<LanePlan>& plans,
                            const std::vector<std::size_t>& differing, double width, double note_width);

/// The notes of a span as one system.
[[nodiscard]] Lanes lay_out(const Passage& passage, const std::vector<LanePlan>& plans,
                            const std::vector<std::size_t>& differing, const LaneSpan& span);

}  // namespace fingerway
