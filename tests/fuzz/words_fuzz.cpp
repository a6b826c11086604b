// What this part answers: do the readers of what is typed on a command line (places, notes, shards, stacked names) bear
// any words; and does the nearest known word come in bounded time?
#include "app/payoff_work.hpp"
#include "fingerway/music/pitch.hpp"
#include "fingerway/read/choices_file.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  if (size > 512) return 0;  // no longer words are typed
  const std::string text(fuzz::text_of(data, size));
  if (const auto place = parse_bar_beat(text)) fuzz::require(!place->bar.empty(), "a place without a bar", text);
  if (const auto spelling = parse_spelling(text)) {
    const auto again = parse_spelling(name(*spelling));
    fuzz::require(again && *again == *spelling, "a note whose name is another note", text);
  }
  fuzz::reads([&] {
    const Shard shard = parse_shard(text);
    fuzz::require(1 <= shard.part && shard.part <= shard.of, "a shard that is none", text);
  });
  static const std::vector<std::string> known = {"bassoon", "clarinet", "low-key-rollers", "interlinked-low-keys", ""};
  const std::string nearest = nearest_word(text, known);
  fuzz::require(nearest.empty() || nearest_word(nearest, known) == nearest, "a known word that is not its own nearest");
  fuzz::require_message(Fault{{text, 1, 1, text}, text + "x", text});
  return 0;
}
