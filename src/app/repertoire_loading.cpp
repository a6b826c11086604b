#include <algorithm>
#include <filesystem>
#include <system_error>

#include "delivery.hpp"
#include "fingerway/base/errors.hpp"
#include "fingerway/read/repertoire_file.hpp"
#include "payoff_material.hpp"

namespace fingerway {
namespace {

namespace fs = std::filesystem;

/// Beyond this share of notes without a fingering, a passage is for another instrument.
constexpr double most_unplayable = 0.25;

Place at_file(const std::string& file) { return {.file = file, .line = 0, .column = 0, .within = {}}; }

bool looks_like_score(const fs::path& file) {
  const std::string extension = file.extension().string();
  return extension == ".musicxml" || extension == ".mxl" || extension == ".xml";
}

/// The entries of a folder as if somebody had listed them.
RepertoireFile listed(const std::string& folder_or_list) {
  std::error_code error;
  const fs::path path(folder_or_list);
  RepertoireFile list;
  list.file = folder_or_list;
  const fs::path named = path.has_filename() ? path : path.parent_path();
  list.name = named.filename().string();
  const auto add = [&](const fs::path& score) {
    WrittenPiece piece;
    piece.place = at_file(score.string());
    piece.score = score;
    list.pieces.push_back(std::move(piece));
  };
  if (fs::is_directory(path, error)) {
    for (const fs::path& score : scores_in(path)) add(score);
    return list;
  }
  if (looks_like_score(path)) {
    add(path);
    return list;
  }
  return read_repertoire_file(path);
}

std::string name_of(const WrittenPiece& written, const Passage& passage) {
  if (!written.name.empty()) return written.name;
  std::string name = passage.title.empty() ? written.score.stem().string() : passage.title;
  if (!written.bars.empty()) {
    name += (written.bars.find('-') == std::string::npos ? ", bar " : ", bars ") + written.bars;
  }
  return name;
}

/// Why a passage is not for this instrument; empty when it is.
std::string unsuitable(const Passage& passage, const Played& stock) {
  if (passage.notes.empty()) return "it has no notes";
  const auto missing = std::ranges::count_if(
      passage.notes, [&](const NoteEvent& note) { return stock.derivation.of(note.pitch).empty(); });
  if (static_cast<double>(missing) <= most_unplayable * static_cast<double>(passage.notes.size())) return {};
  return std::to_string(missing) + " of its " + std::to_string(passage.notes.size()) +
         " notes have no fingering on this instrument";
}

/// The passage, or a note why there is none.
void add_piece(const WrittenPiece& written, const Played& stock, Repertoire& repertoire) {
  ScoreRequest request;
  request.file = written.score.string();
  request.choice.part = written.part;
  request.choice.voice = written.voice;
  request.bars = written.bars;
  request.tempo = written.tempo;
  try {
    Piece piece;
    piece.passage = load_passage(request, stock.instrument);
    note_transposition(piece.passage, stock.instrument);
    piece.name = name_of(written, piece.passage);
    piece.bars = written.bars;
    piece.weight = written.weight;
    piece.times = written.times;
    const std::string why = unsuitable(piece.passage, stock);
    if (why.empty()) {
      repertoire.pieces.push_back(std::move(piece));
    } else {
      repertoire.skipped.push_back({request.file, why});
    }
  } catch (const InputError& error) {
    repertoire.skipped.push_back({request.file, message({{}, error.faults().front().what, {}})});
  } catch (const FileError& error) {
    repertoire.skipped.push_back({request.file, message({{}, error.fault().what, {}})});
  }
}

}  // namespace

Repertoire load_repertoire(const std::string& folder_or_list, const Played& stock) {
  const RepertoireFile list = listed(folder_or_list);
  Repertoire repertoire;
  repertoire.name = list.name;
  repertoire.file = folder_or_list;
  for (const WrittenPiece& written : list.pieces) add_piece(written, stock, repertoire);
  if (!repertoire.pieces.empty()) return repertoire;
  std::vector<Fault> faults;
  constexpr std::size_t most_told = 8;
  for (const Remark& skipped : repertoire.skipped) {
    if (faults.size() < most_told) faults.push_back({at_file(skipped.within), skipped.what, ""});
  }
  faults.push_back({at_file(folder_or_list), "no score of it can be used", "see above"});
  throw InputError(faults);
}

}  // namespace fingerway
