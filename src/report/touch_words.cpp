#include <algorithm>
#include <array>
#include <cctype>

#include "words.hpp"

namespace fingerway {
namespace {

std::string without(std::string text, std::string_view piece) {
  const auto at = text.find(piece);
  if (at != std::string::npos) text.erase(at, piece.size());
  return text;
}

/// "csharp" to "C♯", "eflat" to "E♭", "g" to "G"; other words stay.
std::string note_or_word(const std::string& word, Script script) {
  const bool letter = !word.empty() && word[0] >= 'a' && word[0] <= 'h';
  const std::string_view rest = std::string_view(word).substr(std::min<std::size_t>(1, word.size()));
  if (!letter || !(rest.empty() || rest == "sharp" || rest == "flat")) return word;
  std::string note(1, static_cast<char>(std::toupper(static_cast<unsigned char>(word[0]))));
  if (rest == "sharp") note += script == Script::signs ? "♯" : "#";
  if (rest == "flat") note += script == Script::signs ? "♭" : "b";
  return note;
}

std::vector<std::string> split(const std::string& name) {
  std::vector<std::string> parts(1);
  for (char c : name) {
    if (c == '-') {
      parts.emplace_back();
    } else {
      parts.back() += c;
    }
  }
  return parts;
}

std::string short_of(const std::string& name, bool keep_low, Script script) {
  std::string result;
  const std::vector<std::string> parts = split(name);
  for (const std::string& part : parts) {
    if (!keep_low && parts.size() > 1 && (part == "low" || part == "high")) continue;
    // "octave-1": digits alone stand for fingers.
    const bool number = !part.empty() && std::isdigit(static_cast<unsigned char>(part[0])) != 0;
    if (!result.empty()) result += number ? '-' : ' ';
    result += part == "trill" ? "tr" : note_or_word(part, script);
  }
  return result;
}

constexpr std::array<std::string_view, 5> digit_names = {"T", "1", "2", "3", "4"};

bool plain_hole(const Touch& touch) { return touch.name == "hole" || touch.name == "plate" || touch.name == "ring"; }

/// Where an index, middle or ring finger lies by itself: a hole, a plate, or the first of its touches.
bool own_place(const Instrument& instrument, TouchId id) {
  const Touch& touch = instrument.touches[id.index];
  if (plain_hole(touch)) return true;
  const auto d = digit(touch.finger);
  return d >= 1 && d <= 3 && touches_of(instrument, touch.finger).first() == id;
}

std::string hand_compact(const Instrument& instrument, const Fingering& fingering, Hand hand) {
  std::string text;
  for (Finger finger : all_fingers) {
    if (hand_of(finger) != hand) continue;
    const TouchSet held = held_by(instrument, fingering.pressed, finger);
    if (held.empty()) continue;
    if (!text.empty()) text += ' ';
    if (!(held & fingering.half).empty()) text += "½";
    text += digit_names[digit(finger)];
    std::string names;
    const bool with_own = std::ranges::any_of(held, [&](TouchId touch) { return own_place(instrument, touch); });
    for (TouchId touch : held) {
      if (own_place(instrument, touch)) continue;
      const std::string name = touch_short(instrument, touch, Script::signs);
      names += (names.empty() && !with_own ? "·" : "+") + name;
    }
    text += names;
  }
  return text;
}

}  // namespace

std::string touch_words(const Instrument& instrument, TouchId id) {
  const Touch& touch = instrument.touches[id.index];
  if (touch.name == "hole") return "hole";
  std::string text = touch.label.empty() ? touch.name : touch.label;
  // What stands in brackets in the data is for who chooses an instrument, not for who reads a fingering.
  if (const auto bracket = text.find(" ("); bracket != std::string::npos) text.erase(bracket);
  if (digit(touch.finger) == 0 && text.starts_with("thumb ")) text = without(text, "thumb ");
  if (digit(touch.finger) == 4 && text.starts_with("little-finger ")) text = without(text, "little-finger ");
  if (text.ends_with(" key")) text.resize(text.size() - 4);
  return text;
}

std::string touch_short(const Instrument& instrument, TouchId id, Script script) {
  const Touch& touch = instrument.touches[id.index];
  if (plain_hole(touch)) return {};
  std::string brief = short_of(touch.name, false, script);
  for (TouchId other : touches_of(instrument, touch.finger)) {
    if (other != id && short_of(instrument.touches[other.index].name, false, script) == brief) {
      return short_of(touch.name, true, script);
    }
  }
  return brief;
}

std::string holds_words(const Instrument& instrument, TouchSet pressed, TouchSet half) {
  std::string text;
  for (TouchId touch : pressed) {
    if (!text.empty()) text += " + ";
    if (half.contains(touch)) text += "half ";
    text += touch_words(instrument, touch);
  }
  return text;
}

std::string touches_with_fingers(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> parts;
  for (Finger finger : all_fingers) {
    const TouchSet own = held_by(instrument, touches, finger);
    if (!own.empty()) parts.push_back(std::string(words(finger)) + " " + holds_words(instrument, own, {}));
  }
  return joined(parts, ", ");
}

std::string touches_short(const Instrument& instrument, TouchSet touches, Script script) {
  std::vector<std::string> parts;
  for (Finger finger : all_fingers) {
    std::string names;
    const TouchSet own = held_by(instrument, touches, finger);
    for (TouchId touch : own) {
      const std::string name = touch_short(instrument, touch, script);
      if (!name.empty()) names += (names.empty() ? " " : "+") + name;
    }
    if (!own.empty()) parts.push_back(std::string(code(finger)) + names);
  }
  return joined(parts, ", ");
}

std::vector<FingerWords> fingering_words(const Instrument& instrument, const Fingering& fingering) {
  std::vector<FingerWords> result;
  for (Finger finger : all_fingers) {
    const TouchSet held = held_by(instrument, fingering.pressed, finger);
    const TouchSet flicked = held_by(instrument, fingering.flicked, finger);
    std::string text = holds_words(instrument, held, fingering.half);
    if (!flicked.empty()) text += (text.empty() ? "flick " : ", flick ") + holds_words(instrument, flicked, {});
    if (!text.empty()) result.push_back({.finger = finger, .finger_words = std::string(words(finger)), .holds = text});
  }
  return result;
}

std::string one_line(const std::vector<FingerWords>& fingering) {
  std::vector<std::string> parts;
  parts.reserve(fingering.size());
  for (const FingerWords& f : fingering) parts.push_back(f.finger_words + ": " + f.holds);
  return parts.empty() ? "all open" : joined(parts, "; ");
}

std::string compact(const Instrument& instrument, const Fingering& fingering) {
  const std::string left = hand_compact(instrument, fingering, Hand::left);
  const std::string right = hand_compact(instrument, fingering, Hand::right);
  std::string text = left.empty() && right.empty() ? "open" : left;
  if (!right.empty()) text += (left.empty() ? "– | " : " | ") + right;
  if (!fingering.flicked.empty()) {
    std::vector<std::string> flicks;
    for (TouchId touch : fingering.flicked) flicks.push_back(touch_short(instrument, touch, Script::signs));
    // A flick key's own name says that it is one.
    const bool named = flicks.front().starts_with("flick");
    text += std::string(named ? " (" : " (flick ") + joined(flicks, " + ") + ")";
  }
  return text;
}

}  // namespace fingerway
