#include "musicxml_parts.hpp"

#include <algorithm>
#include <cstddef>
#include <map>
#include <optional>
#include <pugixml.hpp>
#include <utility>

#include "fingerway/base/errors.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_pitch.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr std::size_t most_parts = 1000;
constexpr int most_staves = 1000;

pugi::xml_node listed(const pugi::xml_node& score, const std::string& id) {
  return score.child("part-list").find_child_by_attribute("score-part", "id", id.c_str());
}

/// A name as it stands, or as a program that prints another one shows it.
std::string displayed(const pugi::xml_node& part, const char* plain, const char* display) {
  std::string name = clean_text(part.child_value(plain));
  if (!name.empty()) return name;
  for (const pugi::xml_node text : part.child(display).children("display-text")) name += text.child_value();
  return clean_text(name);
}

void add_part(std::vector<ScorePart>& parts, const pugi::xml_node& score, const std::string& raw_id,
              const std::string& file) {
  if (parts.size() == most_parts) throw InputError({{file, 0, 0, {}}, "more than 1000 parts", {}});
  parts.push_back({clean_text(raw_id), displayed(listed(score, raw_id), "part-name", "part-name-display"), {}, {}});
}

std::vector<ScorePart> partwise(const pugi::xml_node& score, const std::string& file) {
  std::vector<ScorePart> parts;
  for (const pugi::xml_node music : score.children("part")) {
    add_part(parts, score, music.attribute("id").value(), file);
    for (const pugi::xml_node measure : music.children("measure")) {
      parts.back().heads.push_back(measure);
      parts.back().contents.push_back(measure);
    }
  }
  return parts;
}

std::vector<ScorePart> timewise(const pugi::xml_node& score, const std::string& file) {
  std::vector<ScorePart> parts;
  std::map<std::string, std::size_t, std::less<>> place_of;
  std::vector<pugi::xml_node> heads;
  for (const pugi::xml_node measure : score.children("measure")) {
    for (const pugi::xml_node music : measure.children("part")) {
      const std::string id = music.attribute("id").value();
      const auto [entry, is_new] = place_of.try_emplace(id, parts.size());
      if (is_new) add_part(parts, score, id, file);
      std::vector<pugi::xml_node>& contents = parts[entry->second].contents;
      contents.resize(std::max(contents.size(), heads.size()));
      contents.push_back(music);
      if (contents.size() > heads.size() + 1) {
        throw InputError({{file, 0, 0, "measure " + clean_text(measure.attribute("number").value())},
                          "part " + short_quote(id) + " stands twice",
                          {}});
      }
    }
    heads.push_back(measure);
  }
  for (ScorePart& part : parts) {
    part.contents.resize(heads.size());
    part.heads = heads;
  }
  return parts;
}

/// Counts what stands in a part, one measure after another.
class Surveyor {
 public:
  explicit Surveyor(PartInfo& info) : info_(info) {}

  void look_at(const pugi::xml_node& element) {
    const std::string_view word = element.name();
    if (word == "note") look_at_note(element);
    if (word == "attributes") look_at_attributes(element);
  }

  void finish() {
    for (const auto& [voice, notes_on] : notes_of_voice_) {
      for (const auto& [staff, notes] : notes_on) info_.voices.push_back({clean_text(voice), staff, notes});
    }
    std::ranges::stable_sort(info_.voices,
                             [](const VoiceInfo& a, const VoiceInfo& b) { return voice_before(a.voice, b.voice); });
  }

 private:
  void look_at_note(const pugi::xml_node& note) {
    if (note.child("cue") || is_hidden(note)) return;
    if (note.child("unpitched")) info_.percussion = true;
    const pugi::xml_node pitch = note.child("pitch");
    if (!pitch) return;
    ++info_.notes;
    const int staff = staff_of(note);
    info_.staves = std::max(info_.staves, staff);
    if (!note.child("chord") || voice_.empty() || note.child("voice")) voice_ = voice_of(note);
    ++notes_of_voice_.try_emplace(std::string(voice_)).first->second[staff];
    const std::optional<Spelling> spelling = read_pitch(pitch, unheard_);
    if (!spelling) return;
    if (!info_.lowest || written(*spelling) < written(*info_.lowest)) info_.lowest = spelling;
    if (!info_.highest || written(*info_.highest) < written(*spelling)) info_.highest = spelling;
  }

