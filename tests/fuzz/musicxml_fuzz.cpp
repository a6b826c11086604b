// What this part answers: does the reader of MusicXML bear any bytes; is what it believes a passage in order; do marks
// go into the score and come off again byte for byte? The first byte chooses how the score is read.
#include "fingerway/read/musicxml.hpp"
#include "fingerway/report/marks.hpp"
#include "fuzz.hpp"

namespace {

using namespace fingerway;

void require_order(const Passage& passage) {
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    const NoteEvent& note = passage.notes[i];
    fuzz::require(note.length > ScoreTime(), "a note without length");
    if (i == 0) continue;
    const NoteEvent& before = passage.notes[i - 1];
    fuzz::require(before.onset + before.length <= note.onset, "notes that overlap or go back");
    fuzz::require(passage.tempo.at(before.onset) < passage.tempo.at(note.onset), "time that stands still");
  }
}

void require_marks_come_off(std::string_view text, const Passage& passage) {
  std::vector<ScoreMark> marks;
  for (std::size_t i = 0; i < passage.notes.size() && i < 20; ++i) {
    marks.push_back({.element = passage.notes[i].place.element, .text = "L4 Eb +<&>", .full = "L4.low-eflat"});
  }
  std::string marked;
  const bool taken = fuzz::reads([&] { marked = with_marks(text, passage.part_id, marks); });
  if (!taken) return;
  std::string bare;
  fuzz::require(fuzz::reads([&] { bare = without_marks(marked); }), "a marked score that is refused");
  std::string before;
  fuzz::require(fuzz::reads([&] { before = without_marks(text); }), "a score that is refused");
  fuzz::require(bare == before, "marks that leave something behind", bare);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  const std::uint8_t how = data[0];
  const std::string_view text = fuzz::text_of(data + 1, size - 1);
  ScoreChoice choice;
  choice.divisi = static_cast<Divisi>(how & 3U ? (how & 3U) - 1 : 0);
  choice.concert = (how & 4U) != 0 ? ConcertPitch::concert : ConcertPitch::as_written;
  choice.order = (how & 8U) != 0 ? PlayOrder::as_written : PlayOrder::played;
  choice.ornaments = (how & 16U) != 0 ? Ornaments::main_note : Ornaments::play;
  if ((how & 32U) != 0) choice.wanted = PartWanted{.names = {"pipe"}, .lowest = WrittenPitch(57), .clefs = {"G2"}};
  fuzz::reads([&] { static_cast<void>(list_parts(text, "tried")); });
  Passage passage;
  if (!fuzz::reads([&] { passage = parse_musicxml(text, "tried", choice); })) return 0;
  require_order(passage);
  require_marks_come_off(text, passage);
  return 0;
}
