#include "musicxml_choice.hpp"

#include <algorithm>
#include <cstddef>
#include <functional>
#include <map>
#include <pugixml.hpp>
#include <string_view>
#include <tuple>

#include "fingerway/base/errors.hpp"
#include "musicxml_names.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

std::vector<PartInfo> infos_of(const pugi::xml_node& score, const std::vector<ScorePart>& parts) {
  std::vector<PartInfo> infos;
  infos.reserve(parts.size());
  for (const ScorePart& part : parts) infos.push_back(part_info(score, part));
  return infos;
}

std::string list_of(const std::vector<PartInfo>& parts) {
  constexpr std::size_t most_listed = 40;
  std::string list;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) list += ", ";
    if (i == most_listed) return list + "...";
    list += line_about(parts[i]);
  }
  return list;
}

/// Ways a part may be called by the user, strictest first; the first that anything answers to decides.
std::size_t part_called(const std::vector<PartInfo>& parts, const std::string& wanted, const Place& place) {
  const std::vector<std::string> words = words_of(wanted);
  const auto any_name = [](const PartInfo& part, const auto& fits) {
    return fits(part.name) || fits(part.abbreviation) || fits(part.instrument);
  };
  const auto same_words = [&](const std::string& name) { return !words.empty() && words_of(name) == words; };
  const auto holds_words = [&](const std::string& name) { return name_fit(name, wanted) != NameFit::none; };
  const std::vector<std::function<bool(const PartInfo&)>> ways = {
      [&](const PartInfo& part) { return part.id == wanted; },
      [&](const PartInfo& part) { return part.name == wanted; },
      [&](const PartInfo& part) { return any_name(part, same_words); },
      [&](const PartInfo& part) { return any_name(part, holds_words); }};
  for (const auto& answers : ways) {
    const auto count = std::ranges::count_if(parts, answers);
    if (count == 1) return static_cast<std::size_t>(std::ranges::find_if(parts, answers) - parts.begin());
    if (count > 1) {
      throw InputError({place, "several parts are named " + short_quote(wanted), "choose by id: " + list_of(parts)});
    }
  }
  throw InputError({place, "no part " + short_quote(wanted), "parts: " + list_of(parts)});
}

/// How well a part fits an instrument; compared from the first member on.
struct Fit {
  bool has_notes = false;
  NameFit named = NameFit::none;  // by its names or its sound
  bool in_range = true;
  bool clef_fits = true;

  friend bool operator==(const Fit&, const Fit&) = default;
  [[nodiscard]] auto rank() const { return std::tuple(has_notes, named, in_range, clef_fits); }
};

Fit fit_of(const PartInfo& part, const PartWanted& wanted) {
  Fit fit;
  fit.has_notes = part.notes > 0;
  for (const std::string& name : wanted.names) {
    fit.named = std::max(
        {fit.named, name_fit(part.name, name), name_fit(part.abbreviation, name), name_fit(part.instrument, name)});
  }
  for (const std::string& sound : part.sounds) {
    if (std::ranges::find(wanted.sounds, sound) != wanted.sounds.end()) fit.named = NameFit::whole;
  }
  if (wanted.lowest && part.lowest) fit.in_range = *wanted.lowest <= written(*part.lowest);
  if (wanted.highest && part.highest) fit.in_range = fit.in_range && written(*part.highest) <= *wanted.highest;
  if (!wanted.clefs.empty()) {
    fit.clef_fits = std::ranges::all_of(part.clefs, [&](const std::string& clef) {
      return std::ranges::find(wanted.clefs, clef) != wanted.clefs.end();
    });
  }
  return fit;
}

bool fits_at_all(const Fit& fit) {
  return fit.has_notes && (fit.named != NameFit::none || (fit.in_range && fit.clef_fits));
}

