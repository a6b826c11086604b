// What this part answers: one instrument as plain values: pads, touches, rules, grips, and the fingering table.
// It computes nothing (mechanism does) and reads nothing (read does). A conversion is already laid over it.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/base/ids.hpp"
#include "fingerway/base/quantities.hpp"
#include "fingerway/instrument/evidence.hpp"
#include "fingerway/instrument/finger.hpp"
#include "fingerway/music/pitch.hpp"

namespace fingerway {

using TouchId = Id<struct TouchTag>;
using PadId = Id<struct PadTag>;
using LatchId = Id<struct LatchTag>;
using TouchSet = IdSet<TouchId>;
using PadSet = IdSet<PadId>;
using LatchSet = IdSet<LatchId>;

/// A place on the instrument: `along` the body from the reed or head down, `across` it to the player's right.
struct Spot {
  Mm along;
  Mm across;

  friend bool operator==(const Spot&, const Spot&) = default;
};

enum class PadRest : std::uint8_t { open, closed };
/// A tone hole decides the note; a vent helps a register or a high note speak; the open end is the bell or foot.
enum class PadKind : std::uint8_t { tone_hole, vent, open_end };

/// A pad over a hole, or a bare finger hole.
struct Pad {
  std::string id;
  std::string label;  ///< for people: "low E-flat pad"
  PadKind kind = PadKind::tone_hole;
  PadRest rest = PadRest::open;
  /// Springs open by itself once its lever lets go, so that another key may hold it shut without fighting a finger.
  bool springs_open = false;
  /// An opening rule beats a closing one on this pad (the exception; elsewhere closing wins).
  bool opening_wins = false;
  Evidence evidence;

  friend bool operator==(const Pad&, const Pad&) = default;
};

/// A touchpiece: what one finger presses.
struct Touch {
  Finger finger = Finger::L1;
  std::string name;   ///< unique within its finger: "low-eflat"
  std::string label;  ///< for people: "low E-flat"
  Spot spot;
  Mm width{10.0};              ///< of the target the finger aims at
  bool spot_measured = false;  ///< false: the place is assumed
  bool can_be_half = false;    ///< over an open hole, or a plate that players half-press
  bool removed = false;        ///< taken off by a conversion; kept so that indices stay
  std::string from;            ///< the conversion that added it; empty for the stock instrument
  Evidence evidence;

  friend bool operator==(const Touch&, const Touch&) = default;
};

/// A linkage: when all of `when` are held and none of `unless`, these pads open or close. Closing wins.
struct Rule {
  TouchSet when;
  TouchSet unless;
  PadSet opens;
  PadSet closes;
  std::string from;  ///< the conversion that added it; empty for the stock instrument
  Evidence evidence;

  friend bool operator==(const Rule&, const Rule&) = default;
};

/// Touches of one finger that it can hold together. Every single touch is a grip without being declared.
struct Grip {
  TouchSet touches;
  Evidence evidence;

  friend bool operator==(const Grip&, const Grip&) = default;
};

/// Two touches of one finger so near that the finger slides from one to the other.
struct Slide {
  TouchId a;
  TouchId b;
  bool roller = false;
  bool one_plate = false;  ///< both are parts of one plate: the finger rolls over and lets nothing go
  std::string from;
  Evidence evidence;

  friend bool operator==(const Slide&, const Slide&) = default;
};

/// A lock set before playing.
struct Latch {
  std::string id;
  std::string label;
  PadSet opens;
  PadSet closes;
  Evidence evidence;

  friend bool operator==(const Latch&, const Latch&) = default;
};

/// What the hand does for one note. `half` is a part of `pressed`; `flicked` is pressed at the start of the note only.
struct Fingering {
  TouchSet pressed;
  TouchSet half;
  TouchSet flicked;

