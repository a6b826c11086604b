// A payoff from the command line: folders and lists, work files, shards, merging, any number of threads.
#include <catch2/catch.hpp>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <sstream>

#include "app/program_run.hpp"
#include "app/workers.hpp"
#include "support/scratch_folder.hpp"

namespace {

using fingerway::run;
using fingerway::Run;
using fingerway::ScratchFolder;
using fingerway::text_of;
namespace fs = std::filesystem;

/// Slurred sixteenths in a bassoon part, four to a bar of 1/4: "C2 Eb2 ...".
std::string score(const std::vector<std::string>& notes, const std::string& title) {
  std::string text =
      "<?xml version=\"1.0\"?>\n<score-partwise version=\"4.0\"><movement-title>" + title +
      "</movement-title><part-list><score-part id=\"P1\"><part-name>Bassoon</part-name></score-part></part-list>"
      "<part id=\"P1\"><measure number=\"1\"><attributes><divisions>4</divisions></attributes>"
      "<sound tempo=\"92\"/>";
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const std::string& name = notes[i];
    text += "<note><pitch><step>" + name.substr(0, 1) + "</step>";
    if (name.size() > 2) text += std::string("<alter>") + (name[1] == 'b' ? "-1" : "1") + "</alter>";
    text += "<octave>" + name.substr(name.size() - 1) + "</octave></pitch><duration>1</duration><voice>1</voice>" +
            "<type>16th</type><notations>" + (i == 0 ? "<slur type=\"start\" number=\"1\"/>" : "") +
            (i + 1 == notes.size() ? "<slur type=\"stop\" number=\"1\"/>" : "") + "</notations></note>";
  }
  return text + "</measure></part></score-partwise>\n";
}

const std::vector<std::string> low = {"C2", "Eb2", "Db2", "Eb2", "B1", "Eb2"};
const std::vector<std::string> middle = {"F2", "G2", "A2", "Bb2"};

/// A folder of two small scores, and a list of them.
struct SmallRepertoire {
  ScratchFolder scratch;
  std::string folder = (scratch.path() / "scores").string();
  std::string list;

  SmallRepertoire() {
    scratch.write("scores/low.musicxml", score(low, "Low"));
    scratch.write("scores/middle.musicxml", score(middle, "Middle"));
    list = scratch
               .write("list.yaml",
                      "fingerway: repertoire\nversion: 1\nname: two\npassages:\n"
                      "  - {score: scores/low.musicxml, name: Low, weight: 2, times: 3}\n"
                      "  - {score: scores/middle.musicxml}\n")
               .string();
  }
  [[nodiscard]] std::string path(const std::string& name) const { return (scratch.path() / name).string(); }
  [[nodiscard]] std::vector<std::string> command(const std::vector<std::string>& more,
                                                 const std::string& samples = "1") const {
    std::vector<std::string> words = {
        "payoff", list, "-i", "bassoon", "--conversions", "interlinked-low-keys,low-key-rollers", "--samples", samples};
    words.insert(words.end(), more.begin(), more.end());
    return words;
  }
};

}  // namespace

TEST_CASE("a payoff weighs passages as the list says") {
  const SmallRepertoire small;
  const Run done = run(small.command({"--json", "-"}, "0"));
  CHECK(done.code == 0);
  const auto json = nlohmann::json::parse(done.out);
  CHECK(json["format"] == "fingerway/payoff");
  REQUIRE(json["sets"].size() == 4);
  const auto& linked = json["sets"][1];
  CHECK(linked["conversions"] == nlohmann::json({"interlinked-low-keys"}));
  const auto& of_low = linked["passages"][0];
  CHECK(of_low["gain"].get<double>() ==
        Approx(6 * (of_low["before"]["points"].get<double>() - of_low["after"]["points"].get<double>())));
  CHECK(linked["gain"].get<double>() ==
        Approx(of_low["gain"].get<double>() + linked["passages"][1]["gain"].get<double>()));
  CHECK(linked["gain"].get<double>() > 0.0);
  // Trade fact: interlinked low keys help on passages low in flats and sharps, and do nothing above them.
  CHECK(linked["finding"] == "pays");
  CHECK(linked["passages"][1]["gain"].get<double>() == 0.0);
  // Published (keywork choices, named in the conversion file): rollers let a little finger slide between its keys.
  CHECK(json["sets"][2]["gain"].get<double>() > 0.0);
}

TEST_CASE("adding a passage leaves the figures of the others as they were") {
  const SmallRepertoire small;
  const auto both = nlohmann::json::parse(run(small.command({"--json", "-"})).out);
  auto words = small.command({"--json", "-"});
  words[1] = small.path("scores/low.musicxml");
  const auto alone = nlohmann::json::parse(run(words).out);
  for (std::size_t set = 0; set < 4; ++set) {
    const auto& a = both["sets"][set]["passages"][0];
    const auto& b = alone["sets"][set]["passages"][0];
    CHECK(a["before"] == b["before"]);
    CHECK(a["after"] == b["after"]);
    CHECK(a["finding"] == b["finding"]);
  }
}

