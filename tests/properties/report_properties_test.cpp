// The text, the page, the table and the JSON of one plan, and what the served page is told, must show the same numbers.
#include <cmath>
#include <nlohmann/json.hpp>
#include <regex>

#include "fingerway/report/csv.hpp"
#include "fingerway/report/json.hpp"
#include "fingerway/report/page.hpp"
#include "fingerway/report/page_answers.hpp"
#include "fingerway/report/text.hpp"
#include "properties/random_world.hpp"

using namespace fingerway;

namespace {

/// What a row of the report shows of a change: milliseconds needed, milliseconds there are, per cent.
using Shown = std::vector<std::array<std::string, 3>>;

Shown rows(const std::string& text, const std::regex& row) {
  Shown found;
  for (std::sregex_iterator at(text.begin(), text.end(), row), end; at != end; ++at) {
    found.push_back({(*at)[1].str(), (*at)[2].str(), (*at)[3].str()});
  }
  return found;
}

std::string whole(double value) { return std::to_string(std::llround(value)); }

/// A half may be shown either way: the last digit of a binary fraction decides.
bool near_half(double value) { return std::abs(value - std::floor(value) - 0.5) < 1e-6; }

Shown rows_of_json(const nlohmann::json& plan, bool& doubtful) {
  Shown found;
  for (const auto& note : plan.at("notes")) {
    const auto& arrive = note.at("arrive");
    if (arrive.is_null()) continue;
    const double needs = arrive.at("time_ms").get<double>();
    const double there = arrive.at("available_ms").get<double>();
    const double load = arrive.at("load").get<double>() * 100;
    doubtful = doubtful || near_half(needs) || near_half(there) || near_half(load);
    found.push_back({whole(needs), whole(there), whole(load)});
  }
  return found;
}

/// The columns of a table by the names in its first row; no field of ours holds a line break.
Shown rows_of_csv(const std::string& csv) {
  const auto fields_of = [](const std::string& line) {
    std::vector<std::string> fields(1);
    bool quoted = false;
    for (const char c : line) {
      if (c == '"') quoted = !quoted;
      if (c == ',' && !quoted) {
        fields.emplace_back();
      } else if (c != '"') {
        fields.back() += c;
      }
    }
    return fields;
  };
  std::istringstream lines(csv);
  std::string line;
  std::getline(lines, line);
  const auto head = fields_of(line.substr(0, line.find('\r')));
  const auto column = [&](const char* title) {
    return static_cast<std::size_t>(std::ranges::find(head, title) - head.begin());
  };
  Shown found;
  while (std::getline(lines, line)) {
    const auto fields = fields_of(line);
    if (fields.at(column("time_ms")).empty()) continue;
    found.push_back({whole(std::stod(fields[column("time_ms")])), whole(std::stod(fields[column("available_ms")])),
                     whole(std::stod(fields[column("load")]) * 100)});
  }
  return found;
}

/// What the served page is told of each change is what the JSON says.
bool agree(const nlohmann::json& served, const nlohmann::json& plan) {
  for (std::size_t i = 0; i < plan.at("notes").size(); ++i) {
    const auto& arrive = plan.at("notes")[i].at("arrive");
    const auto& note = served.at("notes").at(i);
    if (arrive.is_null()) {
      if (note.contains("needs")) return false;
    } else if (note.at("needs") != arrive.at("time_ms") || note.at("there_is") != arrive.at("available_ms") ||
               note.at("load") != arrive.at("load")) {
      return false;
    }
  }
  return served.at("awkwardness") == plan.at("summary").at("awkwardness") &&
         served.at("ceiling_qpm") == plan.at("summary").at("ceiling_qpm") &&
         served.at("worst_load") == plan.at("summary").at("worst_load");
}

bool has(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("property: text, page, table and JSON show the same numbers") {
  const std::regex text_row(R"((\d+) ms +(\d+) ms +(\d+) %)");
  const std::regex page_row(
      R"re(<td class="number">(\d+) ms</td><td class="number">(\d+) ms</td><td class="number">(\d+) %</td>)re");
  std::size_t compared = 0;
  for (const char* instrument : {"bassoon", "treble-recorder", "flute+split-e"}) {
    const Played& played = own_played(instrument);
    std::vector<WrittenPitch> pitches;
    for (const auto& [pitch, candidates] : played.derivation.by_pitch) pitches.push_back(pitch);
    holds_for_all(instrument, 20, [&] {
      const Passage passage = drawn_passage(pitches, 2, 6);
      const std::vector<Plan> plans = plan_passage(played, passage, {});
      const std::string text = plan_text(played, passage, plans);
      const std::string page = plan_page(played, passage, plans);
      const nlohmann::json json = nlohmann::json::parse(plan_json(played, passage, plans));
      const Choices free;
      const std::string answer = plan_answer("token", passage, {{played, plans.front(), free}}, nullptr);
      RC_LOG() << text << '\n' << answer << '\n';
      RC_ASSERT(agree(nlohmann::json::parse(answer).at("sides").at(0), json));
      bool doubtful = false;
      const Shown changes = rows_of_json(json, doubtful);
      RC_PRE(!doubtful);
      RC_ASSERT(changes.size() + 1 == passage.notes.size());
      RC_ASSERT(rows(text, text_row) == changes);
      RC_ASSERT(rows(page, page_row) == changes);
      RC_ASSERT(rows_of_csv(plan_csv(played, passage, plans.front())) == changes);

      const auto& summary = json.at("summary");
      const std::string load = whole(summary.at("worst_load").get<double>() * 100) + " % of the time there is";
      const std::string awkward = whole(summary.at("awkwardness").get<double>()) + " points";
      RC_PRE(!near_half(summary.at("awkwardness").get<double>()));
      for (const std::string* shown : {&text, &page}) {
        RC_ASSERT(has(*shown, load));
        RC_ASSERT(has(*shown, awkward));
        if (!summary.at("ceiling_qpm").is_null()) {
          const double ceiling = std::floor(summary.at("ceiling_qpm").get<double>() + 1e-9);
          RC_ASSERT(has(*shown, "up to " + whole(ceiling) + " quarter notes a minute"));
        }
      }
      RC_ASSERT(summary.at("fits").get<bool>() == plans.front().summary.fits);
      compared += changes.size();
    });
  }
  CHECK(compared > 60);
}
