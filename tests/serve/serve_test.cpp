#include <catch2/catch.hpp>
#include <fstream>
#include <regex>
#include <sstream>
#include <thread>
#include <vector>

#include "app/command_line.hpp"
#include "app/serve/guard.hpp"
#include "app/serve/store.hpp"
#include "fingerway/base/errors.hpp"
#include "served_page.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;
using nlohmann::json;

namespace {

/// Reading all instruments takes a while, so that most tests share one server.
const ServedPage& shared() {
  static const ServedPage page;
  return page;
}

json plan_request(const std::string& score) { return {{"score", score}, {"instrument", "bassoon"}, {"bars", "8-11"}}; }

std::string text_of_file(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::size_t count_of(const std::string& text, const std::string& word) {
  std::size_t count = 0;
  for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++count;
  return count;
}

}  // namespace

TEST_CASE("the server tells what there is to choose from") {
  const auto result = shared().client().Get("/api/program");
  REQUIRE(result);
  CHECK(result->status == 200);
  CHECK(result->get_header_value("Cache-Control") == "no-store");
  CHECK(result->get_header_value("X-Content-Type-Options") == "nosniff");
  CHECK(result->get_header_value("Content-Security-Policy").find("default-src 'none'") == 0);
  const json program = json::parse(result->body);
  CHECK(!shared().client().Get("/api/program", {{"Accept-Encoding", "br, gzip"}})->has_header("Content-Encoding"));
  CHECK(program["instruments"].size() >= 12);
  CHECK(program["demos"].size() == 10);
  CHECK(program["cautions"].size() == 3);
  bool found = false;
  for (const json& instrument : program["instruments"]) {
    if (instrument["id"] != "bassoon") continue;
    for (const json& conversion : instrument["conversions"]) found |= conversion["id"] == "interlinked-low-keys";
  }
  CHECK(found);
}

TEST_CASE("a score that is brought gives its parts and the instruments they fit") {
  const std::string bytes = text_of_file("scores/tenor-walk.musicxml");
  const auto result = shared().client().Post("/api/scores?name=..%2Fwalk.musicxml", bytes, "application/octet-stream");
  REQUIRE(result);
  REQUIRE(result->status == 200);
  const json score = json::parse(result->body);
  CHECK(score["name"] == "walk.musicxml");
  CHECK(score["parts"][0]["instruments"][0] == "bassoon");
  CHECK(score["parts"][0]["bars"].size() == 15);
  CHECK(shared().answer("score", {{"score", score["score"]}}) == score);
}

TEST_CASE("a score that is none gets the reader's message") {
  const auto result = shared().client().Post("/api/scores?name=x.musicxml", "<oops", "application/octet-stream");
  REQUIRE(result);
  CHECK(result->status == 400);
  CHECK(first_message(result).find("x.musicxml:1:") == 0);
}

TEST_CASE("a served plan has the numbers of the command line's") {
  const json plan = shared().answer("plan", plan_request(shared().demo("lowland-round")));
  std::ostringstream out;
  std::ostringstream err;
  const std::vector<const char*> words = {
      "fingerway", "plan", "scores/lowland-round.musicxml", "-i", "bassoon", "--bars", "8-11", "--json", "-"};
  static_cast<void>(run_command_line(static_cast<int>(words.size()), words.data(), out, err));
  const json line = json::parse(out.str());
  const json& side = plan["sides"][0];
  CHECK(side["ceiling_qpm"] == line["summary"]["ceiling_qpm"]);
  CHECK(side["awkwardness"] == line["summary"]["awkwardness"]);
  CHECK(side["worst_load"] == line["summary"]["worst_load"]);
  REQUIRE(side["notes"].size() == line["notes"].size());
  for (std::size_t i = 1; i < side["notes"].size(); ++i) {
    CHECK(side["notes"][i]["needs"] == line["notes"][i]["arrive"]["time_ms"]);
    CHECK(plan["passage"]["notes"][i]["onset_ms"] == line["notes"][i]["onset_ms"]);
    CHECK(plan["passage"]["notes"][i]["midi"] == line["notes"][i]["sounding_midi"]);
  }
}

TEST_CASE("a pin is kept to, makes the passage no lighter, and is saved and read back") {
  const std::string score = shared().demo("lowland-round");
  const json free = shared().answer("plan", plan_request(score));
  const json note = shared().answer("note", {{"plan", free["plan"]}, {"note", 9}, {"most", 3}});
  REQUIRE(note["options"].size() >= 2);
  CHECK(note["options"][0]["dearer"] == 0.0);
  CHECK(note["options"][0]["compact"] == free["sides"][0]["notes"][9]["compact"]);
  CHECK(note["options"][1]["svg"].get<std::string>().find("data-note=\"9\"") != std::string::npos);
  json pin = note["options"][1]["pin"];
  pin["note"] = 9;
  json request = plan_request(score);
  request["choices"]["pins"] = json::array({pin});
  const json pinned = shared().answer("plan", request);
  CHECK(pinned["sides"][0]["notes"][9]["compact"] == note["options"][1]["compact"]);
  CHECK(pinned["sides"][0]["notes"][9]["pinned"] == true);
  const auto saved = shared().ask("save", {{"plan", pinned["plan"]}, {"kind", "choices"}});
  REQUIRE(saved);
  CHECK(saved->get_header_value("Content-Disposition").find("lowland-round-choices.yaml") != std::string::npos);
  const json read = shared().answer("choices/read", {{"plan", free["plan"]}, {"text", saved->body}});
  pin["whole"] = true;
  CHECK(read["choices"]["pins"] == json::array({pin}));
}

TEST_CASE("choices that leave a note nothing are told") {
  json request = plan_request(shared().demo("lowland-round"));
  request["choices"]["pins"] = {{{"note", 0}, {"press", {"LT.low-d"}}}};
  CHECK(first_message(shared().ask("plan", request)).find("request: choices.pins[0]: these touches do not sound") == 0);
  request["choices"]["pins"] = {{{"note", 999}, {"press", {"LT.low-d"}}}};
  CHECK(first_message(shared().ask("plan", request)).find("no note 999") != std::string::npos);
  request["choices"]["pins"] = {{{"note", 0}, {"press", {"LT.lowd"}}}};
  CHECK(first_message(shared().ask("plan", request)).find("did you mean 'LT.low-d'?") != std::string::npos);
}

TEST_CASE("two instruments are compared on one axis") {
  json request = plan_request(shared().demo("lowland-round"));
  request["with"] = "bassoon+interlinked-low-keys";
  const json plan = shared().answer("plan", request);
  CHECK(plan["sides"].size() == 2);
  CHECK(!plan["compare"]["differing"].empty());
  CHECK(!plan["compare"]["gained"].empty());
  const json lanes = shared().answer("lanes", {{"plan", plan["plan"]}, {"spans", {{{"first", 0}, {"last", 9}}}}});
  const std::string svg = lanes["svg"][0];
  CHECK(count_of(svg, "<g data-side=") == 2);
}

TEST_CASE("lanes stand where the engraver put the notes") {
  const json plan = shared().answer("plan", plan_request(shared().demo("lowland-round")));
  const json& notes = plan["passage"]["notes"];
  const json anchors = {{notes[5]["onset_ms"], 120}, {notes[6]["onset_ms"], 200}, {notes[7]["onset_ms"], 350}};
  const json span = {{"first", 5}, {"last", 7}, {"width", 500}, {"anchors", anchors}};
  const json lanes = shared().answer("lanes", {{"plan", plan["plan"]}, {"spans", {span}}});
  const std::string svg = lanes["svg"][0];
  CHECK(svg.find("viewBox=\"0 0 500 ") != std::string::npos);
  for (const auto& [note, x] : {std::pair{5, 120}, {6, 200}, {7, 350}}) {
    const std::regex name("<g data-note=\"" + std::to_string(note) +
                          "\"><title>[^<]*</title><text class=\"note\" x=\"" + std::to_string(x) + "\"");
    CHECK(std::regex_search(svg, name));
  }
  const json back = {{notes[5]["onset_ms"], 120}, {notes[6]["onset_ms"], 80}};
  const json wrong = {{"first", 5}, {"last", 7}, {"anchors", back}};
  CHECK(first_message(shared().ask("lanes", {{"plan", plan["plan"]}, {"spans", {wrong}}}))
            .find("request: spans[0].anchors: must rise") == 0);
}

TEST_CASE("the engraving's ids name the notes that were planned") {
  const json plan = shared().answer("plan", plan_request(shared().demo("lowland-round")));
  const json engraving = shared().answer("engraving", {{"plan", plan["plan"]}});
  const std::string xml = engraving["musicxml"];
  const json& notes = plan["passage"]["notes"];
  REQUIRE(engraving["elements"].size() == notes.size());
  const std::regex step("<step>([A-G])</step>");
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const std::size_t at = xml.find("<note id=\"" + engraving["elements"][i].get<std::string>() + "\"");
    REQUIRE(at != std::string::npos);
    std::smatch found;
    const std::string rest = xml.substr(at, 600);
    REQUIRE(std::regex_search(rest, found, step));
    CHECK(found[1].str() == notes[i]["name"].get<std::string>().substr(0, 1));
  }
  CHECK(xml.find("<fingering>") != std::string::npos);
}