ChosenPart part_that_fits(const std::vector<PartInfo>& parts, const PartWanted& wanted, const Place& place) {
  std::vector<Fit> fits;
  for (const PartInfo& part : parts) fits.push_back(fit_of(part, wanted));
  const Fit best = *std::ranges::max_element(fits, {}, [](const Fit& fit) { return fit.rank(); });
  if (!fits_at_all(best)) {
    throw InputError({place, "no part fits the instrument by name, sound, range and clef: one must be chosen",
                      "parts: " + list_of(parts)});
  }
  if (std::ranges::count(fits, best) > 1) {
    std::vector<PartInfo> equal;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (fits[i] == best) equal.push_back(parts[i]);
    }
    const std::string why = best.named == NameFit::none ? "by range and clef" : "by name";
    throw InputError({place, "several parts fit the instrument " + why + ": one must be chosen",
                      "parts that fit: " + list_of(equal)});
  }
  const auto index = static_cast<std::size_t>(std::ranges::find(fits, best) - fits.begin());
  const std::string why = best.named == NameFit::none ? "its range and clef fit the instrument, no name does"
                                                      : "its name fits the instrument";
  return {index, "of " + std::to_string(parts.size()) + " parts, " + line_about(parts[index]) + " is read: " + why};
}

/// The voices of a part, as hints list them: "1 (24 notes), 2 on staff 2 (3 notes)".
std::string list_of_voices(const PartInfo& part) {
  constexpr std::size_t most_listed = 20;
  std::string list;
  for (std::size_t i = 0; i < part.voices.size(); ++i) {
    if (i == most_listed) return list + ", ...";
    const VoiceInfo& voice = part.voices[i];
    if (i > 0) list += ", ";
    list += voice.voice;
    if (part.staves > 1) list += " on staff " + std::to_string(voice.staff);
    list += " (" + counted(voice.notes, "note") + ")";
  }
  return list;
}

}  // namespace

int part_fit(const PartInfo& part, const PartWanted& wanted) {
  const Fit fit = fit_of(part, wanted);
  if (!fits_at_all(fit)) return 0;
  return 1 + 4 * static_cast<int>(fit.named) + 2 * static_cast<int>(fit.in_range) + static_cast<int>(fit.clef_fits);
}

ChosenPart choose_part(const pugi::xml_node& score, const std::vector<ScorePart>& parts, const ScoreChoice& choice,
                       const std::string& file) {
  const Place place{file, 0, 0, {}};
  if (!choice.part.empty()) {
    const auto by_id = std::ranges::find(parts, choice.part, &ScorePart::id);
    if (by_id != parts.end()) return {static_cast<std::size_t>(by_id - parts.begin()), {}};
    return {part_called(infos_of(score, parts), choice.part, place), {}};
  }
  if (parts.size() == 1) return {0, {}};
  const std::vector<PartInfo> infos = infos_of(score, parts);
  if (choice.wanted) return part_that_fits(infos, *choice.wanted, place);
  throw InputError({place, "the score has several parts: one must be chosen", "parts: " + list_of(infos)});
}

VoiceChoice choose_voice(const PartInfo& part, const ScoreChoice& choice, const std::string& file) {
  const Place place{file, 0, 0, "part " + part.id};
  // By voice; each on its staff of most notes.
  struct Total {
    std::size_t notes = 0;
    std::size_t most = 0;
    int staff = 1;
  };
  std::vector<std::pair<std::string, Total>> totals;
  for (const VoiceInfo& line : part.voices) {
    if (choice.staff && line.staff != *choice.staff) continue;
    if (!choice.voice.empty() && line.voice != choice.voice) continue;
    if (totals.empty() || totals.back().first != line.voice) totals.push_back({line.voice, {}});
    Total& total = totals.back().second;
    total.notes += line.notes;
    if (line.notes <= total.most) continue;
    total.most = line.notes;
    total.staff = line.staff;
  }
  if (totals.empty() && (choice.staff || !choice.voice.empty())) {
    std::string wanted = choice.voice.empty() ? std::string("no notes") : "no voice " + short_quote(choice.voice);
    if (choice.staff) wanted += " on staff " + std::to_string(*choice.staff);
    throw InputError({place, wanted, part.voices.empty() ? "it has no notes" : "voices: " + list_of_voices(part)});
  }
  if (totals.empty()) return {};
  // Voices stand by number: of equals the first wins.
  const auto& [voice, total] =
      *std::ranges::max_element(totals, {}, [](const auto& entry) { return entry.second.notes; });
  return {voice, choice.staff.value_or(total.staff), choice.staff.has_value()};
}

}  // namespace fingerway
