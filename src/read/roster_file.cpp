#include "fingerway/read/roster_file.hpp"

#include <algorithm>
#include <set>

#include "fingerway/read/player_file.hpp"
#include "player_parts.hpp"

namespace fingerway {
namespace {

constexpr std::size_t most_pupils = 500;
constexpr std::size_t most_passages = 500;
constexpr Bounds tempos{.least = 1.0, .most = 1000.0};

/// "Robin B." -> "robin-b"; empty where nothing of the name can stand in an id.
std::string id_from(const std::string& name) {
  std::string id;
  for (const char c : name) {
    const bool upper = c >= 'A' && c <= 'Z';
    const bool kept = upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
    if (kept) {
      id += upper ? static_cast<char>(c - 'A' + 'a') : c;
    } else if (!id.empty() && id.back() != '-') {
      id += '-';
    }
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  return is_id(id) ? id : std::string();
}

class RosterReader {
 public:
  RosterReader(const std::filesystem::path& file, const InstrumentFolders& where)
      : folder_(file.parent_path()), where_(where), root_(load_yaml(file)), faults_(file.string()) {
    roster_.file = file.string();
  }

  Roster read() {
    YamlMap top(root_, "the roster", faults_);
    top.file_kind("roster");
    roster_.title = top.text_or("title", "Roster");
    const auto passages = top.items("passages");
    const auto pupils = top.items("pupils");
    const bool has_lists = top.need("passages") != nullptr && top.need("pupils") != nullptr;
    top.finish();
    if (has_lists && (passages.empty() || pupils.empty())) {
      faults_.add(root_, "a roster needs at least one passage and one pupil");
    }
    if (passages.size() > most_passages || pupils.size() > most_pupils) {
      faults_.add(root_, "too long for one roster", "at most 500 pupils and 500 passages");
      faults_.throw_if_any();
    }
    for (const YamlNode* item : passages) read_passage(*item);
    for (const YamlNode* item : pupils) read_pupil(*item);
    faults_.throw_if_any();
    return std::move(roster_);
  }

 private:
  [[nodiscard]] std::string beside(const std::string& path) const {
    return (folder_ / path).lexically_normal().string();
  }

  void read_passage(const YamlNode& item) {
    YamlMap map(item, "a passage", faults_);
    if (!map.usable()) return;
    RosterPassage passage;
    passage.place = faults_.place(item);
    passage.id = map.text("id");
    const std::string score = map.text("score");
    if (!score.empty()) passage.score = beside(score);
    passage.part = map.text_or("part", "");
    passage.voice = map.text_or("voice", "");
    passage.bars = map.text_or("bars", "");
    passage.tempo = map.number_if("tempo", tempos);
    map.finish();
    if (!passage.id.empty() && !is_id(passage.id)) {
      faults_.add(item, in_quotes(passage.id) + " is no id", "lower-case words joined by hyphens");
    }
    if (!passage_ids_.insert(passage.id).second) faults_.add(item, "two passages have the id " + in_quotes(passage.id));
    roster_.passages.push_back(std::move(passage));
  }

  void read_pupil(const YamlNode& item) {
    YamlMap map(item, "a pupil", faults_);
    if (!map.usable()) return;
    RosterPupil pupil;
    pupil.place = faults_.place(item);
    pupil.name = map.text("name");
    pupil.id = map.text_or("id", id_from(pupil.name));
    const YamlNode* instrument = map.need("instrument");
    pupil.latches = map.texts("latches");
    const YamlNode* player_file = map.find("player");
    const YamlNode* passages = map.need("passages");
    const WrittenPlayer written = read_written_player(map, faults_);
    map.finish();
    if (player_file != nullptr && has_player_keys(map.node())) {
      faults_.add(*player_file, "a pupil has either a player file or what would stand in one",
                  "move the keys into the player file");
    }
    require_id(item, pupil);
    if (passages != nullptr) read_passages(*passages, pupil);
    if (instrument != nullptr) read_instrument_and_player(*instrument, player_file, written, pupil);
    roster_.pupils.push_back(std::move(pupil));
  }

  static bool has_player_keys(const YamlNode& node) {
    constexpr const char* keys[] = {"level",         "notes_per_second", "hand_span",   "cannot_use", "should_rest",
                                    "holds_through", "learned",          "not_learned", "preferred",  "habits"};
    return std::ranges::any_of(
        node.keys, [&](const YamlNode& key) { return std::ranges::find(keys, key.text) != std::end(keys); });
  }

  void require_id(const YamlNode& item, const RosterPupil& pupil) {
    if (!is_id(pupil.id)) {
      faults_.add(item, "the pupil needs an id, for the folder", "id: lower-case words joined by hyphens");
    } else if (!pupil_ids_.insert(pupil.id).second) {
      faults_.add(item, "two pupils have the id " + in_quotes(pupil.id), "give one of them an id of its own");
    }
  }

  void read_passages(const YamlNode& node, RosterPupil& pupil) {
    const auto items = yaml_items(node, "'passages'", faults_);
    if (items.empty()) faults_.add(node, "the pupil has no passage");
    for (const YamlNode* item : items) {
      const auto id = yaml_text(*item, "a passage's id", faults_);
      if (!id) continue;
      const auto found = std::ranges::find(roster_.passages, *id, &RosterPassage::id);
      if (found == roster_.passages.end()) {
        faults_.add(*item, "no passage " + in_quotes(*id) + " in this roster",
                    suggestion(*id, {passage_ids_.begin(), passage_ids_.end()}));
        continue;
      }
      const auto number = static_cast<std::size_t>(found - roster_.passages.begin());
      if (std::ranges::find(pupil.passages, number) == pupil.passages.end()) {
        pupil.passages.push_back(number);
      } else {
        faults_.add(*item, "the pupil has the passage " + in_quotes(*id) + " twice");
      }
    }
  }

  /// Faults of other files are told with their own place, or at the roster's line where they have none.
  template <class Read>
  void reading(const YamlNode& at, const Read& read) {
    try {
      read();
    } catch (const InputError& error) {
      for (const Fault& fault : error.faults()) {
        faults_.add(fault.place.file.empty() ? Fault{faults_.place(at), fault.what, fault.hint} : fault);
      }
    } catch (const FileError& error) {
      faults_.add(Fault{faults_.place(at), message(error.fault()), {}});
    }
  }

  void read_instrument_and_player(const YamlNode& instrument, const YamlNode* player_file, const WrittenPlayer& written,
                                  RosterPupil& pupil) {
    const auto name = yaml_text(instrument, "'instrument'", faults_);
    if (!name) return;
    bool known = false;
    reading(instrument, [&] {
      pupil.instrument = read_instrument(*name, where_);
      known = true;
    });
    if (!known) return;
    if (player_file == nullptr) {
      pupil.player = resolve_player(written, pupil.instrument, pupil.instrument, faults_);
      return;
    }
    const auto path = yaml_text(*player_file, "'player'", faults_);
    if (!path) return;
    reading(*player_file, [&] {
      pupil.player = read_player(beside(*path), pupil.instrument, where_);
      pupil.player.name = pupil.name;
    });
  }

  std::filesystem::path folder_;
  const InstrumentFolders& where_;
  YamlNode root_;
  FaultList faults_;
  Roster roster_;
  std::set<std::string> passage_ids_;
  std::set<std::string> pupil_ids_;
};

}  // namespace

Roster read_roster(const std::filesystem::path& file, const InstrumentFolders& where) {
  return RosterReader(file, where).read();
}

}  // namespace fingerway
