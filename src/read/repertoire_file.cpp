#include "fingerway/read/repertoire_file.hpp"

#include <algorithm>
#include <cctype>
#include <system_error>

#include "yaml_strict.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_scores = 20'000;
constexpr Bounds tempos{1.0, 1000.0};
constexpr Bounds weights{0.001, 1000.0};
constexpr Bounds times_played{0.001, 100'000.0};

void read_piece(const YamlNode& item, const fs::path& folder, RepertoireFile& list, FaultList& faults) {
  YamlMap line(item, "a passage", faults);
  if (!line.usable()) return;
  WrittenPiece piece;
  piece.place = faults.place(item);
  const std::string score = line.text("score");
  piece.score = (folder / score).lexically_normal();
  piece.name = line.text_or("name", "");
  piece.part = line.text_or("part", "");
  piece.voice = line.text_or("voice", "");
  piece.bars = line.text_or("bars", "");
  piece.tempo = line.number_if("tempo", tempos);
  piece.weight = line.number_or("weight", weights, 1.0);
  piece.times = line.number_or("times", times_played, 1.0);
  line.finish();
  list.pieces.push_back(std::move(piece));
}

bool is_score(const fs::path& file) {
  std::string extension = file.extension().string();
  std::ranges::transform(extension, extension.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  return extension == ".musicxml" || extension == ".mxl" || extension == ".xml";
}

}  // namespace

RepertoireFile read_repertoire_file(const fs::path& file) {
  const YamlNode root = load_yaml(file);
  FaultList faults(file.string());
  YamlMap top(root, "the repertoire list", faults);
  RepertoireFile list;
  list.file = file.string();
  top.file_kind("repertoire");
  list.name = top.text_or("name", file.stem().string());
  const YamlNode* passages = top.need("passages");
  for (const YamlNode* item : top.items("passages")) read_piece(*item, file.parent_path(), list, faults);
  if (passages != nullptr && passages->kind == YamlNode::Kind::sequence && list.pieces.empty() && faults.empty()) {
    faults.add(*passages, "'passages' is empty", "- {score: FILE, bars: \"9-12\", tempo: 92, weight: 1, times: 1}");
  }
  top.finish();
  faults.throw_if_any();
  return list;
}

std::vector<fs::path> scores_in(const fs::path& folder) {
  std::error_code error;
  std::vector<fs::path> found;
  fs::recursive_directory_iterator entry(folder, fs::directory_options::skip_permission_denied, error);
  if (error) throw FileError(folder.string(), "cannot be read: " + error.message());
  for (; entry != fs::recursive_directory_iterator(); entry.increment(error)) {
    if (error) throw FileError(folder.string(), "cannot be read: " + error.message());
    std::error_code ignored;
    if (!is_score(entry->path()) || !entry->is_regular_file(ignored)) continue;
    found.push_back(entry->path());
    if (found.size() > most_scores) {
      throw InputError(Fault{{.file = folder.string(), .line = 0, .column = 0, .within = {}},
                             "more than " + std::to_string(most_scores) + " scores",
                             "name a folder within it, or a list"});
    }
  }
  if (found.empty()) {
    throw InputError(Fault{{.file = folder.string(), .line = 0, .column = 0, .within = {}},
                           "no scores in this folder",
                           "files ending in .musicxml, .mxl or .xml"});
  }
  std::ranges::sort(found);
  return found;
}

}  // namespace fingerway
