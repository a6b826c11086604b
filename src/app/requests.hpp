// What this part answers: what a user asks for, as values, and the passage, instrument and choices it refers to.
// The command line fills requests; it prints nothing itself.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "fingerway/plan/plan.hpp"
#include "fingerway/read/choices_file.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/musicxml.hpp"

namespace fingerway {

/// Which line of which score, from where to where, how fast.
struct ScoreRequest {
  std::string file;
  ScoreChoice choice;           ///< `wanted` is filled from the instrument
  std::string bars;             ///< "3-8" or "3", by printed names; empty: all
  std::optional<double> tempo;  ///< quarter notes a minute at the start
};

/// Which instrument in whose hands.
struct PlayedRequest {
  std::string instrument;
  Level level = Level::amateur;
  std::string player;                ///< a player file; its level is then the one that counts
  std::vector<std::string> latches;  ///< set before playing
};

/// The passage as the player of the instrument reads it.
[[nodiscard]] Passage load_passage(const ScoreRequest& request, const Instrument& instrument);
/// What a part for this instrument looks like.
[[nodiscard]] PartWanted wanted_part(const Instrument& instrument);
/// Sets latches before playing. Throws InputError at `at` where the instrument has none of that name.
void engage(Instrument& instrument, const std::vector<std::string>& latches, const Place& at);
[[nodiscard]] Played load_played(const PlayedRequest& request, const InstrumentFolders& folders);
/// Throws InputError where a player, described for this very instrument, gives a note touches that do not sound it.
void require_sounding(const Played& played);

/// The choices of a file tied to the notes of a passage. Throws InputError: no such bar, no note there, unknown touch,
/// a pin that does not sound its note.
[[nodiscard]] Choices resolve(const ChoicesFile& file, const Passage& passage, const Played& played);

/// Adds a pin for every note with a fingering in the file that names a table line by its mark, or all its touches;
/// tells in the passage's remarks which could not be read.
void keep_marked(Passage& passage, const Played& played, Choices& choices);

/// The note that sounds at a bar and beat, or starts the bar. Throws InputError naming the place.
[[nodiscard]] std::size_t note_at(const Passage& passage, const BarBeat& at, const Place& place);

/// What a passage written for another transposition, or out of the instrument's range, must tell: one message each, at
/// most a handful, for notes the plan leaves without a fingering.
[[nodiscard]] std::vector<Fault> unplayable(const Passage& passage, const Played& played, const Plan& plan);

/// Reads a pitch name from the command line. Throws InputError.
[[nodiscard]] WrittenPitch pitch_named(const std::string& text, const Instrument& instrument);

}  // namespace fingerway
