#include "fingerway/read/musicxml.hpp"

#include <cstddef>
#include <pugixml.hpp>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "musicxml_choice.hpp"
#include "musicxml_document.hpp"
#include "musicxml_dynamics.hpp"
#include "musicxml_events.hpp"
#include "musicxml_findings.hpp"
#include "musicxml_line.hpp"
#include "musicxml_order.hpp"
#include "musicxml_parts.hpp"
#include "musicxml_slurs.hpp"
#include "musicxml_text.hpp"
#include "musicxml_unroll.hpp"

namespace fingerway {

namespace {

std::string title_of(const pugi::xml_node& score) {
  const std::string work = clean_text(score.child("work").child_value("work-title"));
  const std::string movement = clean_text(score.child_value("movement-title"));
  if (work.empty() || movement.empty() || work == movement) return work.empty() ? movement : work;
  return work + ": " + movement;
}

/// Reads the voice; where it stands on several staves at once, the staff with most of its notes.
Line line_of(const ScorePart& part, LineRequest& request, Findings& findings, const std::string& file) {
  Findings told = findings;
  Line line = read_line(part, request, told);
  if (!request.voice.only_this_staff && staves_clash(line)) {
    request.voice.only_this_staff = true;
    told = Findings(file, part.id);
    line = read_line(part, request, told);
  }
  findings = std::move(told);
  return line;
}

/// Tempo marks usually stand in one part of a score only; the chosen one may have none of its own.
std::vector<LineTempo> tempos_of_others(const std::vector<ScorePart>& parts, const ScorePart& chosen,
                                        const std::string& file) {
  for (const ScorePart& part : parts) {
    if (&part == &chosen) continue;
    // Whatever else may be wrong with another part does not matter here.
    Findings unheard(file, part.id);
    std::vector<LineTempo> tempos = read_line(part, {}, unheard).tempos;
    if (!tempos.empty()) return tempos;
  }
  return {};
}

std::vector<PlayedMeasure> order_of(const std::vector<ScorePart>& parts, const ScorePart& part, const Line& line,
                                    PlayOrder choice, Findings& findings) {
  std::vector<OrderSigns> signs = order_signs(part, findings);
  if (parts.size() > 1) add_signs_of_others(signs, parts, part);
  bool any = false;
  for (const OrderSigns& measure : signs) any = any || measure.jumps() || measure.repeats();
  if (!any) return written_order(line.measures.size());
  if (choice == PlayOrder::as_written) {
    findings.remark("repeats and jumps are read once, as written");
    return written_order(line.measures.size());
  }
  std::vector<PlayedMeasure> order = play_order(signs, line.measures, notes_by_measure(line), findings);
  if (order.size() != line.measures.size()) {
    findings.remark("repeats and jumps are followed: " + counted(line.measures.size(), "written measure") + ", " +
                    std::to_string(order.size()) + " played");
  }
  return order;
}

void read_sense(const pugi::xml_node& score, ConcertPitch choice, const Line& line, Passage& passage) {
  const bool stated = static_cast<bool>(score.child("defaults").child("concert-score"));
  passage.transposition = line.transposition;
  passage.transposed_part = line.transposed_part;
  if (!stated && choice == ConcertPitch::as_written) return;
  passage.sense = PitchSense::sounding;
  // Concert scores may still write a part an octave away from where it sounds (MusicXML 4.0, element concert-score).
  // A transposition in a file that is said to be at concert pitch is what it would be, not what it is.
  constexpr int octave = 12;
  passage.transposition.interval.count -= passage.transposition.interval.count % octave;
}

}  // namespace

Passage read_musicxml(const std::filesystem::path& file, const ScoreChoice& choice) {
  return parse_musicxml(file_text(file), file.string(), choice);
}

Passage parse_musicxml(std::string_view text, const std::string& file, const ScoreChoice& choice) {
  const ScoreDocument document(text, file);
  const std::vector<ScorePart> parts = parts_of(document.score(), file);
  const ChosenPart chosen = choose_part(document.score(), parts, choice, file);
  const ScorePart& part = parts[chosen.index];
  LineRequest request{choose_voice(part_info(document.score(), part), choice, file), choice.divisi};

  Passage passage;
  passage.file = file;
  passage.title = title_of(document.score());
  passage.part_id = part.id;
  passage.part_name = part.name;
  passage.voice = request.voice.voice;

  Findings findings(file, part.id);
  Line line = line_of(part, request, findings, file);
  findings.at_part();
  if (!chosen.remark.empty()) findings.remark(chosen.remark);
  settle_dynamics(line);
  settle_wavy_lines(line, findings);
  join_slurs_across_voices(line);
  findings.at_part();
  read_sense(document.score(), choice.concert, line, passage);
  std::vector<LineTempo> tempos = std::move(line.tempos);
  if (tempos.empty()) tempos = tempos_of_others(parts, part, file);
  const std::vector<PlayedMeasure> order = order_of(parts, part, line, choice.order, findings);
  findings.throw_if_any();
  try {
    PlayedLine played = played_line(std::move(line), tempos, order);
    passage.measures = played.measures;
    passage.tempo = std::move(played.tempo);
    passage.notes = note_events(std::move(played), choice.ornaments, findings);
  } catch (const std::overflow_error&) {
    findings.fault("its times cannot be told as fractions of a quarter note", "use one value of divisions in the part");
  }
  findings.at_part();
  if (passage.notes.empty() && !findings.any_fault())
    findings.fault("has no notes to play", "choose another part or voice; --parts lists them");
  findings.throw_if_any();
  passage.remarks = findings.take_remarks();
  return passage;
}

std::vector<PartInfo> list_parts(std::string_view text, const std::string& file) {
  const ScoreDocument document(text, file);
  std::vector<PartInfo> infos;
  for (const ScorePart& part : parts_of(document.score(), file)) infos.push_back(part_info(document.score(), part));
  return infos;
}

}  // namespace fingerway