TEST_CASE("every kind of file is saved, and the page takes over drawing only") {
  const json plan = shared().answer("plan", plan_request(shared().demo("lowland-round")));
  const auto saved = [&](json request) {
    request["plan"] = plan["plan"];
    const auto result = shared().ask("save", request);
    REQUIRE(result);
    REQUIRE(result->status == 200);
    return result->body;
  };
  CHECK(saved({{"kind", "musicxml"}}).find("<?fingerway mark?>") != std::string::npos);
  CHECK(json::parse(saved({{"kind", "json"}}))["format"] == "fingerway/plan");
  CHECK(saved({{"kind", "csv"}}).find("\r\n") != std::string::npos);
  const json system = {
      {"svg",
       "<svg onload='a()' viewBox='0 0 9 9'><script>a()</script><g id='b' style='x' onclick='a()'><path d='M0 0'/></g>"
       "<use xlink:href='#b'/><use href='http://elsewhere.example/#x'/><foreignObject><p>hi</p></foreignObject>"
       "<rect fill='url(http://elsewhere.example/)'/></svg>"},
      {"first", 0},
      {"last", 4},
      {"width", 700}};
  const std::string page = saved({{"kind", "page"}, {"systems", {system}}});
  CHECK(page.find("<path d=\"M0 0\"") != std::string::npos);
  CHECK(page.find("href=\"#line-1-b\"") != std::string::npos);
  for (const std::string bad : {"script>", "onload", "onclick", "elsewhere.example", "foreignObject", "style='x'"}) {
    INFO(bad);
    CHECK(page.find(bad) == std::string::npos);
  }
  CHECK(page.find("id=\"note-4\"") != std::string::npos);
}

