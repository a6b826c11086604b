#include "words.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>

namespace fingerway {
namespace {

std::string half_change(const Instrument& instrument, const Hold& from, const Hold& to) {
  const TouchSet opened = to.half - from.half;
  return opened.empty() ? "rolls shut the half " + holds_words(instrument, from.half - to.half, {})
                        : "rolls half off the " + holds_words(instrument, opened, {});
}

std::string roll_words(const Instrument& instrument, const Hold& from, const Hold& to) {
  if (from.touches == to.touches) return half_change(instrument, from, to);
  const TouchSet on = to.touches - from.touches;
  if (!on.empty()) return "rolls on " + holds_words(instrument, on, {});
  return "rolls off " + holds_words(instrument, from.touches - to.touches, {});
}

std::string from_to(const Instrument& instrument, const Hold& from, const Hold& to) {
  return holds_words(instrument, from.touches, from.half) + " → " + holds_words(instrument, to.touches, to.half);
}

}  // namespace

std::string move_words(const Instrument& instrument, const FingerMove& m) {
  const std::string who(words(m.finger));
  switch (m.move.kind) {
    case MoveKind::press:
      return who + " presses " + holds_words(instrument, m.to.hold.touches, m.to.hold.half);
    case MoveKind::lift:
      return who + " lets go of " + holds_words(instrument, m.from.hold.touches, m.from.hold.half);
    case MoveKind::travel:
      return who + " moves over to " + touch_words(instrument, m.to.over) + " while free";
    case MoveKind::jump:
      return who + " jumps " + from_to(instrument, m.from.hold, m.to.hold);
    case MoveKind::slide:
      return who + " slides " + from_to(instrument, m.from.hold, m.to.hold);
    case MoveKind::roll:
      return who + " " + roll_words(instrument, m.from.hold, m.to.hold);
    case MoveKind::shift:
      return who + " shifts " + from_to(instrument, m.from.hold, m.to.hold);
    case MoveKind::flick:
      return who + " flicks " + touch_words(instrument, m.to.over);
    case MoveKind::impossible:
      return who + " cannot get there";
    case MoveKind::stay:
      break;
  }
  return who + " stays";
}

std::string_view words(MoveKind kind) {
  constexpr std::array<std::string_view, 10> names = {"stay",  "press", "lift",  "travel", "jump",
                                                      "slide", "roll",  "shift", "flick",  "impossible"};
  return names[static_cast<std::size_t>(kind)];
}

std::string_view words(Standing standing) {
  constexpr std::array<std::string_view, 3> names = {"standard", "alternate", "trill only"};
  return names[static_cast<std::size_t>(standing)];
}

std::string_view words(Way way) {
  constexpr std::array<std::string_view, 5> names = {"plain", "forked", "long", "muted", "harmonic"};
  return names[static_cast<std::size_t>(way)];
}

std::string_view words(Trait trait) {
  constexpr std::array<std::string_view, 8> names = {"sharp",    "flat",   "soft",     "stuffy",
                                                     "unstable", "stable", "resonant", "resistant"};
  return names[static_cast<std::size_t>(trait)];
}

std::string_view words(Origin origin) { return origin == Origin::table ? "table" : "derived"; }

std::string length_words(ScoreTime length) {
  struct Named {
    int numerator, denominator;
    const char* name;
  };
  constexpr std::array<Named, 9> values = {{{8, 1, "breve"},
                                            {4, 1, "whole"},
                                            {2, 1, "half"},
                                            {1, 1, "quarter"},
                                            {1, 2, "eighth"},
                                            {1, 4, "sixteenth"},
                                            {1, 8, "thirty-second"},
                                            {1, 16, "sixty-fourth"},
                                            {1, 32, "128th"}}};
  for (const Named& value : values) {
    const ScoreTime plain(value.numerator, value.denominator);
    if (length == plain) return value.name;
    if (length == plain * ScoreTime(3, 2)) return std::string("dotted ") + value.name;
    if (length == plain * ScoreTime(7, 4)) return std::string("double-dotted ") + value.name;
    if (length == plain * ScoreTime(2, 3)) return std::string(value.name) + " triplet";
  }
  return to_string(length) + " quarters";
}

std::string pitch_words(WrittenPitch pitch) { return display_name(chart_spelling(pitch)); }

std::string rounded(double value, int decimals) {
  const double scale = std::pow(10.0, decimals);
  const double nearest = std::round(value * scale) / scale;
  return fmt::format("{:.{}f}", nearest == 0.0 ? 0.0 : nearest, decimals);
}

std::string ms_words(Ms time) { return rounded(time.count(), 0) + " ms"; }
std::string percent(double share) { return rounded(share * 100.0, 0) + " %"; }

std::string counted(std::size_t count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

std::string joined(const std::vector<std::string>& items, std::string_view separator) {
  return fmt::format("{}", fmt::join(items, separator));
}

std::string listed(const std::vector<std::string>& items) {
  if (items.size() < 2) return items.empty() ? "" : items.front();
  return joined({items.begin(), items.end() - 1}, ", ") + " and " + items.back();
}

std::string instrument_words(const Instrument& instrument) {
  std::vector<std::string> names;
  for (const ConversionSheet& sheet : instrument.conversions)
    names.push_back(sheet.name.empty() ? sheet.id : sheet.name);
  const std::string base = instrument.name.empty() ? instrument.id : instrument.name;
  return names.empty() ? base : base + " with " + listed(names);
}

}  // namespace fingerway
