// What this part answers: a repertoire list (YAML) as written: which bars of which scores, how fast, how much each
// counts. It opens none of the scores.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "fingerway/base/errors.hpp"

namespace fingerway {

/// One entry of a list.
struct WrittenPiece {
  Place place;
  std::filesystem::path score;  ///< as written, from the folder of the list on
  std::string name;             ///< may be empty
  std::string part, voice;      ///< may be empty
  std::string bars;             ///< "9-12"; empty: all
  std::optional<double> tempo;  ///< quarter notes a minute at the start
  double weight = 1;
  double times = 1;
};

struct RepertoireFile {
  std::string file;
  std::string name;
  std::vector<WrittenPiece> pieces;
};

/// Throws InputError with every fault of the file, or FileError.
[[nodiscard]] RepertoireFile read_repertoire_file(const std::filesystem::path& file);

/// Every score in a folder and the folders in it (.musicxml, .mxl, .xml), by path. Throws FileError, or InputError when
/// there are none or too many.
[[nodiscard]] std::vector<std::filesystem::path> scores_in(const std::filesystem::path& folder);

}  // namespace fingerway
