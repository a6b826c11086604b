// Player files and rosters: what they say, and every fault in them, on the exact text a user reads.
#include <catch2/catch.hpp>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/player_file.hpp"
#include "fingerway/read/roster_file.hpp"
#include "read/told.hpp"
#include "support/passages.hpp"
#include "support/scratch_folder.hpp"
#include "support/toy_world.hpp"

using namespace fingerway;

namespace {

const std::string head = "fingerway: player\nversion: 1\n";

Player read(const std::string& text, const std::string& on = "bassoon") {
  const ScratchFolder folder;
  return read_player(folder.write("me.yaml", head + text), read_instrument(on, own_instruments()), own_instruments());
}

std::string faults(const std::string& text) {
  const ScratchFolder folder;
  const auto file = folder.write("me.yaml", head + text);
  return told(folder, [&] { check_player_file(file, own_instruments()); });
}

std::string roster_faults(const std::string& text) {
  const ScratchFolder folder;
  folder.write("robin.yaml", head + "level: beginner\nhand_span: 170\n");
  folder.write("broken.yaml", head + "level: angel\n");
  const auto file = folder.write("class.yaml", "fingerway: roster\nversion: 1\n" + text);
  return told(folder, [&] { static_cast<void>(read_roster(file, own_instruments())); });
}

}  // namespace

TEST_CASE("a player file with nothing in it is a typical amateur") {
  Player player = read("");
  CHECK(player.level == Level::amateur);
  player.file.clear();
  CHECK(player == Player{});
}

TEST_CASE("what a player file says is read on the instrument played") {
  const Instrument bassoon = read_instrument("bassoon", own_instruments());
  const Player player = read(
      "name: Robin\n"
      "level: beginner\n"
      "notes_per_second: {L1: 11.6, R4: 9}\n"
      "hand_span: 190\n"
      "instrument: bassoon\n"
      "cannot_use: [R4.fsharp, RT]\n"
      "should_rest: [L4.low-eflat]\n"
      "holds_through: false\n"
      "not_learned: [{note: F#2, mark: \"R4 F#\"}]\n"
      "preferred: [{note: F2, press: [LT.whisper, L1.hole]}]\n"
      "habits: [{note: Eb3, mark: \"fork\", after: D3, before: F3}]\n");
  CHECK(player.name == "Robin");
  CHECK(player.level == Level::beginner);
  CHECK(player.hand.rates[index(Finger::L1)] == NotesPerSecond(11.6));
  CHECK(player.hand.rates[index(Finger::R4)] == NotesPerSecond(9));
  CHECK_FALSE(player.hand.rates[index(Finger::L2)]);
  CHECK(player.hand.span == Mm(190));
  CHECK(player.unusable == (touches_of(bassoon, Finger::RT) | touches_named(bassoon, {"R4.fsharp"})));
  CHECK(player.resting == touches_named(bassoon, {"L4.low-eflat"}));
  CHECK_FALSE(player.holds_through);
  REQUIRE(player.not_learned.size() == 1);
  CHECK(player.not_learned[0].pitch == pitch_named("F#2"));
  CHECK(player.not_learned[0].fingering.pressed.contains(touch_named(bassoon, "R4.fsharp")));
  REQUIRE(player.preferred.size() == 2);
  CHECK(player.preferred[0].fingering.pressed == touches_named(bassoon, {"LT.whisper", "L1.hole"}));
  CHECK(player.preferred[1].after == pitch_named("D3"));
  CHECK(player.preferred[1].before == pitch_named("F3"));
}

TEST_CASE("learned: all standard fingerings of a range, and those named besides") {
  const Instrument bassoon = read_instrument("bassoon", own_instruments());
  const Player player =
      read("instrument: bassoon\nlearned:\n  standard: [F2, A2]\n  also: [{note: F#2, mark: \"R4 F#\"}]\n");
  REQUIRE(player.learned);
  std::size_t standard = 0;
  for (const TableFingering& line : bassoon.table) {
    const bool within = pitch_named("F2") <= line.pitch && line.pitch <= pitch_named("A2");
    if (within && line.standing == Standing::standard) ++standard;
  }
  CHECK(player.learned->size() == standard + 1);
  CHECK(read("instrument: bassoon\nlearned: {}\n").learned->empty());
}

