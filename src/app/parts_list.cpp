#include "parts_list.hpp"

#include <fmt/format.h>

#include <nlohmann/json.hpp>

namespace fingerway {
namespace {

std::string range_of(const PartInfo& part) {
  if (!part.lowest || !part.highest) return part.percussion ? "unpitched" : "no notes";
  return name(*part.lowest) + " to " + name(*part.highest);
}

bool within(const PartInfo& part, const Instrument& instrument) {
  return part.lowest && part.highest && written(*part.lowest) >= instrument.lowest &&
         written(*part.highest) <= instrument.highest;
}

}  // namespace

std::string parts_text(const std::string& file, const std::vector<PartInfo>& parts, const Instrument& instrument) {
  std::string text = fmt::format("Parts of {}\n", file);
  for (const PartInfo& part : parts) {
    text += fmt::format("{:<8} {:<28} {:>7} notes  {:<14} {}\n", part.id, part.name, part.notes, range_of(part),
                        within(part, instrument) ? "" : "not within the range of " + instrument.name);
    if (part.voices.size() < 2) continue;
    for (const VoiceInfo& voice : part.voices) {
      text += fmt::format("{:<8}   voice {}, staff {}: {} notes\n", "", voice.voice, voice.staff, voice.notes);
    }
  }
  return text + "Choose one with --part, and a voice of it with --voice.\n";
}

std::string parts_json(const std::string& file, const std::vector<PartInfo>& parts) {
  nlohmann::ordered_json json = {{"format", "fingerway/parts"}, {"version", 1}, {"file", file}};
  json["parts"] = nlohmann::ordered_json::array();
  for (const PartInfo& part : parts) {
    nlohmann::ordered_json voices = nlohmann::ordered_json::array();
    for (const VoiceInfo& voice : part.voices) {
      voices.push_back({{"voice", voice.voice}, {"staff", voice.staff}, {"notes", voice.notes}});
    }
    nlohmann::ordered_json one = {{"id", part.id}, {"name", part.name}, {"notes", part.notes}};
    one["lowest"] = part.lowest ? nlohmann::ordered_json(name(*part.lowest)) : nlohmann::ordered_json();
    one["highest"] = part.highest ? nlohmann::ordered_json(name(*part.highest)) : nlohmann::ordered_json();
    one["clefs"] = part.clefs;
    one["voices"] = voices;
    json["parts"].push_back(one);
  }
  return json.dump(1, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace fingerway