TEST_CASE("the answer is the same whatever the number of threads") {
  const SmallRepertoire small;
  const Run one = run(small.command({"--threads", "1", "--json", small.path("1.json"), "--csv", small.path("1.csv"),
                                     "--html", small.path("1.html")}));
  const Run three = run(small.command({"--threads", "3", "--json", small.path("3.json"), "--csv", small.path("3.csv"),
                                       "--html", small.path("3.html")}));
  CHECK(one.code == 0);
  CHECK(three.code == 0);
  for (const char* kind : {".json", ".csv", ".html"}) {
    CHECK(!text_of(small.path(std::string("1") + kind)).empty());
    CHECK(text_of(small.path(std::string("1") + kind)) == text_of(small.path(std::string("3") + kind)));
  }
  CHECK(text_of(small.path("1.html")).find("<script") == std::string::npos);
}

TEST_CASE("merged shards equal one run, byte for byte") {
  const SmallRepertoire small;
  const Run whole = run(small.command({"--json", "-"}));
  const std::string a = small.path("a.work");
  const std::string b = small.path("b.work");
  const Run first = run(small.command({"--shard", "1/2", "--work", a}));
  CHECK(first.code == 0);
  CHECK(first.out.find("shard 1/2 is done: 8 of 16 plans") != std::string::npos);

  const Run half = run({"payoff", "merge", a});
  CHECK(half.code == 2);
  CHECK(half.err.find("8 of 16 plans are missing") != std::string::npos);

  CHECK(run(small.command({"--shard", "2/2", "--work", b})).code == 0);
  const Run merged = run({"payoff", "merge", b, a, "--json", "-"});
  CHECK(merged.code == 0);
  CHECK(merged.out == whole.out);
}

TEST_CASE("work that was stopped goes on where it was, and a line cut short is done again") {
  const SmallRepertoire small;
  const Run whole = run(small.command({"--json", "-"}));
  const std::string work = small.path("x.work");
  CHECK(run(small.command({"--work", work, "--json", "-"})).out == whole.out);
  const std::string text = text_of(work);
  const auto lines = std::count(text.begin(), text.end(), '\n');
  CHECK(lines == 17);  // the request, and 2 passages x 4 sets x 2 worlds
  // As a run that was killed while it wrote would leave it.
  std::ofstream(work, std::ios::binary) << text.substr(0, text.size() / 2);
  CHECK(run(small.command({"--work", work, "--json", "-"})).out == whole.out);
  const std::string again = text_of(work);
  CHECK(std::count(again.begin(), again.end(), '\n') == lines);
  // Nothing is left to do: the file stays as it is.
  CHECK(run(small.command({"--work", work, "--json", "-"})).out == whole.out);
  CHECK(text_of(work) == again);
}

TEST_CASE("a work file of another payoff, or no work file at all, is left alone") {
  const SmallRepertoire small;
  const std::string work = small.path("x.work");
  CHECK(run(small.command({"--work", work})).code == 0);
  const std::string before = text_of(work);
  const Run other = run(small.command({"--work", work, "--budget", "5"}));
  CHECK(other.code == 2);
  CHECK(other.err.find("was started for another payoff") != std::string::npos);
  CHECK(text_of(work) == before);

  const std::string stranger = small.scratch.write("notes.txt", "my only copy, without a line end").string();
  CHECK(run(small.command({"--work", stranger})).code == 2);
  CHECK(text_of(stranger) == "my only copy, without a line end");
  CHECK(run({"payoff", "merge", stranger}).code == 2);
  CHECK(run({"payoff", "merge", small.path("none.work")}).code == 4);

  const std::string damaged = small.scratch.write("damaged.work", before + "{\"unit\": 7}\n").string();
  const Run bad = run({"payoff", "merge", damaged});
  CHECK(bad.code == 2);
  CHECK(bad.err.find("damaged.work:18") != std::string::npos);
}

