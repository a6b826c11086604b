// What scripts rely on: exit codes, messages with a place and a hint, whole files or none.
#include "app/program_run.hpp"

#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/scratch_folder.hpp"

namespace {

using fingerway::run;
using fingerway::Run;
using fingerway::ScratchFolder;
using fingerway::text_of;
namespace fs = std::filesystem;

const std::string demo = "scores/lowland-round.musicxml";
const std::string easy = "scores/first-steps.musicxml";

std::size_t files_in(const fs::path& folder) {
  return static_cast<std::size_t>(std::distance(fs::directory_iterator(folder), fs::directory_iterator()));
}

std::string score_with(const std::string& notes) {
  return "<?xml version=\"1.0\"?>\n<score-partwise version=\"4.0\"><part-list><score-part id=\"P1\"><part-name>Bassoon"
         "</part-name></score-part></part-list><part id=\"P1\"><measure "
         "number=\"1\"><attributes><divisions>1</divisions>"
         "</attributes>" +
         notes + "</measure></part></score-partwise>\n";
}

std::string note(const char* step, int octave) {
  return std::string("<note><pitch><step>") + step + "</step><octave>" + std::to_string(octave) +
         "</octave></pitch><duration>1</duration><voice>1</voice></note>";
}

}  // namespace

TEST_CASE("a passage that fits ends with 0, one that does not with 1") {
  CHECK(run({"plan", easy, "-i", "bassoon"}).code == 0);
  const Run slow = run({"plan", demo, "-i", "bassoon", "--bars", "9"});
  CHECK(slow.code == 0);
  const Run fast = run({"plan", demo, "-i", "bassoon", "--bars", "10"});
  CHECK(fast.code == 1);
  CHECK(fast.out.find("does not fit") != std::string::npos);
}

TEST_CASE("a wrong command line ends with 3 and says what is wrong") {
  CHECK(run({}).code == 3);
  CHECK(run({"plan"}).code == 3);
  CHECK(run({"plan", easy}).err.find("--instrument is required") != std::string::npos);
  CHECK(run({"plan", easy, "-i", "bassoon", "--tempo", "fast"}).code == 3);
  CHECK(run({"plan", easy, "-i", "bassoon", "--tempo", "0"}).code == 3);
  CHECK(run({"plan", easy, "-i", "bassoon", "--level", "angel"}).code == 3);
  CHECK(run({"trills", "-i", "bassoon", "--between", "C2"}).code == 3);
  CHECK(run({"frobnicate"}).code == 3);
  CHECK(run({"--help"}).code == 0);
  CHECK(run({"--version"}).out.starts_with("fingerway "));
}

TEST_CASE("bad input ends with 2 and a message with place and hint") {
  const ScratchFolder scratch;
  const auto told = [](const Run& result, const std::string& message) {
    INFO(result.err);
    CHECK(result.code == 2);
    CHECK(result.out.empty());
    CHECK(result.err.find(message) != std::string::npos);
  };
  told(run({"plan", easy, "-i", "basoon"}), "no instrument 'basoon' (did you mean 'bassoon'?");
  told(run({"plan", easy, "-i", "bassoon+low-key-roller"}), "did you mean 'low-key-rollers'?");
  told(run({"plan", easy, "-i", "bassoon", "--bars", "3-99"}), easy + ": part P1: no bar '99' (bars 1 to 8)");
  told(run({"plan", easy, "-i", "bassoon", "--bars", "5-3"}), "bar '3' comes before bar '5'");
  told(run({"plan", easy, "-i", "bassoon", "--part", "Tuba"}), "Tuba");
  told(run({"plan", easy, "-i", "bassoon", "--explain", "soon"}), "no bar 'soon' (bars 1 to 8)");
  told(run({"plan", easy, "-i", "bassoon", "--explain", "1:77"}), "notes of bar 1 start at beats");
  told(run({"plan", easy, "-i", "bassoon", "--latch", "whisper-lok"}), "did you mean 'whisper-lock'?");
  told(run({"trills", "-i", "bassoon", "--between", "H2", "C3"}), "'H2' is not a note name");
  told(run({"trills", "-i", "bassoon", "--between", "A1", "C3"}), "A1 is outside the range of bassoon (Bb1 to D5)");

  const std::string words = scratch.write("words.xml", "this is no score\n").string();
  told(run({"plan", words, "-i", "bassoon"}), words + ":");
  const std::string page = scratch.write("page.xml", "<html><body/></html>\n").string();
  told(run({"plan", page, "-i", "bassoon"}), page + ":");
  const std::string whole = text_of(easy);
  const std::string cut = scratch.write("cut.musicxml", whole.substr(0, whole.size() / 2)).string();
  told(run({"plan", cut, "-i", "bassoon"}), cut + ":");
}

