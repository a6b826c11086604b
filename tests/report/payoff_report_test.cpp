// A payoff as text, JSON, CSV and page, on the toy instrument.
#include "fingerway/report/payoff.hpp"

#include <catch2/catch.hpp>
#include <cstdlib>
#include <nlohmann/json.hpp>
#include <pugixml.hpp>

#include "decide/payoff_toy.hpp"
#include "fingerway/report/search.hpp"
#include "report/json_schema_check.hpp"
#include "support/passages.hpp"

using namespace fingerway;

namespace {

/// The toy with and without its link, over the leaps at a tempo that only one finger can follow.
struct ToyPayoff {
  Repertoire repertoire;
  std::vector<ConversionSheet> conversions;
  std::vector<Variant> variants;
  std::vector<RefusedSet> refused = {{.members = {0}, .why = "made up"}};
  OutcomeGrid outcomes;
  Payoff result;

  explicit ToyPayoff(std::size_t samples) {
    Piece piece;
    piece.passage = toy_leaps(Qpm(120));
    piece.name = "Leaps <&> \"quotes\"";
    piece.times = 3;
    repertoire.name = "toys";
    repertoire.file = "toys.yaml";
    repertoire.pieces = {piece};
    repertoire.skipped = {{"bad.xml", "is no score"}};
    Instrument linked = linked_toy();
    linked.conversions[0].cost_low = 100.0;
    linked.conversions[0].cost_high = 200.0;
    linked.conversions[0].currency = "EUR";
    linked.conversions[0].figures_basis = "invented";
    linked.conversions[0].upkeep = {"oil it"};
    conversions = linked.conversions;
    variants.push_back({.members = {}, .played = toy_played(toy_instrument()), .cost = {}});
    variants.push_back({.members = {0}, .played = toy_played(linked), .cost = cost_of(linked)});
    for (const Variant& variant : variants) {
      outcomes.push_back({outcome_of(variant.played, piece.passage, OutcomeDetail::notes)});
    }
    // What there is to tell is made: a third of the points saved, A3 with the link, two places that cross.
    outcomes[0][0].micro_points = 300'000'000;
    outcomes[1][0].micro_points = 200'000'000;
    for (std::size_t i = 1; i < 6; i += 2)
      outcomes[1][0].notes[i].fingering = Fingering{.pressed = {TouchId(3)}, .half = {}, .flicked = {}};
    outcomes[0][0].verdicts[1] = Verdict::out_of_reach;
    outcomes[1][0].verdicts[2] = Verdict::laborious;
    result = payoff(input(samples, 500.0));
  }

  /// Every sampled world is as the one asked for.
  [[nodiscard]] PayoffInput input(std::size_t samples, std::optional<double> budget) const {
    return {.repertoire = repertoire,
            .variants = variants,
            .outcomes = [this](std::size_t, std::size_t variant) { return outcomes[variant]; },
            .worlds = samples,
            .budget = budget};
  }

  [[nodiscard]] PayoffReport report() const {
    return {.repertoire = repertoire,
            .conversions = conversions,
            .variants = variants,
            .refused = refused,
            .payoff = result,
            .in_full = [this](std::size_t variant) { return set_in_full(input(0, {}), result.stock, variant); }};
  }

  [[nodiscard]] std::string json() const { return text_sent(payoff_json); }
  [[nodiscard]] std::string csv() const { return text_sent(payoff_csv); }

 private:
  [[nodiscard]] std::string text_sent(void (*write)(const PayoffReport&, const TextSink&)) const {
    std::string text;
    write(report(), [&](std::string_view part) { text += part; });
    return text;
  }
};

}  // namespace

