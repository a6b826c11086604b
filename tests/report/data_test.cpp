// JSON and CSV: held against the schemas of tools/schema (with Debian's python3-jsonschema) and against the plan.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/motion_file.hpp"
#include "fingerway/report/csv.hpp"
#include "fingerway/report/json.hpp"
#include "report/json_schema_check.hpp"
#include "report/toy_report.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

Played bassoon(const std::string& stacked) {
  const InstrumentFolders where{{project_folder() / "instruments"}};
  return played(read_instrument(stacked, where), read_motion_numbers(project_folder() / "instruments" / "motion.yaml"),
                Level::amateur);
}

/// Low notes with a trill, a flicked note and one that no bassoon has.
Passage bassoon_passage() {
  Passage passage = toy_passage(Qpm(160), Attack::slurred);
  const Spelling names[] = {{'C', 1, 2}, {'E', -1, 2}, {'A', 0, 3}, {'D', -1, 2}, {'C', 0, 9}, {'B', 0, 1}};
  for (std::size_t i = 0; i < passage.notes.size(); ++i) {
    passage.notes[i].spelling = names[i];
    passage.notes[i].pitch = written(names[i]);
  }
  passage.notes[1].kind = NoteKind::trill;
  passage.notes[1].other = Spelling{'F', 0, 2};
  passage.remarks = {{.within = "measure 1", .what = "a remark"}};
  return passage;
}

/// Rows and fields of a CSV text, as RFC 4180 has them.
std::vector<std::vector<std::string>> csv_rows(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    std::string& field = rows.back().back();
    if (quoted) {
      if (text[i] != '"') {
        field += text[i];
      } else if (i + 1 < text.size() && text[i + 1] == '"') {
        field += text[++i];
      } else {
        quoted = false;
      }
    } else if (text[i] == '"') {
      quoted = true;
    } else if (text[i] == ',') {
      rows.back().emplace_back();
    } else if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n') {
      ++i;
      rows.emplace_back(1);
    } else {
      field += text[i];
    }
  }
  rows.pop_back();  // after the last line end
  return rows;
}

}  // namespace

TEST_CASE("every JSON report meets its schema") {
  JsonSchemaCheck check;
  if (!check.possible()) {
    WARN("skipped: no python3 has jsonschema (Debian: python3-jsonschema)");
    return;
  }
  const Played stock = bassoon("bassoon");
  const Played converted = bassoon("bassoon+interlinked-low-keys");
  const Passage passage = bassoon_passage();
  PlanRequest request;
  request.alternatives = 3;
  const auto plans = plan_passage(stock, passage, request);
  check.add("plan", plan_json(stock, passage, plans));
  check.add("compare", compare_json(stock, converted, passage, compare(stock, converted, passage, {})));
  check.add("trills", trills_json(converted, all_trills(converted, Semitones(2))));
  check.add("trills",
            trill_changes_json(stock, converted,
                               trill_changes(all_trills(stock, Semitones(2)), all_trills(converted, Semitones(2)))));
  check.add("chart", chart_json(stock));
  check.add("chart", chart_against_json(stock, converted));
  check.add("price", price_json(stock, passage, plans.back(), plans.front()));
  check.add("explain", explain_json(stock, passage, explain_note(stock, passage, {}, 1, 4)));
  CHECK(check.all_meet_their_schemas());
}

TEST_CASE("the schema check does find faults") {
  JsonSchemaCheck check;
  if (!check.possible()) return;
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(120), Attack::slurred);
  auto json = nlohmann::json::parse(plan_json(toy, passage, plan_passage(toy, passage, {})));
  json["notes"][1]["arrive"]["load"] = "high";
  check.add("plan", json.dump());
  CHECK_FALSE(check.quietly());
}

TEST_CASE("the JSON of a plan holds the plan's own numbers, not rounded") {
  const Played toy = toy_played(toy_instrument());
  const Passage passage = toy_passage(Qpm(96.7), Attack::slurred);
  const Plan plan = plan_passage(toy, passage, {}).front();
  const auto json = nlohmann::json::parse(plan_json(toy, passage, {plan}));
  CHECK(json["format"] == "fingerway/plan");
  CHECK(json["version"] == 1);
  CHECK(json["summary"]["ceiling_qpm"].get<double>() == plan.summary.ceiling->value());
  REQUIRE(json["notes"].size() == passage.notes.size());
  CHECK(json["notes"][0]["arrive"].is_null());
  CHECK(json["notes"][0]["written"] == "C4");
  CHECK(json["notes"][2]["written"] == "Bb3");
  CHECK(json["notes"][2]["sounding_midi"] == 58);
  CHECK(json["notes"][2]["pressed"]["L1"] == nlohmann::json({"one", "two"}));
  CHECK(json["notes"][2]["arrive"]["available_ms"].get<double>() == plan.notes[2].arrive->context.available.count());
  CHECK(json["notes"][2]["arrive"]["load"].get<double>() == plan.notes[2].arrive->load());
  CHECK(json["notes"][1]["arrive"]["moves"][0]["move"] == "press");
  CHECK(json["notes"][1]["arrive"]["moves"][0]["to"] == "one");
}

TEST_CASE("where nothing limits the tempo, JSON says null") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(100), Attack::tongued);
  passage.notes.resize(1);
  const auto json = nlohmann::json::parse(plan_json(toy, passage, plan_passage(toy, passage, {})));
  CHECK(json["summary"]["ceiling_qpm"].is_null());
  CHECK(json["summary"]["worst_note"].is_null());
}

TEST_CASE("text that is not UTF-8 does not keep a report from being written") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(100), Attack::tongued);
  passage.title = "broken \xff title";
  CHECK_NOTHROW(nlohmann::json::parse(plan_json(toy, passage, plan_passage(toy, passage, {}))));
}

TEST_CASE("a CSV has one row a note with as many fields as its head, and quotes what needs quoting") {
  const Played toy = toy_played(toy_instrument());
  Passage passage = toy_passage(Qpm(96.7), Attack::slurred);
  passage.measures[0].name = "1, \"first\"";
  const Plan plan = plan_passage(toy, passage, {}).front();
  const std::string text = plan_csv(toy, passage, plan);
  const auto rows = csv_rows(text);
  REQUIRE(rows.size() == passage.notes.size() + 1);
  for (const auto& row : rows) CHECK(row.size() == rows[0].size());
  CHECK(rows[1][1] == "1, \"first\"");
  const auto column = [&](const std::string& name) {
    return static_cast<std::size_t>(std::ranges::find(rows[0], name) - rows[0].begin());
  };
  CHECK(rows[3][column("written")] == "Bb3");
  CHECK(rows[1][column("time_ms")].empty());
  CHECK(std::stod(rows[3][column("load")]) == plan.notes[2].arrive->load());
  CHECK(text.find("\r\n") != std::string::npos);
}