TEST_CASE("what cannot be read or written ends with 4") {
  const ScratchFolder scratch;
  const Run missing = run({"plan", (scratch.path() / "nowhere.musicxml").string(), "-i", "bassoon"});
  CHECK(missing.code == 4);
  CHECK(missing.err.find("nowhere.musicxml: no such file") != std::string::npos);
  CHECK(run({"plan", scratch.path().string(), "-i", "bassoon"}).code == 4);
  const Run folder = run({"plan", easy, "-i", "bassoon", "--json", scratch.path().string()});
  CHECK(folder.code == 4);
  CHECK(folder.err.find("is a folder") != std::string::npos);
  CHECK(run({"plan", easy, "-i", "bassoon", "--json", (scratch.path() / "no/such/folder.json").string()}).code == 4);
}

TEST_CASE("when one output cannot be written none is, and what was there stays") {
  const ScratchFolder scratch;
  const std::string old = scratch.write("plan.json", "old").string();
  const Run result = run(
      {"plan", easy, "-i", "bassoon", "--json", old, "--csv", (scratch.path() / "missing-folder/plan.csv").string()});
  CHECK(result.code == 4);
  CHECK(text_of(old) == "old");
  CHECK(files_in(scratch.path()) == 1);
  CHECK(run({"plan", easy, "-i", "bassoon", "--json", old}).code == 0);
  CHECK(nlohmann::json::parse(text_of(old)).at("format") == "fingerway/plan");
  CHECK(files_in(scratch.path()) == 1);
}

TEST_CASE("an output through a link replaces the file the link leads to") {
  const ScratchFolder scratch;
  const fs::path target = scratch.write("target.json", "old");
  const fs::path link = scratch.path() / "link.json";
  fs::create_symlink(target, link);
  CHECK(run({"plan", easy, "-i", "bassoon", "--json", link.string()}).code == 0);
  CHECK(fs::is_symlink(link));
  CHECK(text_of(target) != "old");
}

TEST_CASE("JSON to standard output comes alone") {
  const Run result = run({"plan", easy, "-i", "bassoon", "--json", "-"});
  CHECK(nlohmann::json::parse(result.out).at("notes").size() == 23);
  const Run trills = run({"trills", "-i", "bassoon", "--between", "Db2", "Eb2", "--json", "-"});
  CHECK(nlohmann::json::parse(trills.out).at("pairs").at(0).at("verdict") == "out-of-reach");
}

TEST_CASE("notes outside the range are told with their place, and the rest is planned") {
  const ScratchFolder scratch;
  const std::string file =
      scratch.write("high.musicxml", score_with(note("C", 3) + note("C", 7) + note("D", 3))).string();
  const Run result = run({"plan", file, "-i", "bassoon", "--json", "-"});
  CHECK(result.code == 1);
  CHECK(result.err == file + ": part P1 measure 1: no fingering for C7 on bassoon (its range is Bb1 to D5)\n");
  const auto json = nlohmann::json::parse(result.out);
  CHECK(json.at("summary").at("complete") == false);
  CHECK(json.at("notes").at(2).at("pressed").contains("L1"));
}

TEST_CASE("planning twice gives the same bytes") {
  CHECK(run({"plan", demo, "-i", "bassoon", "--json", "-"}).out ==
        run({"plan", demo, "-i", "bassoon", "--json", "-"}).out);
}

TEST_CASE("what a conversion gains and loses does not depend on which instrument is named first") {
  const std::string converted = "bassoon+interlinked-low-keys";
  const Run one = run({"chart", "-i", "bassoon", "--against", converted, "--json", "-"});
  const Run other = run({"chart", "-i", converted, "--against", "bassoon", "--json", "-"});
  CHECK(one.code == 0);
  CHECK(one.out == other.out);
  CHECK_FALSE(nlohmann::json::parse(one.out).at("lost").empty());
}

