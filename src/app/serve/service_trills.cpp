#include <string>
#include <utility>

#include "fingerway/base/errors.hpp"
#include "fingerway/plan/trills.hpp"
#include "fingerway/report/lane_pictures.hpp"
#include "fingerway/report/page_answers.hpp"
#include "service.hpp"

namespace fingerway {
namespace {

/// A note's name as answers give it ("D♭2") in the letters requests are read in.
std::string plain_name(std::string name) {
  for (const auto& [sign, letter] : {std::pair<std::string, std::string>{"♯", "#"}, {"♭", "b"}}) {
    for (std::size_t at = name.find(sign); at != std::string::npos; at = name.find(sign)) {
      name.replace(at, sign.size(), letter);
    }
  }
  return name;
}

}  // namespace

Answer Service::trills(std::string_view body) {
  const TrillAsk ask = parse_trills_ask(body);
  const TurnOnCore turn(working_);
  const auto player = played(ask.played, "instrument");
  return {.body = trills_answer(*player, all_trills(*player, Semitones(ask.widest)))};
}

Answer Service::trill(std::string_view body) {
  const TrillAsk ask = parse_trill_ask(body);
  const TurnOnCore turn(working_);
  const auto player = played(ask.played, "instrument");
  const WrittenPitch from = pitch_named(plain_name(ask.from), player->instrument);
  const WrittenPitch to = pitch_named(plain_name(ask.to), player->instrument);
  if (from == to) throw InputError(Fault{{}, "a trill needs two different notes", "as C2 and D2"});
  const Trill trill = best_trill(*player, from, to);
  return {.body = trill_answer(*player, trill, trill_picture(*player, trill, ask.width))};
}

}  // namespace fingerway