TEST_CASE("the JSON of a payoff and of a search meets its schema") {
  JsonSchemaCheck check;
  if (!check.possible()) {
    WARN("skipped: no python3 has jsonschema (Debian: python3-jsonschema)");
    return;
  }
  const ToyPayoff with_samples(2);
  const ToyPayoff without(0);
  Repertoire low;
  Piece piece;
  piece.passage = passage_of({"Db2", "Eb2", "Db2", "Eb2"}, {.each = ScoreTime(1, 4)});
  low.pieces = {piece};
  SearchLimits small;
  small.trials = 200;
  small.full = 2;
  const Played& stock = own_played("bassoon");
  const SearchResult found =
      search_conversions(stock, low, small, [](std::size_t count, const std::function<void(std::size_t)>& job) {
        for (std::size_t i = 0; i < count; ++i) job(i);
      });
  check.add("payoff", with_samples.json());
  check.add("payoff", without.json());
  check.add("payoff-search", search_json({.stock = stock, .repertoire = low, .result = found}));
  CHECK(check.all_meet_their_schemas());
}

TEST_CASE("the JSON of a payoff holds its own numbers") {
  const ToyPayoff toy(2);
  const auto json = nlohmann::json::parse(toy.json());
  CHECK(json["sets"][1]["gain"].get<double>() == 300.0);  // 100 points, three times played
  CHECK(json["sets"][1]["relieved"].size() == 1);
  CHECK(json["sets"][1]["relieved"][0]["measure"] == "1");
  CHECK(json["sets"][1]["relieved"][0]["written"] == "A3");
  CHECK(json["sets"][1]["spoiled"].size() == 1);
  CHECK(json["sets"][1]["carried_to_stock"][0]["result"] == "key-missing");
  CHECK(json["samples"] == 2);
  CHECK(json["repertoire"]["passages"][0]["times"] == 3.0);
}

TEST_CASE("the text of a payoff gives advice and says what it rests on") {
  const std::string text = payoff_text(ToyPayoff(2).report());
  CHECK(text.find("Best set within 500 EUR: right-hand link (100 to 200 EUR)") != std::string::npos);
  CHECK(text.find("in 2 of 2 sampled") != std::string::npos);
  CHECK(text.find("What this rests on") != std::string::npos);
  CHECK(text.find("bad.xml: is no score") != std::string::npos);
  CHECK(text.find("needs a key that is not there") != std::string::npos);
  CHECK(text.find("1. fit the link") != std::string::npos);
  CHECK(text.find("Regulation check list") != std::string::npos);
  CHECK(text.find("qualified repairer") != std::string::npos);
  CHECK(text.find("right-hand link: made up") != std::string::npos);
}

TEST_CASE("where nothing helps, the text says that it is not for this repertoire") {
  ToyPayoff toy(0);
  toy.outcomes[1] = toy.outcomes[0];
  toy.result = payoff(toy.input(0, {}));
  const std::string text = payoff_text(toy.report());
  CHECK(text.find("No conversion is worth having for this repertoire") != std::string::npos);
  CHECK(text.find("not for this repertoire") != std::string::npos);
  CHECK(text.find("For the repairer") == std::string::npos);
}

TEST_CASE("the table of a payoff has a row for each set and passage") {
  const std::string csv = ToyPayoff(0).csv();
  CHECK(std::count(csv.begin(), csv.end(), '\n') == 2);
  CHECK(csv.find("link,100,200,EUR,\"Leaps <&> \"\"quotes\"\"\",toy.musicxml") != std::string::npos);
}

TEST_CASE("the plots of a payoff are well-formed and say in words what they show") {
  const std::string page = payoff_page(ToyPayoff(2).report());
  CHECK(page.find("<script") == std::string::npos);
  CHECK(page.find("http") == page.find("http-equiv"));
  CHECK(page.find("Leaps &lt;&amp;&gt;") != std::string::npos);
  std::size_t plots = 0;
  for (std::size_t at = page.find("<svg class=\"plot drawn\""); at != std::string::npos;
       at = page.find("<svg class=\"plot drawn\"", at + 1)) {
    const std::string svg = page.substr(at, page.find("</svg>", at) + 6 - at);
    pugi::xml_document document;
    CHECK(document.load_string(svg.c_str()).status == pugi::status_ok);
    CHECK(!document.child("svg").child("title").text().empty());
    ++plots;
  }
  CHECK(plots == 3);
}
