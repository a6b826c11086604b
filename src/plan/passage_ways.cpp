#include "passage_ways.hpp"

namespace fingerway {
namespace {

std::optional<WrittenPitch> second_pitch(const NoteEvent& note) {
  if (note.kind == NoteKind::plain || !note.other) return std::nullopt;
  return written(*note.other);
}

/// The pitches to be fingered, in order: of each note its own, and the second one of trills and tremolos.
std::vector<AdmitNote> entries_of(const Passage& passage) {
  std::vector<AdmitNote> entries;
  entries.reserve(passage.notes.size());
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    entries.push_back({.note = i, .pitch = passage.notes[i].pitch, .bound = true});
    if (const auto other = second_pitch(passage.notes[i]))
      entries.push_back({.note = i, .pitch = *other, .bound = false});
  }
  return entries;
}

void add(FingerUse& use, const FingerUse& other) {
  for (std::size_t f = 0; f < finger_count; ++f) {
    use.homes[f] |= other.homes[f];
    use.needed[f] |= other.needed[f];
  }
}

NoteAsked asked_of(const Passage& passage, std::size_t i) {
  const NoteEvent& note = passage.notes[i];
  NoteAsked asked{.pitch = note.pitch, .other = second_pitch(note), .kind = note.kind, .context = {}};
  if (!asked.other) asked.kind = NoteKind::plain;
  asked.context = {.length = passage.tempo.between(note.onset, note.onset + note.length),
                   .dynamic = note.dynamic,
                   .trilled = asked.other.has_value()};
  if (i > 0) asked.context.after = passage.notes[i - 1].pitch;
  if (i + 1 < passage.notes.size()) asked.context.before = passage.notes[i + 1].pitch;
  return asked;
}

}  // namespace

PassageWays::PassageWays(Workshop& workshop, const Passage& passage, const Choices& choices) : workshop_(workshop) {
  const std::vector<AdmitNote> entries = entries_of(passage);
  const auto wants = workshop.wants(entries, choices);
  // Idle fingers may be where they could be without the player's choices too, so that a choice only takes ways away.
  const auto free_wants = choices.empty() ? wants : workshop.wants(entries, {});
  std::vector<FingerUse> uses(passage.notes.size());
  std::vector<Workshop::NoteKey> keys(passage.notes.size());
  for (std::size_t e = 0; e < entries.size(); ++e) {
    Workshop::NoteKey& key = keys[entries[e].note];
    if (entries[e].bound) {
      key.want = wants[e];
    } else {
      key.second = wants[e];
    }
    add(uses[entries[e].note], workshop.admitted(wants[e])->use);
    if (!choices.empty()) add(uses[entries[e].note], workshop.admitted(free_wants[e])->use);
  }
  const std::vector<IdlePlaces> places = idle_places(uses);
  notes_.reserve(keys.size());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    keys[i].asked = asked_of(passage, i);
    keys[i].places = workshop.places.number(places[i]);
    notes_.push_back(workshop.notes.number(keys[i]));
    if (i + 1 < keys.size()) contexts_.push_back(workshop.contexts.number(step_context(passage, i)));
  }
}

}  // namespace fingerway
