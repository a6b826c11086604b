#include "fingerway/plan/passing.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>

#include "numbered.hpp"

namespace fingerway {
namespace {

/// One finger's part of a change: what it lets go and what it presses.
struct Part {
  TouchSet off, on;
  TouchSet half_off, half_on;
};

double orders_through(int fingers, int arrived) {
  double ways = 1.0;  // fingers over arrived
  for (int i = 1; i <= arrived; ++i) ways = ways * (fingers - arrived + i) / i;
  return 1.0 / ways;
}

bool looked_at(int fingers, int arrived) { return fingers <= 4 || arrived == 1 || arrived == fingers - 1; }

}  // namespace

PassingNotes::PassingNotes(const Played& played) : played_(played) {
  for (Finger finger : all_fingers) own_[index(finger)] = touches_of(played.instrument, finger);
}

std::size_t PassingNotes::StatesHash::operator()(const PadStates& states) const {
  return Mixed().add(states.closed.bits()).add(states.half.bits()).value();
}

const std::vector<WrittenPitch>& PassingNotes::sounded(TouchSet pressed, TouchSet half) {
  const PadStates pads = press(played_.works, pressed, half);
  const auto [entry, is_new] = sounded_.try_emplace(pads);
  if (is_new) entry->second = sounded_by(played_.instrument, played_.derivation.targets, pads);
  return entry->second;
}

template <class Visit>
void PassingNotes::each_between(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                const Fingering& to, const Visit& visit) {
  std::array<Part, finger_count> parts;
  std::size_t count_of_parts = 0;
  const Part whole{.off = from.pressed - to.pressed,
                   .on = to.pressed - from.pressed,
                   .half_off = from.half - to.half,
                   .half_on = to.half - from.half};
  const TouchSet changed = whole.off | whole.on | whole.half_off | whole.half_on;
  for (const TouchSet own : own_) {
    if (!changed.intersects(own)) continue;
    parts[count_of_parts++] = {
        .off = whole.off & own, .on = whole.on & own, .half_off = whole.half_off & own, .half_on = whole.half_on & own};
  }
  const int fingers = static_cast<int>(count_of_parts);
  for (unsigned arrived = 1; arrived + 1 < (1U << count_of_parts); ++arrived) {
    const int count = std::popcount(arrived);
    if (!looked_at(fingers, count)) continue;
    TouchSet pressed = from.pressed;
    TouchSet half = from.half;
    for (std::size_t i = 0; i < count_of_parts; ++i) {
      if ((arrived >> i & 1U) == 0) continue;
      pressed = (pressed - parts[i].off) | parts[i].on;
      half = (half - parts[i].half_off) | parts[i].half_on;
    }
    const auto& heard = sounded(pressed, half & pressed);
    const bool safe =
        heard.empty() || std::ranges::any_of(heard, [&](WrittenPitch p) { return p == from_pitch || p == to_pitch; });
    if (safe) continue;
    // The player blows for the two notes, so a state that sounds in several registers sounds the nearest to them.
    const auto away_of = [&](WrittenPitch p) {
      return std::min({std::abs((p - from_pitch).count), std::abs((p - to_pitch).count), 12});
    };
    const WrittenPitch pitch = *std::ranges::min_element(heard, {}, away_of);
    visit(PassingNote{.pitch = pitch, .chance = orders_through(fingers, count), .semitones = away_of(pitch)});
  }
}

std::vector<PassingNote> PassingNotes::between(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                               const Fingering& to) {
  std::vector<PassingNote> notes;
  each_between(from_pitch, from, to_pitch, to, [&](const PassingNote& note) {
    const auto known = std::ranges::find(notes, note.pitch, &PassingNote::pitch);
    if (known == notes.end()) {
      notes.push_back(note);
    } else {
      known->chance += note.chance;
    }
  });
  std::ranges::stable_sort(notes, std::greater{}, [](const PassingNote& n) { return n.chance * n.semitones; });
  return notes;
}

double PassingNotes::expected_semitones(WrittenPitch from_pitch, const Fingering& from, WrittenPitch to_pitch,
                                        const Fingering& to) {
  double sum = 0.0;
  each_between(from_pitch, from, to_pitch, to, [&](const PassingNote& note) { sum += note.chance * note.semitones; });
  return sum;
}

}  // namespace fingerway
