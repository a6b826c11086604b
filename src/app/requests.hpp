// What this part answers: what a user asks for, as values, and the passage, instrument and choices it refers to.
// The command line fills requests; it prints nothing itself.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
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
  std::string player_text;           ///< the same as text already in memory, in place of the file
  std::vector<std::string> latches;  ///< set before playing
};

/// The passage as the player of the instrument reads it.
[[nodiscard]] Passage load_passage(const ScoreRequest& request, const Instrument& instrument);
/// The same from a score's text already in memory; `request.file` is only for messages.
[[nodiscard]] Passage passage_of(std::string_view score_text, const ScoreRequest& request,
                                 const Instrument& instrument);
/// What a part for this instrument looks like.
[[nodiscard]] PartWanted wanted_part(const Instrument& instrument);
/// Sets latches before playing. Throws InputError at `at` where the instrument has none of that name.
void engage(Instrument& instrument, const std::vector<std::string>& latches, const Place& at);
[[nodiscard]] Played load_played(const PlayedRequest& request, const InstrumentFolders& folders);
/// Throws InputError where the two are not one instrument in two states of conversion.
void require_same_base(const Instrument& stock, const Instrument& converted);
/// Throws InputError where a player, described for this very instrument, gives a note touches that do not sound it.
void require_sounding(const Played& played);

/// The choices of a file tied to the notes of a passage. Throws InputError: no such bar, no note there, unknown touch,
/// a pin that does not sound its note.
[[nodiscard]] Choices resolve(const ChoicesFile& file, const Passage& passage, const Played& played);
/// The touches of these full names; what is none is told at `place`.
[[nodiscard]] TouchSet touches_named(const std::vector<std::string>& names, const Instrument& instrument,
                                     const Place& place, std::vector<Fault>& faults);
/// What keeps a pin of a whole fingering from being played: it does not sound its note, or the player file rules it
/// out.
[[nodiscard]] std::optional<Fault> pin_fault(const Pin& pin, const Passage& passage, const Played& played,
                                             const Place& place);

/// Throws InputError, naming `file`, where a note that has a fingering on the instrument is left without one by the
/// choices; `left` tells of a note whether they leave it one.
void require_possible(const Passage& passage, const Played& played, const std::string& file,
                      const std::function<bool(std::size_t)>& left);

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
