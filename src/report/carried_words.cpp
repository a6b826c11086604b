#include "carried_words.hpp"

#include "words.hpp"

namespace fingerway {

std::string_view carried_id(CarriedResult result) {
  switch (result) {
    case CarriedResult::same_note:
      return "same-note";
    case CarriedResult::other_note:
      return "other-note";
    case CarriedResult::no_note:
      return "no-note";
    case CarriedResult::key_missing:
      return "key-missing";
    case CarriedResult::ruled_out:
      break;
  }
  return "ruled-out";
}

std::string carried_words(CarriedResult result, const std::vector<WrittenPitch>& sounds) {
  switch (result) {
    case CarriedResult::same_note:
      return "still gives the note";
    case CarriedResult::other_note: {
      std::vector<std::string> names;
      for (WrittenPitch pitch : sounds) names.push_back(pitch_words(pitch));
      return "sounds " + listed(names);
    }
    case CarriedResult::no_note:
      return "gives no clear note";
    case CarriedResult::key_missing:
      return "needs a key that is not there";
    case CarriedResult::ruled_out:
      break;
  }
  return "is not in the player's hand";
}

}  // namespace fingerway
