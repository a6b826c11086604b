#include "passage_ways.hpp"

#include <algorithm>

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

/// What a note's cost depends on, as few different ones as may be: of its neighbours it matters only whether they
/// differ, unless the player has habits of pairs of notes.
NoteContext context_of(const Played& played, const Passage& passage, std::size_t i) {
  const NoteEvent& note = passage.notes[i];
  NoteContext context{.length = passage.tempo.between(note.onset, note.onset + note.length),
                      .dynamic = note.dynamic,
                      .trilled = second_pitch(note).has_value()};
  if (i > 0) context.after = passage.notes[i - 1].pitch;
  if (i + 1 < passage.notes.size()) context.before = passage.notes[i + 1].pitch;
  const auto of_a_pair = [](const OwnFingering& habit) { return habit.after || habit.before; };
  if (std::ranges::any_of(played.player.preferred, of_a_pair)) return context;
  const bool passes = context.after && context.before && *context.after != *context.before;
  context.after = passes ? std::optional(played.instrument.lowest) : std::nullopt;
  context.before = passes ? std::optional(played.instrument.highest) : std::nullopt;
  return context;
}

}  // namespace

PassageWays::PassageWays(Workshop& workshop, const Passage& passage, const Choices& choices) : workshop_(workshop) {
  workshop.serve(passage.notes.size());
  const std::vector<AdmitNote> entries = entries_of(passage);
  const auto admitted = workshop.admit(entries, choices);
  // Idle fingers may be where they could be without the player's choices too, so that a choice only takes ways away.
  const auto free = choices.empty() ? admitted : workshop.admit(entries, {});
  std::vector<FingerUse> uses(passage.notes.size());
  std::vector<ShapeKey> keys(passage.notes.size());
  for (std::size_t e = 0; e < entries.size(); ++e) {
    ShapeKey& key = keys[entries[e].note];
    if (entries[e].bound) {
      key.first = admitted[e];
    } else {
      key.second = admitted[e] + 1;
      key.kind = passage.notes[entries[e].note].kind;
    }
    add(uses[entries[e].note], workshop.admitted(admitted[e]).use);
    if (!choices.empty()) add(uses[entries[e].note], workshop.admitted(free[e]).use);
  }
  std::vector<IdlePlaces> places = idle_places(uses);
  notes_.reserve(keys.size());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const Admitted& first = workshop.admitted(keys[i].first);
    for (std::size_t f = 0; f < finger_count; ++f) {
      if (!first.idles[f]) places[i][f] = {};
    }
    Note& note = notes_.emplace_back();
    note.context = workshop.note_contexts.number(context_of(workshop.played(), passage, i));
    keys[i].places = workshop.places.number(places[i]);
    if (keys[i].second != 0) keys[i].context = note.context;
    note.shape = workshop.shapes.number(keys[i]);
    if (i + 1 < keys.size()) note.step = workshop.contexts.number(step_context(passage, i));
  }
}

void PassageWays::weights(std::size_t note, const NoteShape& shape, std::vector<Weight>& weights) const {
  weights.clear();
  if (!shape.playable()) {
    weights.push_back(0);
  } else if (!shape.pairs.empty()) {
    for (const PairWay& pair : shape.pairs) weights.push_back(pair.weight);
  } else {
    const auto& own = this->weights(note);
    for (std::size_t b = 0; b < shape.bands.size(); ++b) {
      weights.insert(weights.end(), shape.end_of(b) - shape.bands[b].first, own[b]);
    }
  }
}

Node PassageWays::node(std::size_t note, const NoteShape& shape, std::uint32_t way) const {
  Node result;
  if (!shape.playable()) return result;
  const auto spelled = [](const BothHands<HandPostures>& hands, const HandNumbers& at) {
    return joined(hands[0].each[at[0]], hands[1].each[at[1]]);
  };
  const std::uint32_t band = shape.band_of(way);
  result.candidate = band;
  result.enter = spelled(shape.enter, shape.enter_of(band, way));
  result.leave = shape.pairs.empty() ? result.enter : spelled(shape.leave, shape.pairs[way].leave);
  if (shape.pairs.empty()) {
    result.cost = note_cost(workshop_.played(), shape.first->candidates[*result.candidate], note_context(note));
  } else {
    result.cost = shape.pairs[way].cost;
    result.other = shape.pairs[way].second;
    result.rate = shape.pairs[way].rate;
    result.ends_on_second = shape.kind == NoteKind::tremolo;
  }
  return result;
}

}  // namespace fingerway