TEST_CASE("trills are told as a board and one by one") {
  const json board = shared().answer("trills", {{"instrument", "treble-recorder"}, {"widest", 2}});
  CHECK(board["pairs"].size() > 20);
  CHECK(board["notes"].size() > 10);
  const json& first = board["pairs"][0];
  const json one =
      shared().answer("trill", {{"instrument", "treble-recorder"}, {"from", first["from"]}, {"to", first["to"]}});
  CHECK(one["rate"] == first["rate"]);
  CHECK(one["svg"].get<std::string>().find("<svg") == 0);
}

TEST_CASE("requests that are wrong are refused with a sentence that names the field") {
  const std::string score = shared().demo("first-steps");
  const auto told = [&](const std::string& body) {
    const auto result = shared().client().Post("/api/plan", body, json_type);
    REQUIRE(result);
    CHECK(result->status == 400);
    return first_message(result);
  };
  CHECK(told("").find("request: is not JSON") == 0);
  CHECK(told("[]") == "request: must be a JSON object (as {\"plan\": ...})");
  CHECK(told("{\"score\":1,\"instrument\":\"bassoon\"}") == "request: score: must be a text (in double quotes)");
  CHECK(told(R"({"score":"x","instrumnt":"bassoon"})").find("request: instrument: is missing") == 0);
  CHECK(told(R"({"score":"x","instrument":"bassoon","tempo":0})") == "request: tempo: must be a number from 1 to 1000");
  CHECK(told(R"({"score":"x","instrument":"bassoon","bar":"1"})") ==
        "request: bar: is not a field of this request (did you mean 'bars'?)");
  CHECK(told(std::string(5000, '[') + std::string(5000, ']')).find("nested more than") != std::string::npos);
  json request = {{"score", score}, {"instrument", "basson"}};
  CHECK(first_message(shared().ask("plan", request)) ==
        "request: instrument: no instrument 'basson' (did you mean 'bassoon'?)");
  request["instrument"] = "bassoon+interlinked-low-key";
  CHECK(first_message(shared().ask("plan", request)).find("did you mean 'interlinked-low-keys'?") != std::string::npos);
}