TEST_CASE("choices are kept, and choices that cannot be kept are told with their place") {
  const ScratchFolder scratch;
  const Run price = run({"price", demo, "-i", "bassoon", "--choices", "scores/own-way.yaml", "--json", "-"});
  CHECK(price.code == 1);
  const std::string head = "fingerway: choices\nversion: 1\n";
  const auto refused = [&](const std::string& text, const std::string& message) {
    const std::string file = scratch.write("choices.yaml", head + text).string();
    const Run result = run({"plan", easy, "-i", "bassoon", "--choices", file});
    INFO(result.err);
    CHECK(result.code == 2);
    CHECK(result.err.find(message) != std::string::npos);
  };
  refused("pins:\n  - {at: \"1:1\", with: [R4.fsharpe]}\n",
          "choices.yaml:4:5: no touch 'R4.fsharpe' on bassoon (did you mean "
          "'R4.fsharp'?)");
  refused("pins:\n  - {at: \"40:1\", with: [R4.fsharp]}\n", "no bar '40'");
  refused("pins:\n  - {at: \"1:1\", fingering: {press: [L1.hole]}}\n", "these touches do not sound");
  refused("bans:\n  - {touches: [L1.hole]}\n", "the choices leave no fingering for");
  refused("pins:\n  - {at: \"1:1\"}\n", "a pin needs either 'fingering' or 'with'");
}

TEST_CASE("check finds the faults of every file it is given") {
  const ScratchFolder scratch;
  CHECK(run({"check", "instruments/bassoon.yaml", "instruments/motion.yaml", "scores/own-way.yaml"}).code == 0);
  const std::string odd = scratch.write("odd.yaml", "fingerway: sonata\nversion: 1\n").string();
  const Run result = run({"check", "instruments/bassoon.yaml", odd});
  CHECK(result.code == 2);
  CHECK(result.out == "instruments/bassoon.yaml: sound\n");
  CHECK(result.err.find("odd.yaml:1:1: 'sonata' is no kind of file known here") != std::string::npos);
}

TEST_CASE("marks come off again byte for byte, and marks that stand in a score can be kept") {
  const ScratchFolder scratch;
  const std::string marked = (scratch.path() / "marked.musicxml").string();
  const std::string plain = (scratch.path() / "plain.musicxml").string();
  CHECK(run({"plan", demo, "-i", "bassoon", "--mark", "all", "--musicxml", marked}).code == 1);
  CHECK(text_of(marked) != text_of(demo));
  CHECK(run({"plan", marked, "-i", "bassoon", "--unmark", "--musicxml", plain}).code == 0);
  CHECK(text_of(plain) == text_of(demo));
  CHECK(run({"plan", marked, "-i", "bassoon", "--unmark"}).err.find("add --musicxml FILE") != std::string::npos);

  const auto fingerings = [](const Run& result) {
    std::vector<nlohmann::json> pressed;
    const auto plan = nlohmann::json::parse(result.out);
    for (const auto& note : plan.at("notes")) pressed.push_back(note.at("pressed"));
    return pressed;
  };
  // On the converted instrument other fingerings are best here, but the marked ones are kept.
  const std::vector<std::string> converted = {"plan",   marked, "-i",     "bassoon+interlinked-low-keys",
                                              "--bars", "2-4",  "--json", "-"};
  std::vector<std::string> kept = converted;
  kept.emplace_back("--keep-marked");
  const auto as_marked =
      fingerings(run({"plan", marked, "-i", "bassoon", "--bars", "2-4", "--json", "-", "--keep-marked"}));
  CHECK(as_marked.size() == 16);
  CHECK_FALSE(fingerings(run(converted)) == as_marked);
  CHECK(fingerings(run(kept)) == as_marked);
}

TEST_CASE("the parts of a score are listed with their range") {
  const Run parts = run({"plan", demo, "-i", "bassoon", "--parts", "--json", "-"});
  CHECK(parts.code == 0);
  const auto part = nlohmann::json::parse(parts.out).at("parts").at(0);
  CHECK(part.at("id") == "P1");
  CHECK(part.at("lowest") == "Bb1");
  CHECK(run({"plan", demo, "-i", "bassoon", "--parts"}).out.find("Bassoon") != std::string::npos);
}
