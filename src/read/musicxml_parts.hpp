// What this part answers: the parts of a score, whichever way round it is written, and what each looks like.
// It chooses none (musicxml_choice.hpp) and reads no times.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/read/musicxml.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// A part with its measures in order. In score-partwise a measure is one element; in score-timewise `heads` are the
/// <measure> elements and `contents` the <part> elements in them, null where the part has none.
struct ScorePart {
  std::string id;
  std::string name;
  std::vector<pugi::xml_node> heads;
  std::vector<pugi::xml_node> contents;
};

/// All parts. Throws InputError where there are none or more than a score can have.
[[nodiscard]] std::vector<ScorePart> parts_of(const pugi::xml_node& score, const std::string& file);

/// What a part looks like; walks through all of it.
[[nodiscard]] PartInfo part_info(const pugi::xml_node& score, const ScorePart& part);

/// The voice a <note> belongs to; a part with one voice need not name it.
[[nodiscard]] std::string_view voice_of(const pugi::xml_node& note);
/// The staff of a <note> or <direction>, counted from 1.
[[nodiscard]] int staff_of(const pugi::xml_node& note);
/// Whether voice "a" comes before "b": numbers by size, before names.
[[nodiscard]] bool voice_before(std::string_view a, std::string_view b);

/// "P1 'Bassoon' (24 notes, C2 to G4)".
[[nodiscard]] std::string line_about(const PartInfo& part);
/// "24 notes", "1 note".
[[nodiscard]] std::string counted(std::size_t count, const std::string& one);

}  // namespace fingerway
