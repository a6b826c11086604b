#include "fingerway/read/musicxml.hpp"

#include <cstddef>
#include <pugixml.hpp>
#include <string>
#include <utility>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "musicxml_document.hpp"
#include "musicxml_events.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

std::string title_of(const pugi::xml_node& score) {
  const std::string work = clean_text(score.child("work").child_value("work-title"));
  const std::string movement = clean_text(score.child_value("movement-title"));
  if (work.empty() || movement.empty() || work == movement) return work.empty() ? movement : work;
  return work + ": " + movement;
}

std::string name_of(const pugi::xml_node& listed) { return clean_text(listed.child_value("part-name")); }

std::size_t pitched_notes(const pugi::xml_node& part) {
  std::size_t count = 0;
  for (const pugi::xml_node measure : part.children("measure")) {
    for (const pugi::xml_node note : measure.children("note")) {
      if (note.child("pitch")) ++count;
    }
  }
  return count;
}

/// A part of the score with its entry in the part list, which may be missing.
struct Part {
  pugi::xml_node music;
  std::string id;
  std::string name;
};

constexpr std::size_t most_parts = 1000;

std::vector<Part> parts_of(const pugi::xml_node& score, const std::string& file) {
  std::vector<Part> parts;
  for (const pugi::xml_node music : score.children("part")) {
    if (parts.size() == most_parts) throw InputError({{file, 0, 0, {}}, "more than 1000 parts", {}});
    const std::string id = music.attribute("id").value();
    const pugi::xml_node listed = score.child("part-list").find_child_by_attribute("score-part", "id", id.c_str());
    parts.push_back({music, clean_text(id), name_of(listed)});
  }
  return parts;
}

std::string list_of(const std::vector<Part>& parts) {
  constexpr std::size_t most_listed = 40;
  std::string list;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) list += ", ";
    if (i == most_listed) return list + "...";
    list += parts[i].id;
    if (!parts[i].name.empty()) list += " " + short_quote(parts[i].name);
    list += " (" + std::to_string(pitched_notes(parts[i].music)) + " notes)";
  }
  return list;
}

const Part& choose_part(const std::vector<Part>& parts, const std::string& wanted, const std::string& file) {
  const Place place{file, 0, 0, {}};
  if (parts.empty()) throw InputError({place, "the score has no parts", {}});
  if (wanted.empty()) {
    if (parts.size() == 1) return parts.front();
    throw InputError({place, "the score has several parts: one must be chosen", "parts: " + list_of(parts)});
  }
  for (const Part& part : parts) {
    if (part.id == wanted) return part;
  }
  const Part* named = nullptr;
  for (const Part& part : parts) {
    if (part.name != wanted) continue;
    if (named != nullptr) {
      throw InputError({place, "several parts are named " + short_quote(wanted), "choose by id: " + list_of(parts)});
    }
    named = &part;
  }
  if (named == nullptr) throw InputError({place, "no part " + short_quote(wanted), "parts: " + list_of(parts)});
  return *named;
}

/// Tempo marks usually stand in one part of a score only; the chosen one may have none of its own.
std::vector<LineTempo> tempos_of_others(const std::vector<Part>& parts, const Part& chosen, const std::string& file) {
  for (const Part& part : parts) {
    if (&part == &chosen) continue;
    // Whatever else may be wrong with another part does not matter here.
    Findings unheard(file, part.id);
    std::vector<LineTempo> tempos = read_line(part.music, VoiceChoice{}, unheard).tempos;
    if (!tempos.empty()) return tempos;
  }
  return {};
}

TempoMap tempo_map(const std::vector<LineTempo>& tempos, const std::vector<Measure>& measures) {
  std::vector<TempoChange> changes;
  changes.reserve(tempos.size());
  for (const LineTempo& tempo : tempos) {
    if (tempo.measure >= measures.size()) continue;
    changes.push_back({measures[tempo.measure].start + tempo.within, tempo.tempo, tempo.source});
  }
  return TempoMap(std::move(changes));
}

}  // namespace

Passage read_musicxml(const std::filesystem::path& file, const ScoreChoice& choice) {
  return parse_musicxml(file_text(file), file.string(), choice);
}

Passage parse_musicxml(std::string_view text, const std::string& file, const ScoreChoice& choice) {
  const ScoreDocument document(text, file);
  const std::vector<Part> parts = parts_of(document.score(), file);
  const Part& part = choose_part(parts, choice.part, file);
  const std::optional<VoiceChoice> voice = choose_voice(part.music, choice.voice);
  if (!voice) {
    const Place place{file, 0, 0, "part " + part.id};
    throw InputError({place, "no voice " + short_quote(choice.voice), "voices: " + voices_of(part.music)});
  }

  Passage passage;
  passage.file = file;
  passage.title = title_of(document.score());
  passage.part_id = part.id;
  passage.part_name = part.name;
  passage.voice = clean_text(voice->voice);

  Findings findings(file, part.id);
  Line line = read_line(part.music, *voice, findings);
  passage.measures = line.measures;
  passage.transposition = line.transposition;
  std::vector<LineTempo> tempos = std::move(line.tempos);
  passage.notes = note_events(std::move(line), findings);
  findings.at_part();
  if (passage.notes.empty()) findings.fault("has no notes to play");
  findings.throw_if_any();
  passage.remarks = findings.take_remarks();
  if (tempos.empty()) tempos = tempos_of_others(parts, part, file);
  passage.tempo = tempo_map(tempos, passage.measures);
  return passage;
}

}  // namespace fingerway
