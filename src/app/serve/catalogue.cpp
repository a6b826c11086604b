#include "catalogue.hpp"

#include <algorithm>
#include <map>
#include <system_error>
#include <utility>

#include "app/requests.hpp"
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

/// The passages that lie in `scores`, then those in its folders.
std::vector<Demo> find_demos(const InstrumentFolders& folders) {
  std::error_code error;
  for (const fs::path& folder : folders.folders) {
    const fs::path scores = folder.parent_path() / "scores";
    if (!fs::is_directory(scores, error)) continue;
    std::vector<fs::path> files;
    for (const fs::directory_entry& entry : fs::recursive_directory_iterator(scores, error)) {
      if (entry.path().extension() == ".musicxml" || entry.path().extension() == ".mxl") files.push_back(entry.path());
    }
    std::ranges::sort(files, {}, [&](const fs::path& file) { return std::pair(file.parent_path() != scores, file); });
    std::vector<Demo> demos;
    for (const fs::path& file : files) {
      demos.push_back({.id = file.stem().string(), .title = {}, .instrument = {}, .file = file});
    }
    return demos;
  }
  return {};
}

}  // namespace

Catalogue::Catalogue(InstrumentFolders folders) : folders_(std::move(folders)), demos_(find_demos(folders_)) {
  for (const OfferedInstrument& offered : read_all_instruments(folders_)) {
    KnownInstrument known{.id = offered.stock.id,
                          .name = offered.stock.name,
                          .family = offered.stock.family,
                          .wanted = wanted_part(offered.stock),
                          .conversions = {},
                          .latches = {}};
    for (const Latch& latch : offered.stock.latches) known.latches.push_back({latch.id, latch.label});
    for (const OfferedConversion& one : offered.conversions) {
      known.conversions.push_back({.id = one.sheet.id, .name = one.sheet.name, .what = one.sheet.what, .latches = {}});
      for (const Latch& latch : one.latches) known.conversions.back().latches.push_back({latch.id, latch.label});
    }
    instruments_.push_back(std::move(known));
  }
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
