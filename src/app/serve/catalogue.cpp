#include "catalogue.hpp"

#include <algorithm>
#include <map>
#include <system_error>
#include <utility>

#include "app/requests.hpp"
#include "app/workers.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/base/text.hpp"
#include "fingerway/read/repertoire_file.hpp"
#include "fingerway/read/score_bytes.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

Place at_field(const std::string& field) { return {.file = "request", .line = 0, .column = 0, .within = field}; }

[[noreturn]] void unknown(const std::string& field, const std::string& what, const std::string& word,
                          const std::vector<std::string>& known) {
  throw InputError(Fault{at_field(field), "no " + what + " '" + word.substr(0, 60) + "'", suggestion(word, known)});
}

/// A conversion that contradicts this member of the family is not offered for it.
std::vector<KnownConversion> conversions_of(const std::string& id, const InstrumentFolders& folders) {
  std::vector<KnownConversion> known;
  for (const std::string& conversion : conversion_ids(id, folders)) {
    try {
      const ConversionSheet sheet = read_instrument(id + "+" + conversion, folders).conversions.back();
      known.push_back({.id = conversion, .name = sheet.name, .what = sheet.what});
    } catch (const InputError&) {
      continue;
    }
  }
  return known;
}

std::vector<Demo> find_demos(const InstrumentFolders& folders) {
  std::error_code error;
  for (const fs::path& folder : folders.folders) {
    const fs::path scores = folder.parent_path() / "scores";
    if (!fs::is_directory(scores, error)) continue;
    std::vector<Demo> demos;
    for (const fs::directory_entry& entry : fs::directory_iterator(scores, error)) {
      if (entry.path().extension() != ".musicxml") continue;
      const std::string stem = entry.path().stem().string();
      demos.push_back({.id = stem, .title = {}, .instrument = {}, .file = entry.path()});
    }
    std::ranges::sort(demos, {}, &Demo::id);
    return demos;
  }
  return {};
}

}  // namespace

Catalogue::Catalogue(InstrumentFolders folders) : folders_(std::move(folders)), demos_(find_demos(folders_)) {
  const std::vector<std::string> ids = instrument_ids(folders_);
  instruments_.resize(ids.size());
  run_on_threads(ids.size(), thread_count(0), [&](std::size_t i) {
    const Instrument instrument = read_instrument(ids[i], folders_);
    instruments_[i] = {.id = ids[i],
                       .name = instrument.name,
                       .family = instrument.family,
                       .wanted = wanted_part(instrument),
                       .conversions = conversions_of(ids[i], folders_)};
  });
  for (Demo& demo : demos_) {
    const std::string text = load_score(demo.file).text;
    const std::vector<PartInfo> parts = list_parts(text, demo.file.filename().string());
    if (const auto fit = instruments_for(parts.front()); !fit.empty()) demo.instrument = fit.front();
    const Passage passage = parse_musicxml(text, demo.id, {.part = parts.front().id});
    demo.title = passage.title.empty() ? demo.id : passage.title;
  }
}

void Catalogue::require_known(const std::string& stacked, const std::string& field) const {
  const std::size_t plus = stacked.find('+');
  const std::string base = stacked.substr(0, plus);
  const auto found = std::ranges::find(instruments_, base, &KnownInstrument::id);
  if (found == instruments_.end()) {
    std::vector<std::string> ids;
    for (const KnownInstrument& one : instruments_) ids.push_back(one.id);
    unknown(field, "instrument", base, ids);
  }
  for (std::size_t start = plus; start != std::string::npos;) {
    const std::size_t end = stacked.find('+', start + 1);
    const std::string id = stacked.substr(start + 1, end == std::string::npos ? end : end - start - 1);
    if (std::ranges::find(found->conversions, id, &KnownConversion::id) == found->conversions.end()) {
      std::vector<std::string> ids;
      for (const KnownConversion& one : found->conversions) ids.push_back(one.id);
      unknown(field, "conversion of " + base, id, ids);
    }
    start = end;
  }
}

const Demo& Catalogue::demo(const std::string& id) const {
  const auto found = std::ranges::find(demos_, id, &Demo::id);
  if (found != demos_.end()) return *found;
  std::vector<std::string> ids;
  for (const Demo& one : demos_) ids.push_back(one.id);
  unknown("demo", "demo", id, ids);
}

std::vector<std::string> Catalogue::instruments_for(const PartInfo& part) const {
  std::vector<std::pair<int, std::string>> fit;
  for (const KnownInstrument& instrument : instruments_) {
    if (const int rank = part_fit(part, instrument.wanted); rank > 0) fit.emplace_back(rank, instrument.id);
  }
  std::ranges::stable_sort(fit, std::greater{}, [](const auto& one) { return one.first; });
  std::vector<std::string> ids;
  for (auto& [rank, id] : fit) ids.push_back(std::move(id));
  return ids;
}

}  // namespace fingerway