  friend auto operator<=>(const Fingering&, const Fingering&) = default;
};

enum class Standing : std::uint8_t { standard, alternate, trill_only };
/// What a source says of how a fingering sounds, in words; numbers where there are any stand in `cents`.
enum class Trait : std::uint8_t { sharp, flat, soft, stuffy, unstable, stable, resonant, resistant };

/// How a fingering comes by its note, where that is not simply the next hole: a fork's note is pulled down by shut
/// holes below an open one, a long one adds keys for a fuller sound, a muted one for a softer, a harmonic is overblown.
enum class Way : std::uint8_t { plain, forked, full, muted, harmonic };

/// One line of the fingering table.
struct TableFingering {
  WrittenPitch pitch;
  Spelling spelling;  ///< as the table prints the note
  int reg = 1;        ///< register; decides which pads matter (Instrument::registers)
  Fingering fingering;
  TouchSet optional_touches;  ///< what these do to the pads does not matter for this line
  Standing standing = Standing::standard;
  Way way = Way::plain;
  int partial = 0;                         ///< of a harmonic: the partial of `partial_of`'s fingering that sounds
  std::optional<WrittenPitch> partial_of;  ///< of a harmonic
  std::optional<WrittenPitch> partner;     ///< the lower note whose touches these are but for vents, by the trade
  std::vector<Trait> traits;
  std::optional<Cents> cents;
  std::string mark;  ///< what a player would pencil in; may be empty
  std::string remark;
  bool confirmed_whole = true;  ///< false: the source gives only part of the fingering
  std::string from;             ///< the conversion that added it: pressed on the converted mechanism
  Evidence evidence;

  friend bool operator==(const TableFingering&, const TableFingering&) = default;
};

/// Which pads decide the note in one register.
struct RegisterRule {
  int reg = 1;
  /// Pads matter down to this many open tone holes from the top; 0: all pads matter.
  /// Up to the first open hole every pad must agree; below it only open holes must stay open.
  int open_holes_that_matter = 0;
  Evidence evidence;

  friend bool operator==(const RegisterRule&, const RegisterRule&) = default;
};

/// What a conversion costs and asks, carried along for reports.
struct ConversionSheet {
  std::string id;
  std::string name;
  std::string what;
  std::optional<double> cost_low;
  std::optional<double> cost_high;
  std::string currency;
  std::optional<double> grams;
  std::optional<double> hours;
  std::string figures_basis;      ///< "invented" or "common practice"
  std::vector<std::string> work;  ///< steps for the repairer
  std::vector<std::string> upkeep;

  friend bool operator==(const ConversionSheet&, const ConversionSheet&) = default;
};

/// A whole instrument, conversions laid over it.
struct Instrument {
  std::string id;      ///< the stock instrument's id: "bassoon"
  std::string family;  ///< the instrument whose mechanism and conversions it shares; its own id where it stands alone
  std::string name;
  std::string file;
  std::vector<std::string> score_names = {};   ///< what scores call its part: "Bassoon", "Fg."
  std::vector<std::string> score_sounds = {};  ///< its MusicXML sound ids
  std::vector<ConversionSheet> conversions;    ///< in the order they were laid over
  Transposition transposition;
  WrittenPitch lowest;
  WrittenPitch highest;
  std::vector<Pad> pads;       ///< index = PadId; stock pads first
  std::vector<PadId> bore;     ///< all pads in order from the reed or head down
  std::vector<Touch> touches;  ///< index = TouchId; stock touches first
  std::vector<Rule> rules;
  std::vector<Grip> grips;  ///< of more than one touch
  std::vector<Slide> slides;
  std::vector<Latch> latches;
  LatchSet engaged;  ///< latches set before playing
  std::vector<RegisterRule> registers;
  std::vector<TableFingering> table;  ///< table order is the order of preference among equals
  /// The mechanism the table was written for: the stock instrument's rules and rest states.
  std::vector<Rule> table_rules;
  PadSet table_rest_closed;  ///< pads closed at rest on the stock instrument
  PadSet table_pads;         ///< pads that the stock instrument has
};

/// "L4.low-eflat".
[[nodiscard]] std::string full_name(const Touch& touch);
[[nodiscard]] std::optional<TouchId> find_touch(const Instrument& instrument, std::string_view full_name);
[[nodiscard]] std::optional<PadId> find_pad(const Instrument& instrument, std::string_view id);
[[nodiscard]] std::optional<LatchId> find_latch(const Instrument& instrument, std::string_view id);
/// "bassoon+interlinked-low-keys".
[[nodiscard]] std::string stacked_id(const Instrument& instrument);
/// The touches of one finger that are there to be pressed.
[[nodiscard]] TouchSet touches_of(const Instrument& instrument, Finger finger);
/// The part of a set of touches that one finger works.
[[nodiscard]] TouchSet held_by(const Instrument& instrument, TouchSet touches, Finger finger);

}  // namespace fingerway
