#include "agreement/statements.hpp"

#include <yaml-cpp/yaml.h>

#include <array>
#include <set>
#include <stdexcept>

namespace fingerway {
namespace {

constexpr std::array<std::string_view, 4> said_words = {"good", "awkward", "very-difficult", "impossible"};
constexpr std::array<std::string_view, 3> between_words = {"trill", "tremolo", "slur"};

template <std::size_t N>
std::size_t one_of(const std::array<std::string_view, N>& words, const std::string& word) {
  for (std::size_t i = 0; i < N; ++i) {
    if (words[i] == word) return i;
  }
  throw std::runtime_error("no such word: " + word);
}

/// Keys a statement may have; anything else is a slip that would otherwise be passed over in silence.
void require_keys(const YAML::Node& node, const std::set<std::string>& known) {
  for (const auto& entry : node) {
    const auto key = entry.first.as<std::string>();
    if (!known.contains(key)) throw std::runtime_error("unknown key " + key);
  }
}

StatementHead read_head(const YAML::Node& node, const std::string& family) {
  StatementHead head;
  head.family = family;
  head.instrument = node["on"] ? node["on"].as<std::string>() : family;
  head.name = node["name"].as<std::string>();
  head.says = node["says"].as<std::string>();
  head.source = node["source"].as<std::string>();
  head.confidence = node["confidence"].as<std::string>();
  if (node["doubt"]) head.doubt = node["doubt"].as<std::string>();
  if (node["contradicts"]) {
    head.doubt += (head.doubt.empty() ? "" : "; ") + ("contradicts " + node["contradicts"].as<std::string>());
  }
  one_of(std::array<std::string_view, 4>{"high", "medium", "low", "very-low"}, head.confidence);
  return head;
}

/// "1/2": quarter notes.
ScoreTime read_length(const std::string& text) {
  const std::size_t slash = text.find('/');
  if (slash == std::string::npos) return ScoreTime(std::stoi(text));
  return ScoreTime(std::stoi(text.substr(0, slash)), std::stoi(text.substr(slash + 1)));
}

ChoiceRule read_choice(const YAML::Node& node, const std::string& family) {
  require_keys(node, {"name", "says", "source", "confidence", "doubt", "contradicts", "on", "notes", "each", "tempo",
                      "slurred", "at"});
  ChoiceRule rule;
  rule.head = read_head(node, family);
  rule.notes = node["notes"].as<std::vector<std::string>>();
  rule.row.each = read_length(node["each"].as<std::string>());
  rule.row.tempo = Qpm(node["tempo"].as<double>());
  rule.row.attack = node["slurred"].as<bool>() ? Attack::slurred : Attack::tongued;
  for (const YAML::Node& at : node["at"]) {
    require_keys(at, {"note", "press", "without", "derived"});
    Wish wish;
    wish.note = at["note"].as<std::size_t>();
    if (at["press"]) wish.press = at["press"].as<std::vector<std::vector<std::string>>>();
    if (at["without"]) wish.without = at["without"].as<std::vector<std::vector<std::string>>>();
    if (wish.note >= rule.notes.size()) throw std::runtime_error("no note " + std::to_string(wish.note));
    if (wish.press.empty() && wish.without.empty()) throw std::runtime_error("a wish for nothing");
    rule.wishes.push_back(std::move(wish));
  }
  if (rule.wishes.empty()) throw std::runtime_error("nothing is wished for");
  return rule;
}

TrillStatement read_trill(const YAML::Node& node, const std::string& family) {
  require_keys(node, {"name", "says", "source", "basis", "confidence", "doubt", "contradicts", "on", "kind", "between",
                      "verdict"});
  TrillStatement statement;
  statement.head = read_head(node, family);
  statement.kind = static_cast<Between>(one_of(between_words, node["kind"].as<std::string>()));
  statement.said = static_cast<Said>(one_of(said_words, node["verdict"].as<std::string>()));
  const auto between = node["between"].as<std::vector<std::string>>();
  if (between.size() != 2) throw std::runtime_error("'between' needs two notes");
  statement.from = pitch_named(between[0]);
  statement.to = pitch_named(between[1]);
  return statement;
}

template <class Read>
void each_statement(const std::filesystem::path& file, const char* list, Read read) {
  if (!std::filesystem::exists(file)) return;
  std::set<std::string> names;
  for (const YAML::Node& node : YAML::LoadFile(file.string())[list]) {
    try {
      const std::string name = read(node);
      if (!names.insert(name).second) throw std::runtime_error("the name stands twice: " + name);
    } catch (const std::exception& error) {
      throw std::runtime_error(file.string() + ":" + std::to_string(node.Mark().line + 1) + ": " + error.what());
    }
  }
}

}  // namespace

std::string_view words(Said said) { return said_words[static_cast<std::size_t>(said)]; }

Statements read_statements(const std::filesystem::path& folder, const std::string& family) {
  Statements all;
  each_statement(folder / (family + "_choices.yaml"), "rules", [&](const YAML::Node& node) {
    all.choices.push_back(read_choice(node, family));
    return all.choices.back().head.name;
  });
  each_statement(folder / (family + "_trills.yaml"), "statements", [&](const YAML::Node& node) {
    all.trills.push_back(read_trill(node, family));
    return all.trills.back().head.name;
  });
  return all;
}

bool counts(const StatementHead& head) {
  return head.doubt.empty() && (head.confidence == "high" || head.confidence == "medium");
}

}  // namespace fingerway