TEST_CASE("a request never names a file of the server") {
  const std::string score = shared().demo("first-steps");
  for (const std::string path : {"/etc/passwd", "instruments/bassoon.yaml", "../instruments/bassoon.yaml"}) {
    CHECK(shared().ask("plan", {{"score", score}, {"instrument", path}})->status == 400);
    CHECK(shared().ask("demo", {{"demo", path}})->status == 400);
  }
  const std::string player = "fingerway: player\nversion: 1\ninstrument: instruments/bassoon.yaml\n";
  const auto result = shared().ask("plan", {{"score", score}, {"instrument", "bassoon"}, {"player", player}});
  CHECK(first_message(result).find("request: player: no instrument") == 0);
  for (const std::string path : {"/page/../instruments/bassoon.yaml", "/page/%2e%2e/instruments/bassoon.yaml",
                                 "/page//etc/passwd", "/page/.hidden", "/guide/..%2f..%2fREADME.md", "/page/a\\b"}) {
    INFO(path);
    const auto got = shared().client().Get(path);
    REQUIRE(got);
    CHECK(got->status == 404);
  }
  CHECK(!plain_path("a/../b"));
  CHECK(!plain_path("a//b"));
  CHECK(plain_path("base/a-b_c.mjs") == "base/a-b_c.mjs");
}

TEST_CASE("other hosts, other origins and forms are refused") {
  auto client = shared().client();
  CHECK(client.Get("/api/program", {{"Host", "elsewhere.example"}})->status == 403);
  CHECK(client.Get("/api/program", {{"Host", "127.0.0.1"}})->status == 403);
  CHECK(client.Get("/api/program", {{"Origin", "http://elsewhere.example"}})->status == 403);
  CHECK(client.Get("/api/program", {{"Origin", "null"}})->status == 403);
  const std::string own = "127.0.0.1:" + std::to_string(shared().port());
  CHECK(client.Get("/api/program", {{"Origin", "http://" + own}})->status == 200);
  const auto post = [&](const httplib::Headers& headers, const char* type) {
    return shared().client().Post("/api/demo", headers, R"({"demo":"first-steps"})", type)->status;
  };
  CHECK(post({{"Origin", "http://elsewhere.example"}}, json_type) == 403);
  CHECK(post({}, "text/plain") == 415);
  CHECK(post({}, json_type) == 200);
  const httplib::MultipartFormDataItems form = {{"a", "b", "c.xml", "text/xml"}};
  CHECK(shared().client().Post("/api/scores", form)->status == 415);
  CHECK(own_names(80, "Box").back() == "box");
}

