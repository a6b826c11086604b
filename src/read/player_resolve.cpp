#include <algorithm>

#include "player_parts.hpp"

namespace fingerway {
namespace {

std::vector<std::string> finger_and_touch_names(const Instrument& instrument) {
  std::vector<std::string> names;
  for (const Touch& touch : instrument.touches) names.push_back(full_name(touch));
  for (Finger finger : all_fingers) names.emplace_back(code(finger));
  return names;
}

/// Looks names up on the instrument a file is written for and carries them over to the one that is played.
class PlayerResolver {
 public:
  PlayerResolver(const Instrument& home, const Instrument& played, FaultList& faults)
      : home_(home), played_(played), faults_(faults) {}

  Player resolve(const WrittenPlayer& written) {
    Player player{.name = written.name, .file = faults_.file(), .level = written.level, .hand = written.hand};
    player.holds_through = written.holds_through;
    player.unusable = fingers_and_touches(written.cannot_use);
    player.resting = fingers_and_touches(written.should_rest);
    if (written.learned) player.learned = learned(*written.learned);
    player.not_learned = fingerings(written.not_learned);
    player.preferred = fingerings(written.preferred);
    player.left_out = std::move(left_out_);
    return player;
  }

 private:
  std::optional<TouchId> here(const Touch& touch) const {
    const auto found = find_touch(played_, full_name(touch));
    return found && !played_.touches[found->index].removed ? found : std::nullopt;
  }

  TouchSet fingers_and_touches(const std::vector<WrittenName>& names) {
    TouchSet set;
    for (const WrittenName& name : names) {
      if (const auto finger = parse_finger(name.text)) {
        set |= touches_of(played_, *finger);
      } else if (const auto touch = find_touch(home_, name.text)) {
        if (const auto id = here(home_.touches[touch->index])) {
          set.insert(*id);
        } else {
          left_out_.push_back(name.text + " is not on " + stacked_id(played_));
        }
      } else {
        faults_.add(*name.node, "no finger or touch " + in_quotes(name.text) + " on " + stacked_id(home_),
                    suggestion(name.text, finger_and_touch_names(home_)));
      }
    }
    return set;
  }

  /// Nothing where a touch is not on the played instrument; a name that is on neither is a fault.
  std::optional<TouchSet> touches(const std::vector<std::string>& names, const WrittenFingering& of) {
    TouchSet set;
    bool all_here = true;
    for (const std::string& name : names) {
      const auto touch = find_touch(home_, name);
      if (!touch) {
        faults_.add(*of.node, "no touch " + in_quotes(name) + " on " + stacked_id(home_),
                    suggestion(name, finger_and_touch_names(home_)));
        continue;
      }
      const auto id = here(home_.touches[touch->index]);
      if (id) set.insert(*id);
      all_here = all_here && id.has_value();
    }
    return all_here ? std::optional(set) : std::nullopt;
  }

  std::optional<Fingering> carried_over(const Fingering& home) const {
    Fingering fingering;
    const auto carry = [&](TouchSet from, TouchSet& to) {
      for (TouchId touch : from) {
        const auto id = here(home_.touches[touch.index]);
        if (!id) return false;
        to.insert(*id);
      }
      return true;
    };
    if (!carry(home.pressed, fingering.pressed) || !carry(home.half, fingering.half)) return std::nullopt;
    return carry(home.flicked, fingering.flicked) ? std::optional(fingering) : std::nullopt;
  }

  std::optional<Fingering> by_mark(const WrittenFingering& written) {
    std::vector<std::string> marks;
    for (const TableFingering& line : home_.table) {
      if (line.pitch != written.pitch) continue;
      if (line.mark == written.mark) return carried_over(line.fingering);
      if (!line.mark.empty()) marks.push_back(line.mark);
    }
    faults_.add(
        *written.node,
        "no fingering of " + written.note + " on " + stacked_id(home_) + " has the mark " + in_quotes(written.mark),
        marks.empty() ? "name its touches: press: [...]" : suggestion(written.mark, marks));
    return std::nullopt;
  }

  std::optional<Fingering> by_touches(const WrittenFingering& written) {
    const auto press = touches(written.press, written);
    const auto half = touches(written.half, written);
    const auto flick = touches(written.flick, written);
    if (!press || !half || !flick) return std::nullopt;
    return Fingering{.pressed = *press | *half, .half = *half, .flicked = *flick};
  }

  std::vector<OwnFingering> fingerings(const std::vector<WrittenFingering>& list) {
    std::vector<OwnFingering> result;
    for (const WrittenFingering& written : list) {
      const auto fingering = written.mark.empty() ? by_touches(written) : by_mark(written);
      if (fingering) {
        result.push_back(
            {.pitch = written.pitch, .fingering = *fingering, .after = written.after, .before = written.before});
      } else if (&home_ != &played_) {
        left_out_.push_back("a fingering of " + written.note + " needs a touch that is not on " + stacked_id(played_));
      }
    }
    return result;
  }

  std::vector<OwnFingering> learned(const WrittenLearned& written) {
    std::vector<OwnFingering> list;
    for (const TableFingering& line : home_.table) {
      if (!written.standard || line.standing != Standing::standard) continue;
      if (line.pitch < written.standard->first || written.standard->second < line.pitch) continue;
      if (const auto fingering = carried_over(line.fingering)) {
        list.push_back({.pitch = line.pitch, .fingering = *fingering});
      }
    }
    for (const OwnFingering& own : fingerings(written.also)) list.push_back(own);
    return list;
  }

  const Instrument& home_;
  const Instrument& played_;
  FaultList& faults_;
  std::vector<std::string> left_out_;
};

}  // namespace

Player resolve_player(const WrittenPlayer& written, const Instrument& home, const Instrument& instrument,
                      FaultList& faults) {
  return PlayerResolver(home, instrument, faults).resolve(written);
}

bool same_family(const Instrument& a, const Instrument& b) {
  return a.id == b.id || (!a.family.empty() && a.family == b.family);
}

}  // namespace fingerway
