// What this part answers: single lines of instrument and conversion files (a pad, a rule, a fingering) as values.
// It does not know where in a file the lists stand, nor what a conversion changes (conversion_file.hpp).
#pragma once

#include <map>
#include <string>
#include <vector>

#include "fingerway/instrument/instrument.hpp"
#include "yaml_strict.hpp"

namespace fingerway {

/// What lines of one file are read against: the parts they may name, the file's sources and its faults.
struct PartContext {
  const Instrument& parts;
  const std::map<std::string, std::string>& sources;
  FaultList& faults;
};

/// The `sources` map of a file: short name to source.
[[nodiscard]] std::map<std::string, std::string> read_sources(const YamlNode* node, FaultList& faults);
/// Reports an id that is not one.
void require_id(const YamlNode& at, const std::string& id, FaultList& faults);

/// What an instrument file says of itself: id, name, transposition, what scores call it.
void read_identity(YamlMap& map, Instrument& made, FaultList& faults);
/// `range`: [lowest, highest].
void read_range(YamlMap& map, Instrument& made, FaultList& faults);

/// `source` (one name or several) and `confidence` of a line.
[[nodiscard]] Evidence read_evidence(YamlMap& line, const PartContext& context);
/// Touches by full name; unknown ones are reported and left out.
[[nodiscard]] TouchSet read_touches(YamlMap& line, std::string_view key, const PartContext& context);
/// The same in the order written.
[[nodiscard]] std::vector<TouchId> read_touch_list(YamlMap& line, std::string_view key, const PartContext& context);
[[nodiscard]] std::optional<TouchId> read_touch_name(const YamlNode& node, const PartContext& context);
[[nodiscard]] std::optional<PadId> read_pad_name(const YamlNode& node, const PartContext& context);
/// Pads by id; unknown ones are reported and left out.
[[nodiscard]] PadSet read_pad_names(YamlMap& line, std::string_view key, const PartContext& context);
/// `at`: [along, across].
[[nodiscard]] Spot read_spot(const YamlNode& node, FaultList& faults);

/// One line of each list. The map is finished by the caller, who may take further keys from it.
[[nodiscard]] Pad read_pad(YamlMap& line, const PartContext& context);
/// Nothing when the id names no finger.
[[nodiscard]] std::optional<Touch> read_touch(YamlMap& line, const PartContext& context);
[[nodiscard]] Rule read_rule(YamlMap& line, const PartContext& context);
/// `hold` gives one grip, `row` every run of neighbours in it.
[[nodiscard]] std::vector<Grip> read_grips(YamlMap& line, const PartContext& context);
/// Nothing when it does not name two known touches.
[[nodiscard]] std::optional<Slide> read_slide(YamlMap& line, const PartContext& context);
/// `engaged` tells whether it is set before playing.
[[nodiscard]] Latch read_latch(YamlMap& line, const PartContext& context, bool& engaged);
/// Nothing when the note is no note.
[[nodiscard]] std::optional<TableFingering> read_fingering(YamlMap& line, const PartContext& context);
/// Nothing (after reporting) when the node holds no note name.
[[nodiscard]] std::optional<Spelling> read_note(const YamlNode& node, FaultList& faults);

}  // namespace fingerway
