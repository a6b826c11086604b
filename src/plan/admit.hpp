// What this part answers: which of a note's many candidates a passage can make use of.
// Private to plan. What it leaves out: touches held through that no note nearby needs.
#pragma once

#include <array>
#include <map>
#include <optional>
#include <utility>
#include <vector>

#include "fingerway/plan/choices.hpp"
#include "fingerway/plan/played.hpp"

namespace fingerway {

/// A touch may be held through a note when a neighbouring note needs it, or when one at most this many notes before and
/// one as many after do; and on how many fingers at once. Assumed (playing habit), and part of the model.
inline constexpr std::size_t hold_reach = 2;
inline constexpr int most_held_fingers = 2;

/// A pitch to be played at one moment. Trills and tremolos have two entries of the same note.
struct AdmitNote {
  std::size_t note = 0;
  WrittenPitch pitch;
  bool bound = true;  ///< the player's choices speak of this pitch (not of a trill's second one)
};

/// What is asked of one entry: holds that its neighbourhood has a use for, and the player's choices for this note (as
/// of a note 0). Entries that ask the same are met the same.
struct Want {
  WrittenPitch pitch;
  HandMask holds{};
  bool odd_pin = false;  ///< the choices pin a fingering that the passage has no use for by itself
  Choices choices = {};

  friend auto operator<=>(const Want&, const Want&) = default;
};

/// Works out what can be played on one instrument, and remembers what it has worked out.
class Admission {
 public:
  explicit Admission(const Played& played) : played_(played) {}

  /// What each entry asks for. Entries of one note count as neighbours of each other.
  [[nodiscard]] std::vector<Want> wants(const std::vector<AdmitNote>& notes, const Choices& choices);
  /// The candidates that meet it: lean ones first, then those that hold something through.
  [[nodiscard]] std::vector<Candidate> meeting(const Want& want);

 private:
  [[nodiscard]] HandMask lean_use(WrittenPitch pitch);
  [[nodiscard]] HandMask wanted_at(const std::vector<AdmitNote>& notes, const std::vector<HandMask>& used,
                                   std::size_t i);
  [[nodiscard]] HoldMask joined_holds(std::size_t f, HoldMask here, HoldMask nearby);
  [[nodiscard]] std::optional<Candidate> odd_pin(const Want& want) const;
  [[nodiscard]] bool permitted(const Want& want, const Fingering& fingering) const;
  [[nodiscard]] int add_asked(const Choices& choices, HandMask& holds) const;

  const Played& played_;
  std::map<WrittenPitch, HandMask> lean_use_;
  std::array<std::map<std::pair<HoldMask, HoldMask>, HoldMask>, finger_count> joined_;
};

/// For each entry the admitted candidates: lean ones first, then those that hold something through. Entries of one note
/// count as neighbours of each other.
[[nodiscard]] std::vector<std::vector<Candidate>> admit(const Played& played, const std::vector<AdmitNote>& notes,
                                                        const Choices& choices);

}  // namespace fingerway