TEST_CASE("what the played instrument has not got is left aside, and told") {
  const Player player = read(
      "instrument: bassoon+right-thumb-low-c-and-d\n"
      "cannot_use: [L4.low-eflat]\n"
      "should_rest: [L4]\n");
  CHECK(player.left_out.empty());
  const Instrument converted = read_instrument("bassoon+right-thumb-low-c-and-d", own_instruments());
  std::string added;
  for (const Touch& touch : converted.touches) {
    if (!touch.from.empty()) added = full_name(touch);
  }
  REQUIRE_FALSE(added.empty());
  const Player borrower = read("instrument: bassoon+right-thumb-low-c-and-d\ncannot_use: [" + added + "]\n");
  CHECK(borrower.unusable.empty());
  CHECK(borrower.left_out == std::vector<std::string>{added + " is not on bassoon"});
}

TEST_CASE("faults of a player file name line, what and what to do") {
  CHECK(faults("level: angel\n") == "me.yaml:3:8: 'level' can't be 'angel' (one of: professional, amateur, beginner)");
  CHECK(faults("notes_per_second: {L9: 4}\n").find("me.yaml:3:20: ") == 0);
  CHECK(faults("notes_per_second: {L1: 400}\n").find("me.yaml:3:24: ") == 0);
  CHECK(faults("hand_span: 3\n").find("me.yaml:3:12: ") == 0);
  CHECK(faults("cannot_use: [L4]\n") ==
        "me.yaml:1:1: touches and fingerings are named, but not of which instrument (instrument: the one they are on, "
        "as bassoon)");
  CHECK(faults("instrument: bassoon\ncannot_use: [L4.low-eflatt]\n") ==
        "me.yaml:4:14: no finger or touch 'L4.low-eflatt' on bassoon (did you mean 'L4.low-eflat'?)");
  CHECK(faults("instrument: basson\ncannot_use: [L4]\n").find("me.yaml:3:13: no instrument 'basson'") == 0);
  CHECK(faults("instrument: bassoon\nnot_learned: [{note: H2, mark: x}]\n") ==
        "me.yaml:4:22: 'H2' is not a note name (as Db2, F#3, C4 (middle C))");
  CHECK(faults("instrument: bassoon\nnot_learned: [{note: F2}]\n").find("either its 'mark' or its touches") !=
        std::string::npos);
  CHECK(faults("instrument: bassoon\nnot_learned: [{note: F#2, mark: \"R4 F\"}]\n").find("did you mean 'R4 F#'?") !=
        std::string::npos);
  CHECK(faults("instrument: bassoon\nnot_learned: [{note: F#2, mark: \"R4 F#\", after: F2}]\n").find("'after'") !=
        std::string::npos);
  CHECK(faults("instrument: bassoon\nlearned: {standard: [C4, F2]}\n").find("below the lowest") != std::string::npos);
  CHECK(faults("colour: green\n").find("me.yaml:3:1: ") == 0);
  CHECK(faults("name: Robin\nname: Sam\n").find("me.yaml:4:1: ") == 0);
  CHECK(faults("name: Robin\n") == "read");
}

TEST_CASE("a player file with touches fits no other instrument, one without fits any") {
  const ScratchFolder folder;
  const auto file = folder.write("me.yaml", head + "instrument: bassoon\ncannot_use: [L4]\n");
  const Instrument other = toy_instrument();
  CHECK(told(folder, [&] {
          static_cast<void>(read_player(file, other, own_instruments()));
        }).find("are those of German-system bassoon") != std::string::npos);
  const auto plain = folder.write("plain.yaml", head + "hand_span: 190\n");
  CHECK(read_player(plain, other, own_instruments()).hand.span == Mm(190));
}