TEST_CASE("what is too large is refused, what is dropped is gone") {
  ServiceLimits limits;
  limits.upload_bytes = 1 << 20;
  limits.json_bytes = 2'000;
  limits.notes = 50;
  limits.kept_score_bytes = 60'000;
  const ServedPage page(limits);
  const auto large = page.client().Post("/api/scores?name=a", std::string(3 << 20, 'x'), "application/octet-stream");
  REQUIRE(large);
  CHECK(large->status == 413);
  CHECK(page.client().Post("/api/plan", std::string(2'001, ' '), json_type)->status == 413);
  const std::string first = page.demo("lowland-round");
  CHECK(first_message(page.ask("plan", {{"score", first}, {"instrument", "bassoon"}}))
            .find("has 106 notes; at most 50 are planned at once (choose some bars)") != std::string::npos);
  static_cast<void>(page.demo("tenor-walk"));
  const auto gone = page.ask("plan", {{"score", first}, {"instrument", "bassoon"}});
  CHECK(gone->status == 410);
  CHECK(first_message(gone) == "the score is no longer kept: send it again");
  CHECK(page.ask("lanes", {{"plan", "0123"}})->status == 410);
}

TEST_CASE("the store drops what was not used for longest, and its tokens differ") {
  Store<int> store(10);
  store.put("a", std::make_shared<int>(1), 4);
  store.put("b", std::make_shared<int>(2), 4);
  CHECK(store.find("a") != nullptr);
  store.put("c", std::make_shared<int>(3), 4);
  CHECK(store.find("b") == nullptr);
  CHECK(*store.find("a") == 1);
  CHECK(*store.find("c") == 3);
  store.put("a", std::make_shared<int>(5), 9);
  CHECK(*store.find("a") == 5);
  CHECK(store.find("c") == nullptr);
  CHECK(new_token() != new_token());
  CHECK(new_token().size() == 32);
}

TEST_CASE("several plans at once are each their own") {
  const std::string score = shared().demo("lowland-round");
  std::vector<std::string> alone;
  for (int bar = 8; bar < 12; ++bar) {
    alone.push_back(shared()
                        .answer("plan", {{"score", score}, {"instrument", "bassoon"}, {"bars", std::to_string(bar)}})
                        .at("sides")
                        .dump());
  }
  std::vector<std::string> together(16);
  {
    std::vector<std::jthread> threads;
    for (std::size_t t = 0; t < together.size(); ++t) {
      threads.emplace_back([&, t] {
        const json request = {{"score", score}, {"instrument", "bassoon"}, {"bars", std::to_string(8 + t % 4)}};
        together[t] = shared().answer("plan", request).at("sides").dump();
      });
    }
  }
  for (std::size_t t = 0; t < together.size(); ++t) CHECK(together[t] == alone[t % 4]);
}

TEST_CASE("a choice of a repeat's second time is saved as such, and read back there") {
  const std::string score = shared().demo("low-bridge");
  const json ask = {{"score", score}, {"part", "P1"}, {"instrument", "bassoon"}};
  const json plan = shared().answer("plan", ask);
  REQUIRE(!plan.is_null());
  std::size_t again = 0;
  for (const json& bar : plan["passage"]["bars"]) {
    if (bar["pass"] == 2 && again == 0) again = bar["first_note"];
  }
  REQUIRE(again > 0);
  json chosen = ask;
  const json options = shared().answer("note", {{"plan", plan["plan"]}, {"note", again}})["options"];
  json pin = options[0]["pin"];
  pin["note"] = again;
  chosen["choices"]["pins"] = json::array({pin});
  const json kept = shared().answer("plan", chosen);
  REQUIRE(!kept.is_null());
  const auto saved = shared().ask("save", {{"plan", kept["plan"]}, {"kind", "choices"}});
  CHECK(saved->body.find(" time 2\"") != std::string::npos);
  const json read = shared().answer("choices/read", {{"plan", plan["plan"]}, {"text", saved->body}});
  CHECK(read["choices"]["pins"][0]["note"] == again);
}

TEST_CASE("a port that is taken is told") {
  Service service({}, {});
  CHECK_THROWS_AS(HttpServer(service, {.port = shared().port(), .allow_host = {}}), FileError);
}

TEST_CASE("a repertoire and a class are worked out behind the page") {
  ServiceOptions options;
  options.repertoire = "scores/first-steps.musicxml";
  options.instrument = "treble-recorder";
  options.roster = "scores/rosters/alder-street.yaml";
  options.repertoire = "scores/rosters/alder-air.musicxml";
  const ServedPage page({}, options);
  const auto waited = [&](const std::string& path) {
    json state;
    do {
      std::this_thread::sleep_for(std::chrono::milliseconds(50));
      state = json::parse(page.client().Get(path)->body);
    } while (state["state"] == "working");
    return state;
  };
  const json roster = waited("/api/roster");
  CHECK(roster["state"] == "done");
  CHECK(roster["assignment"]["format"] == "fingerway/assign");
  const std::string pupil = roster["assignment"]["pupils"][0]["id"];
  const json sheets = page.answer("roster/sheet", {{"pupil", pupil}});
  CHECK(sheets["sheets"][0]["html"].get<std::string>().find("<svg class=\"system drawn\"") != std::string::npos);
  CHECK(page.ask("roster/sheet", {{"pupil", "nobody"}})->status == 400);
  CHECK(waited("/api/repertoire")["state"] != "working");
}
