// Files made to do harm: each is refused with a message or read for what it is, in bounded time and memory.
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

#include "app/limited_run.hpp"
#include "fingerway/base/text.hpp"
#include "read/archive.hpp"

namespace {

using namespace fingerway;
using Named = std::vector<std::pair<std::string, std::string>>;

std::string repeated(const std::string& text, std::size_t times) {
  std::string all;
  all.reserve(text.size() * times);
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

const std::string note = "<note><pitch><step>A</step><octave>4</octave></pitch><duration>1</duration></note>";

std::string score(const std::string& content, const std::string& before = "", const std::string& head = "") {
  return "<?xml version=\"1.0\" encoding=\"UTF-8\"?>" + head +
         "<score-partwise><part-list><score-part id=\"P1\"><part-name>Treble "
         "recorder</part-name></score-part></part-list>" +
         before + "<part id=\"P1\"><measure number=\"1\"><attributes><divisions>1</divisions></attributes>" + content +
         "</measure></part></score-partwise>";
}

/// Every line of a message is one that can be shown, and there are not too many of them.
void require_readable(const std::string& messages) {
  INFO(messages.substr(0, 2000));
  REQUIRE(!messages.empty());
  std::size_t lines = 0;
  for (std::size_t start = 0; start < messages.size(); ++lines) {
    const std::size_t end = std::min(messages.find('\n', start), messages.size());
    const std::string line = messages.substr(start, end - start);
    CHECK(one_line(line) == line);
    CHECK(line.size() < 600);
    start = end + 1;
  }
  CHECK(lines <= 60);
}

/// Refused with exit code 2 and messages; never a crash, never for want of memory or time.
void require_refused(const Run& told) {
  INFO(told.err.substr(0, 1000));
  CHECK(told.code == 2);
  CHECK(told.out.empty());
  CHECK(told.err.find("a fault in fingerway itself") == std::string::npos);
  require_readable(told.err);
}

bool no_program() {
  if (have_program()) return false;
  WARN("not tried: FINGERWAY_PROGRAM names no program");
  return true;
}

}  // namespace

TEST_CASE("scores made to do harm are refused with a reason") {
  if (no_program()) return;
  const ScratchFolder scratch;
  const Named files = {
      {"no end of an attribute", "<score-partwise version=\"" + std::string(20'000'000, 'x')},
      {"no end of a comment", score("<!--" + repeated("-", 100'000))},
      {"no end of a CDATA section", score("<![CDATA[" + std::string(100'000, ']'))},
      {"a document type nested a million deep", "<!DOCTYPE score-partwise " + repeated("[<!ELEMENT ", 1'000'000)},
      {"elements opened a million deep", score(repeated("<x>", 1'000'000))},
      {"bytes that are no text", score("<note>\xff\xfe\x80</note>")},
      {"an overlong slash", score("<words>\xc0\xaf</words>")},
      {"zero bytes", score(std::string(100, '\0'))},
      {"half a letter of UTF-16", std::string("\xff\xfe<\0a", 5)},
      {"a duration beyond all numbers",
       score("<note><pitch><step>A</step><octave>4</octave></pitch><duration>1e400</duration></note>")},
      {"a duration of many digits", score("<note><pitch><step>A</step><octave>4</octave></pitch><duration>" +
                                          std::string(100'000, '9') + "</duration></note>")},
      {"a duration that is no number",
       score("<note><pitch><step>A</step><octave>4</octave></pitch><duration>NaN</duration></note>")},
      {"an octave beyond int",
       score("<note><pitch><step>A</step><octave>2147483648</octave></pitch><duration>1</duration></note>")},
      {"an infinite alteration",
       score("<note><pitch><step>A</step><alter>inf</alter><octave>4</octave></pitch><duration>1</duration></note>")},
      {"no divisions to divide by", score("<attributes><divisions>0</divisions></attributes>" + note)},
      {"a time signature of nothing",
       score("<attributes><time><beats>4</beats><beat-type>0</beat-type></time></attributes>" + note)},
      {"a billion repeats",
       score(note + "<barline location=\"right\"><repeat direction=\"backward\" times=\"2147483647\"/></barline>")},
      {"nothing", ""},
      {"white space", std::string(1'000'000, ' ')},
  };
  for (const auto& [what, text] : files) {
    INFO(what);
    require_refused(limited_run({"plan", scratch.write("hostile.musicxml", text).string(), "-i", "treble-recorder"}));
  }
}

TEST_CASE("scores that only look harmful are read for what they are") {
  if (no_program()) return;
  const ScratchFolder scratch;
  const std::string secret = scratch.write("secret.txt", "the secret of this test").string();
  std::string bomb = "<!DOCTYPE score-partwise [<!ENTITY a0 \"ha\">";
  for (int i = 1; i < 30; ++i) {
    const std::string before = "&a" + std::to_string(i - 1) + ";";
    bomb += "<!ENTITY a" + std::to_string(i) + " \"" + repeated(before, 10) + "\">";
  }
  bomb += "]>";
  const Named files = {
      {"an entity bomb", score("<direction><words>&a29;</words></direction>" + note, "", bomb)},
      {"an entity that names a file",
       score("<direction><words>&x;</words></direction>" + note, "<credit><credit-words>&x;</credit-words></credit>",
             "<!DOCTYPE score-partwise [<!ENTITY x SYSTEM \"file://" + secret + "\">]>")},
      {"a document type of another place", score(note, "", "<!DOCTYPE score-partwise SYSTEM \"" + secret + "\">")},
      {"elements a million deep", score(repeated("<x>", 1'000'000) + repeated("</x>", 1'000'000) + note)},
      {"an attribute of twenty million letters", score("<x a=\"" + std::string(20'000'000, 'x') + "\"/>" + note)},
      {"a hundred thousand attributes", score("<x" + repeated(" a=\"\"", 100'000) + "/>" + note)},
      {"a name of a million letters", score("<" + std::string(1'000'000, 'x') + "/>" + note)},
      {"a processing instruction for another", score("<?php system('true') ?>" + note)},
      {"a tempo beyond all numbers", score("<sound tempo=\"1e999\"/>" + note)},
      {"a slur of a number beyond int", score("<direction/>" + note +
                                              "<note><rest/><duration>1</duration><notations><slur type=\"start\" "
                                              "number=\"99999999999\"/></notations></note>")},
  };
  for (const auto& [what, text] : files) {
    INFO(what);
    const std::string file = scratch.write("hostile.musicxml", text).string();
    const std::string marked = (scratch.path() / "marked.musicxml").string();
    const Run told = limited_run({"plan", file, "-i", "treble-recorder", "--musicxml", marked});
    INFO(told.err.substr(0, 1000));
    // What is out of range is told as such; nothing else is wrong with these.
    CHECK((told.code == 0 || told.code == 1 || told.code == 2));
    if (told.code == 2) require_readable(told.err);
    CHECK(told.err.find("a fault in fingerway itself") == std::string::npos);
    CHECK((told.out + told.err).find("the secret") == std::string::npos);
  }
}

TEST_CASE("archives made to do harm are refused, and nothing is unpacked beside them") {
  if (no_program()) return;
  const ScratchFolder scratch;
  const std::string plain = score(note);
  const auto names = [&](const std::string& path) { return container_for({{path, ""}}); };
  const std::vector<std::pair<std::string, Entries>> archives = {
      {"a way out by dots", {names("../evil.xml"), {"../evil.xml", plain}}},
      {"a way out in the middle", {names("a/../../evil.xml"), {"a/../../evil.xml", plain}}},
      {"an absolute path", {names("/tmp/fingerway-evil.xml"), {"/tmp/fingerway-evil.xml", plain}}},
      {"a path of another system", {names("..\\evil.xml"), {"..\\evil.xml", plain}}},
      {"a drive", {names("C:evil.xml"), {"C:evil.xml", plain}}},
      {"a container file that leads out", {names("../../etc/passwd"), {"s.xml", plain}}},
      {"a container file nested a million deep",
       {{"META-INF/container.xml", repeated("<x>", 1'000'000)}, {"s.xml", plain}}},
      {"zeros without end", {names("s.xml"), {"s.xml", std::string(100'000'000, '\0')}}},
      {"an archive in the archive", {names("s.xml"), {"s.xml", archive_of({{"s.xml", plain}})}}},
      {"no score", {{"readme.txt", "nothing"}}},
  };
  for (const auto& [what, entries] : archives) {
    INFO(what);
    const std::string file = scratch.write("in/hostile.mxl", archive_of(entries)).string();
    require_refused(limited_run({"plan", file, "-i", "treble-recorder"}));
    CHECK(!std::filesystem::exists(scratch.path() / "evil.xml"));
    CHECK(!std::filesystem::exists("/tmp/fingerway-evil.xml"));
  }
  // Every cut of an archive is refused, or read whole where only its comment is missing.
  const std::string whole = archive_of({names("s.xml"), {"s.xml", plain}});
  for (std::size_t cut = 0; cut < whole.size(); cut += 41) {
    const std::string file = scratch.write("in/cut.mxl", whole.substr(0, cut)).string();
    INFO(cut);
    require_refused(run({"plan", file, "-i", "treble-recorder"}));
  }
}

TEST_CASE("our own files made to do harm are refused with a place and a reason") {
  if (no_program()) return;
  const ScratchFolder scratch;
  const std::string deep = repeated("[", 1'000'000);
  std::string by_indent;
  for (int i = 0; i < 3000; ++i) by_indent += std::string(static_cast<std::size_t>(i), ' ') + "a:\n";
  std::string aliases = "a0: &a0 [x, x]\n";
  for (int i = 1; i < 40; ++i) {
    const std::string before = "*a" + std::to_string(i - 1);
    aliases += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" + before + ", " + before + "]\n";
  }
  std::string keys;
  for (int i = 0; i < 150'000; ++i) keys += "k" + std::to_string(i) + ": 1\n";
  const Named endings = {
      {"lists a million deep", deep},
      {"maps a million deep", repeated("{a: ", 1'000'000)},
      {"maps by indent", by_indent},
      {"an alias bomb", aliases},
      {"a hundred and fifty thousand keys", keys},
      {"one key many times", repeated("k: 1\n", 50'000)},
      {"a line without end", "k: " + std::string(7'000'000, 'x')},
      {"bytes that are no text", "k: \xff\xfe\n"},
      {"zero bytes", std::string("k: \0\0\n", 6)},
      {"escapes that steer a terminal", "k: \"\\e[31m\"\n"},
      {"a merge key", "<<: {a: 1}\n"},
      {"a tag of another language", "k: !!python/object/apply:os.system [\"true\"]\n"},
      {"a second document", "---\nk: 1\n"},
      {"a number that is none", "version: .nan\n"},
      {"a number beyond all", "version: 1e999\n"},
  };
  for (const char* kind : {"instrument", "conversion", "motion", "player", "roster", "choices", "repertoire"}) {
    for (const auto& [what, ending] : endings) {
      INFO(kind << ": " << what);
      const std::string text = std::string("fingerway: ") + kind + "\nversion: 1\n" + ending;
      const Run told = limited_run({"check", scratch.write("hostile.yaml", text).string()});
      CHECK(told.code == 2);
      CHECK(told.err.find("a fault in fingerway itself") == std::string::npos);
      require_readable(told.err + told.out);
      CHECK((told.err + told.out).find("hostile.yaml") != std::string::npos);
    }
  }
}

TEST_CASE("numbers that are none are refused in every file of ours that has numbers") {
  const ScratchFolder scratch;
  const std::string head = "version: 1\n";
  const Named files = {
      {"player", "fingerway: player\n" + head + "name: x\nhand_span: NUMBER\n"},
      {"roster",
       "fingerway: roster\n" + head +
           "passages: [{id: a, score: a.xml, tempo: NUMBER}]\npupils: [{name: x, instrument: flute, passages: [a]}]\n"},
      {"repertoire", "fingerway: repertoire\n" + head + "passages: [{score: a.xml, weight: NUMBER}]\n"},
  };
  for (const auto& [kind, text] : files) {
    for (const char* number :
         {".nan", "nan", ".inf", "-.inf", "1e999", "-1", "0", "0x10", "010", "1_000", "1,5", "''"}) {
      INFO(kind << ": " << number);
      std::string with = text;
      with.replace(with.find("NUMBER"), 6, number);
      const Run told = run({"check", scratch.write("numbers.yaml", with).string()});
      CHECK(told.code == 2);
      CHECK((told.err + told.out).find("numbers.yaml:") != std::string::npos);
    }
  }
}