TEST_CASE("a work file that was tampered with is refused, or what does not fit is planned again") {
  const SmallRepertoire small;
  const std::string work = small.path("tampered.work");
  const auto words = small.command({"--work", work, "--json", "-"}, "0");
  const Run honest = run(words);
  REQUIRE(honest.code == 0);
  const std::string whole = text_of(work);
  const auto with = [&](const std::string& old, const std::string& by) {
    const std::size_t at = whole.find(old, whole.find('\n'));
    REQUIRE(at != std::string::npos);
    return std::string(whole).replace(at, old.size(), by);
  };
  // Found by fuzzing: numbers beyond their range were taken for others.
  for (const char* number : {"1e20", "-1", "0.5", "99999999999999999999", "true", "null"}) {
    INFO(number);
    small.scratch.write("tampered.work", with("\"notes\":[[[", std::string("\"notes\":[[[") + number + ",0,0],[["));
    CHECK(run(words).code == 2);
  }
  small.scratch.write("tampered.work", with("\"micro_points\":", "\"micro_points\":9223372036854775807,\"was\":"));
  CHECK(run(words).code == 2);
  // Fewer notes than the passage has, or touches the instrument has not got, are no outcome of it.
  const std::size_t verdicts = whole.find("\"verdicts\":\"") + 12;
  const std::size_t end = whole.find('"', verdicts);
  const std::size_t line_end = whole.find('\n', end);
  const std::size_t notes = whole.find(",\"notes\"", end);
  REQUIRE(notes < line_end);
  const std::string shorter = whole.substr(0, verdicts) + "\"}}" + whole.substr(line_end);
  const std::string other_touches = with("\"notes\":[[[", "\"notes\":[[[9223372036854775808,0,0],null,null],[[");
  for (const std::string& text : {shorter, other_touches}) {
    small.scratch.write("tampered.work", text);
    const Run again = run(words);
    INFO(again.err);
    if (again.code == 0) {
      CHECK(again.out == honest.out);
    } else {
      CHECK(again.code == 2);
    }
  }
}

TEST_CASE("a shard needs a work file, and must be one of the parts") {
  const SmallRepertoire small;
  CHECK(run(small.command({"--shard", "1/2"})).code == 2);
  for (const char* shard : {"0/2", "3/2", "1", "1/", "/2", "1/0", "a/b", "1/2/3", "-1/2"}) {
    CAPTURE(shard);
    CHECK(run(small.command({"--shard", shard, "--work", small.path("w")})).code == 2);
  }
}

TEST_CASE("files that cannot be used are skipped with a note") {
  const SmallRepertoire small;
  small.scratch.write("scores/broken.xml", "<score-partwise>");
  small.scratch.write("scores/high.musicxml", score({"C7", "D7"}, "High"));
  small.scratch.write("scores/text.txt", "not looked at");
  auto words = small.command({"--json", "-"}, "0");
  words[1] = small.folder;
  const Run done = run(words);
  CHECK(done.code == 0);
  const auto json = nlohmann::json::parse(done.out);
  CHECK(json["repertoire"]["passages"].size() == 2);
  REQUIRE(json["repertoire"]["skipped"].size() == 2);
  CHECK(json["repertoire"]["skipped"][1]["why"].get<std::string>().find("2 of its 2 notes") == 0);
  CHECK(done.err.find("broken.xml: skipped") != std::string::npos);

  const std::string empty = small.path("empty");
  fs::create_directories(empty);
  words[1] = empty;
  CHECK(run(words).code == 2);
  words[1] = small.path("nowhere.yaml");
  CHECK(run(words).code == 4);
  small.scratch.write("only-bad/broken.xml", "<score-partwise>");
  words[1] = small.path("only-bad");
  CHECK(run(words).code == 2);
}

TEST_CASE("a budget keeps out sets that may cost more, and the best set is within it") {
  const SmallRepertoire small;
  const auto json = nlohmann::json::parse(run(small.command({"--json", "-", "--budget", "450"})).out);
  // Each conversion is always told; of sets only those within the budget.
  CHECK(json["sets"].size() == 3);
  CHECK(json["best"] == 2);
  CHECK_FALSE(json["sets"][1]["within_budget"].get<bool>());
  const Run text = run(small.command({"--budget", "450"}));
  CHECK(text.out.find("Best set within 450 EUR: little-finger rollers") != std::string::npos);
  CHECK(text.out.find("qualified repairer") != std::string::npos);
}

TEST_CASE("a payoff wants a stock instrument, and conversions that are there") {
  const SmallRepertoire small;
  CHECK(run({"payoff", small.list}).code == 3);
  CHECK(run({"payoff"}).code == 3);
  CHECK(run({"payoff", "merge"}).code == 3);
  CHECK(run({"payoff", small.list, "-i", "bassoon+low-key-rollers"}).code == 2);
  const Run unknown = run({"payoff", small.list, "-i", "bassoon", "--conversions", "wings"});
  CHECK((unknown.code == 2 || unknown.code == 4));
  CHECK(unknown.err.find("wings") != std::string::npos);
}

TEST_CASE("jobs are all done once, and the first exception is thrown") {
  std::vector<int> done(100, 0);
  fingerway::run_on_threads(done.size(), 4, [&](std::size_t i) { ++done[i]; });
  CHECK(done == std::vector<int>(100, 1));
  CHECK_THROWS_AS(fingerway::run_on_threads(10, 3,
                                            [](std::size_t i) {
                                              if (i == 4) throw std::runtime_error("four");
                                            }),
                  std::runtime_error);
  fingerway::run_on_threads(0, 4, [](std::size_t) { FAIL("nothing to do"); });
}
