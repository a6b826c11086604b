#include "player_words.hpp"

#include "json_parts.hpp"
#include "words.hpp"

namespace fingerway {
namespace {

bool typical(const Player& player) {
  Player plain{.level = player.level};
  plain.name = player.name;
  plain.file = player.file;
  return player == plain;
}

std::string rates_words(const MeasuredHand& hand) {
  std::vector<std::string> rates;
  for (Finger finger : all_fingers) {
    if (const auto& rate = hand.rates[index(finger)]) {
      rates.push_back(std::string(code(finger)) + " " + rounded(rate->value(), 1));
    }
  }
  return joined(rates, ", ");
}

/// Whole fingers by name, single touches with their finger.
std::string touches_words(const Instrument& instrument, TouchSet touches) {
  std::vector<std::string> parts;
  for (Finger finger : all_fingers) {
    const TouchSet own = touches_of(instrument, finger);
    if (own.empty() || !touches.contains_all(own)) continue;
    parts.emplace_back(words(finger));
    touches -= own;
  }
  for (TouchId touch : touches) parts.push_back(touches_with_fingers(instrument, {touch}));
  return listed(parts);
}

}  // namespace

std::string player_line(const Played& played) {
  const Player& player = played.player;
  const std::string level = std::string(words(player.level)) + " level";
  if (player.name.empty() && typical(player)) return "typical hand, " + level;
  std::string text = (player.name.empty() ? std::string("by the player file") : player.name) + ", " + level;
  if (player.hand.any_rate()) text += "; notes a second measured: " + rates_words(player.hand);
  if (player.hand.span) text += "; hand span " + rounded(player.hand.span->value(), 0) + " mm";
  return text;
}

std::vector<std::string> player_terms(const Played& played) {
  const Player& player = played.player;
  const Instrument& instrument = played.instrument;
  std::vector<std::string> terms;
  if (!player.unusable.empty()) terms.push_back("not used at all: " + touches_words(instrument, player.unusable));
  if (!player.resting.empty()) {
    terms.push_back("rested where there is another way: " + touches_words(instrument, player.resting));
  }
  if (player.learned) {
    terms.push_back("only the " + counted(player.learned->size(), "fingering", "fingerings") + " learned so far" +
                    (player.holds_through ? "" : ", and no finger kept down that the note does not need"));
  } else if (!player.holds_through) {
    terms.emplace_back("no finger kept down that the note does not need");
  }
  if (!player.not_learned.empty()) {
    terms.push_back("without " + counted(player.not_learned.size(), "fingering", "fingerings") + " not yet learned");
  }
  if (!player.preferred.empty()) {
    terms.push_back(counted(player.preferred.size(), "habit", "habits") + " kept to where that costs little");
  }
  for (const std::string& left_out : player.left_out) terms.push_back("left aside: " + left_out);
  return terms;
}

Json player_json(const Played& played) {
  const Player& player = played.player;
  if (player.name.empty() && typical(player)) return {};
  Json rates = Json::object();
  for (Finger finger : all_fingers) {
    if (const auto& rate = player.hand.rates[index(finger)]) rates.with(std::string(code(finger)), rate->value());
  }
  Json json = Json::object();
  json.with("name", player.name)
      .with("notes_per_second", rates)
      .with("hand_span_mm", player.hand.span ? Json(player.hand.span->value()) : Json())
      .with("cannot_use", full_names_json(played.instrument, player.unusable))
      .with("should_rest", full_names_json(played.instrument, player.resting))
      .with("learned", player.learned ? Json(player.learned->size()) : Json())
      .with("holds_through", player.holds_through)
      .with("not_learned", player.not_learned.size())
      .with("habits", player.preferred.size())
      .with("left_out", player.left_out);
  return json;
}

}  // namespace fingerway