  void look_at_attributes(const pugi::xml_node& attributes) {
    if (const auto staves = parse_whole(text_of(attributes.child("staves")), 1, most_staves)) {
      info_.staves = std::max(info_.staves, *staves);
    }
    constexpr std::size_t most_clefs = 20;
    for (const pugi::xml_node clef : attributes.children("clef")) {
      const std::string name =
          clean_text(std::string(text_of(clef.child("sign"))) + std::string(text_of(clef.child("line"))));
      const bool is_new = std::ranges::find(info_.clefs, name) == info_.clefs.end();
      if (is_new && info_.clefs.size() < most_clefs) info_.clefs.push_back(name);
    }
  }

  PartInfo& info_;
  Findings unheard_{{}, {}};  // what is wrong with a part is told when it is read
  std::string_view voice_;
  std::map<std::string, std::map<int, std::size_t>, std::less<>> notes_of_voice_;
};

}  // namespace

std::vector<ScorePart> parts_of(const pugi::xml_node& score, const std::string& file) {
  const bool by_part = std::string_view(score.name()) == "score-partwise";
  std::vector<ScorePart> parts = by_part ? partwise(score, file) : timewise(score, file);
  if (parts.empty()) throw InputError({{file, 0, 0, {}}, "the score has no parts", {}});
  return parts;
}

PartInfo part_info(const pugi::xml_node& score, const ScorePart& part) {
  PartInfo info;
  info.id = part.id;
  info.name = part.name;
  const pugi::xml_node entry = listed(score, part.id);
  info.abbreviation = displayed(entry, "part-abbreviation", "part-abbreviation-display");
  for (const pugi::xml_node instrument : entry.children("score-instrument")) {
    const std::string name = clean_text(instrument.child_value("instrument-name"));
    if (info.instrument.empty() && name != info.name) info.instrument = name;
    const std::string sound = clean_text(instrument.child_value("instrument-sound"));
    if (!sound.empty()) info.sounds.push_back(sound);
  }
  Surveyor surveyor(info);
  for (const pugi::xml_node& measure : part.contents) {
    for (const pugi::xml_node element : measure.children()) surveyor.look_at(element);
  }
  surveyor.finish();
  return info;
}

std::string_view voice_of(const pugi::xml_node& note) {
  const std::string_view voice = text_of(note.child("voice"));
  return voice.empty() ? std::string_view("1") : voice;
}

int staff_of(const pugi::xml_node& note) {
  return parse_whole(text_of(note.child("staff")), 1, most_staves).value_or(1);
}

bool voice_before(std::string_view a, std::string_view b) {
  constexpr int most = 1'000'000;
  const std::optional<int> number_a = parse_whole(a, 0, most);
  const std::optional<int> number_b = parse_whole(b, 0, most);
  if (number_a && number_b) return *number_a < *number_b;
  if (number_a || number_b) return number_a.has_value();
  return a < b;
}

std::string counted(std::size_t count, const std::string& one) {
  return std::to_string(count) + " " + one + (count == 1 ? "" : "s");
}

std::string line_about(const PartInfo& part) {
  std::string line = part.id;
  if (!part.name.empty()) line += " " + short_quote(part.name);
  line += " (" + (part.percussion && part.notes == 0 ? std::string("percussion") : counted(part.notes, "note"));
  if (part.lowest) line += ", " + name(*part.lowest);
  if (part.highest && *part.highest != *part.lowest) line += " to " + name(*part.highest);
  return line + ")";
}

}  // namespace fingerway