TEST_CASE("a roster names pupils with instruments, players and passages, paths beside it") {
  const ScratchFolder folder;
  folder.write("players/robin.yaml", head + "level: beginner\n");
  const auto file =
      folder.write("class.yaml",
                   "fingerway: roster\nversion: 1\ntitle: Winds\n"
                   "passages:\n"
                   "  - {id: one, score: scores/one.musicxml, bars: \"3-8\", tempo: 80}\n"
                   "  - {id: two, score: two.musicxml, part: Bassoon}\n"
                   "pupils:\n"
                   "  - {name: Robin B., instrument: bassoon, player: players/robin.yaml, passages: [two]}\n"
                   "  - name: Sam\n"
                   "    id: sam-2\n"
                   "    instrument: bassoon+low-key-rollers\n"
                   "    level: professional\n"
                   "    cannot_use: [L4]\n"
                   "    passages: [one, two]\n");
  const Roster roster = read_roster(file, own_instruments());
  CHECK(roster.title == "Winds");
  REQUIRE(roster.passages.size() == 2);
  CHECK(roster.passages[0].score == (folder.path() / "scores/one.musicxml").string());
  CHECK(roster.passages[0].bars == "3-8");
  CHECK(roster.passages[0].tempo == 80.0);
  CHECK(roster.passages[1].part == "Bassoon");
  REQUIRE(roster.pupils.size() == 2);
  CHECK(roster.pupils[0].id == "robin-b");
  CHECK(roster.pupils[0].player.level == Level::beginner);
  CHECK(roster.pupils[0].player.name == "Robin B.");
  CHECK(roster.pupils[0].passages == std::vector<std::size_t>{1});
  CHECK(roster.pupils[1].id == "sam-2");
  CHECK(stacked_id(roster.pupils[1].instrument) == "bassoon+low-key-rollers");
  CHECK(roster.pupils[1].player.unusable == touches_of(roster.pupils[1].instrument, Finger::L4));
}

TEST_CASE("faults of a roster and of what it names are told together") {
  const std::string passages = "passages:\n  - {id: one, score: one.musicxml}\n";
  CHECK(roster_faults(passages + "pupils:\n  - {name: A, instrument: bassoon, passages: [one]}\n") == "read");
  CHECK(roster_faults(passages + "pupils:\n  - {name: A, instrument: bassoon, passages: [onee]}\n") ==
        "class.yaml:6:47: no passage 'onee' in this roster (did you mean 'one'?)");
  CHECK(roster_faults(passages + "pupils:\n  - {name: A, instrument: basson, passages: [one]}\n")
            .find("class.yaml:6:27: no instrument 'basson'") == 0);
  CHECK(roster_faults(passages + "pupils:\n  - {name: A, instrument: bassoon, player: broken.yaml, passages: [one]}\n")
            .find("broken.yaml:3:8: 'level'") == 0);
  CHECK(roster_faults(passages + "pupils:\n  - {name: A, instrument: bassoon, player: none.yaml, passages: [one]}\n")
            .find("class.yaml:6:") == 0);
  CHECK(roster_faults(passages +
                      "pupils:\n  - {name: A, instrument: bassoon, player: robin.yaml, level: amateur, passages: "
                      "[one]}\n")
            .find("either a player file or what would stand in one") != std::string::npos);
  CHECK(roster_faults(passages +
                      "pupils:\n  - {name: A, instrument: bassoon, passages: [one]}\n  - {name: a, instrument: "
                      "bassoon, passages: [one]}\n")
            .find("two pupils have the id 'a'") != std::string::npos);
  CHECK(roster_faults(passages + "pupils: []\n").find("at least one passage and one pupil") != std::string::npos);
  CHECK(roster_faults("pupils: []\n").find("'passages'") != std::string::npos);
  CHECK(roster_faults(passages + "pupils:\n  - {name: Žofie, instrument: bassoon, passages: [one, one]}\n")
            .find("twice") != std::string::npos);
}
