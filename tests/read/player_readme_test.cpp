// The examples in the READMEs of players and rosters are sound as they stand there.
#include <fstream>
#include <iterator>

#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/player_file.hpp"
#include "fingerway/read/roster_file.hpp"
#include "support/passages.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

/// The first block of YAML in a page.
std::string example_in(const std::string& page) {
  std::ifstream in(project_folder() / page);
  const std::string text{std::istreambuf_iterator<char>(in), {}};
  const std::string open = "```yaml\n";
  const std::size_t start = text.find(open) + open.size();
  return text.substr(start, text.find("```", start) - start);
}

}  // namespace

TEST_CASE("the README's player is read, and reaches every key the README names") {
  const ScratchFolder folder;
  const auto file = folder.write("robin.yaml", example_in("scores/players/README.md"));
  const Player player = read_player(file, read_instrument("bassoon", own_instruments()), own_instruments());
  CHECK(player.name == "Robin");
  CHECK(player.hand.any_rate());
  CHECK(player.hand.span);
  CHECK_FALSE(player.unusable.empty());
  CHECK_FALSE(player.resting.empty());
  CHECK(player.learned);
  CHECK_FALSE(player.holds_through);
  CHECK(player.not_learned.size() == 1);
  CHECK(player.preferred.size() == 2);
}

TEST_CASE("the README's roster is read") {
  const ScratchFolder folder;
  folder.write("robin.yaml", example_in("scores/players/README.md"));
  const auto file = folder.write("class.yaml", example_in("scores/rosters/README.md"));
  const Roster roster = read_roster(file, own_instruments());
  CHECK(roster.pupils.size() == 2);
  CHECK(roster.passages.size() == 2);
  CHECK(roster.pupils[0].player.holds_through == false);
}
