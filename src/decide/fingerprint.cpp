#include "fingerway/decide/fingerprint.hpp"

#include <bit>

namespace fingerway {
namespace {

template <class E>
std::uint64_t number(E value) {
  return static_cast<std::uint64_t>(value);
}

void add_rules(Fingerprint& print, const std::vector<Rule>& rules) {
  print.add(rules.size());
  for (const Rule& rule : rules) {
    print.add(rule.when.bits()).add(rule.unless.bits()).add(rule.opens.bits()).add(rule.closes.bits());
  }
}

void add_keys(Fingerprint& print, const Instrument& instrument) {
  print.add(instrument.pads.size());
  for (const Pad& pad : instrument.pads) {
    print.add(number(pad.kind)).add(number(pad.rest)).add(number(pad.springs_open)).add(number(pad.opening_wins));
  }
  for (PadId pad : instrument.bore) print.add(std::uint64_t{pad.index});
  print.add(instrument.touches.size());
  for (const Touch& touch : instrument.touches) {
    print.add(number(touch.finger)).add(touch.spot.along.value()).add(touch.spot.across.value());
    print.add(touch.width.value()).add(number(touch.can_be_half)).add(number(touch.removed));
  }
  print.add(instrument.grips.size());
  for (const Grip& grip : instrument.grips) print.add(grip.touches.bits());
  print.add(instrument.slides.size());
  for (const Slide& slide : instrument.slides) {
    print.add(std::uint64_t{slide.a.index}).add(std::uint64_t{slide.b.index}).add(number(slide.roller));
    print.add(number(slide.one_plate));
  }
  print.add(instrument.engaged.bits());
  for (LatchId latch : instrument.engaged) {
    print.add(instrument.latches[latch.index].opens.bits()).add(instrument.latches[latch.index].closes.bits());
  }
}

void add_line(Fingerprint& print, const TableFingering& line) {
  const Fingering& f = line.fingering;
  print.add(number(line.pitch.key)).add(number(line.reg)).add(f.pressed.bits()).add(f.half.bits());
  print.add(f.flicked.bits()).add(line.optional_touches.bits()).add(number(line.standing)).add(number(line.way));
  print.add(line.traits.size());
  for (Trait trait : line.traits) print.add(number(trait));
  print.add(line.cents ? line.cents->value() : 0.0).add(number(line.cents.has_value()));
  print.add(number(line.confirmed_whole)).add(number(line.evidence.confidence)).add(number(line.from.empty()));
}

void add_own(Fingerprint& print, const std::vector<OwnFingering>& list) {
  print.add(list.size());
  for (const OwnFingering& own : list) {
    print.add(number(own.pitch.key)).add(own.fingering.pressed.bits()).add(own.fingering.half.bits());
    print.add(own.fingering.flicked.bits());
    print.add(number(own.after ? own.after->key : -1)).add(number(own.before ? own.before->key : -1));
  }
}

}  // namespace

Fingerprint& Fingerprint::add(const Player& player) {
  add(number(player.level)).add(player.unusable.bits()).add(player.resting.bits()).add(number(player.holds_through));
  for (const auto& rate : player.hand.rates) add(rate ? rate->value() : 0.0);
  add(player.hand.span ? player.hand.span->value() : 0.0).add(number(player.learned.has_value()));
  if (player.learned) add_own(*this, *player.learned);
  add_own(*this, player.not_learned);
  add_own(*this, player.preferred);
  return *this;
}

Fingerprint& Fingerprint::add(std::uint64_t value) {
  for (int byte = 0; byte < 8; ++byte) {
    value_ = (value_ ^ (value & 0xFFU)) * 0x100000001B3ULL;
    value >>= 8U;
  }
  return *this;
}

Fingerprint& Fingerprint::add(std::string_view text) {
  add(text.size());
  for (char c : text) value_ = (value_ ^ static_cast<unsigned char>(c)) * 0x100000001B3ULL;
  return *this;
}

Fingerprint& Fingerprint::add(double value) { return add(std::bit_cast<std::uint64_t>(value)); }

Fingerprint& Fingerprint::add(const Passage& passage) {
  const auto add_time = [&](ScoreTime t) { add(number(t.numerator())).add(number(t.denominator())); };
  add(passage.notes.size());
  for (const NoteEvent& note : passage.notes) {
    add(number(note.pitch.key)).add(number(note.attack)).add(number(note.kind)).add(number(note.dynamic));
    add(note.other ? number(written(*note.other).key) + 1000 : 0).add(number(note.grace)).add(number(note.part));
    add(number(note.signs.staccato) | number(note.signs.tenuto) << 1U | number(note.signs.accent) << 2U |
        number(note.signs.breath_after) << 3U | number(note.signs.fermata) << 4U);
    add_time(note.onset);
    add_time(note.length);
  }
  for (const TempoChange& change : passage.tempo.changes()) {
    add_time(change.at);
    add(change.tempo.value());
  }
  return *this;
}

Fingerprint& Fingerprint::add(const Instrument& instrument) {
  add_keys(*this, instrument);
  add_rules(*this, instrument.rules);
  add_rules(*this, instrument.table_rules);
  add(instrument.table_rest_closed.bits()).add(instrument.table_pads.bits());
  for (const RegisterRule& rule : instrument.registers) add(number(rule.reg)).add(number(rule.open_holes_that_matter));
  add(instrument.table.size());
  for (const TableFingering& line : instrument.table) add_line(*this, line);
  return *this;
}

Fingerprint& Fingerprint::add(const MotionNumbers& numbers) {
  MotionNumbers copy = numbers;
  for (const NamedNumber& named : named_numbers(copy)) add(named.number->value);
  return *this;
}

}  // namespace fingerway
