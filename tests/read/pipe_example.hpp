// What this part answers: the worked example of instruments/README.md as text, and what reading a changed copy says.
#pragma once

#include <filesystem>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "read/told.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway {

/// The fenced YAML blocks of instruments/README.md, in order: the pipe, one like it, its conversion.
[[nodiscard]] inline std::vector<std::string> readme_examples() {
  std::ifstream stream(project_folder() / "instruments" / "README.md");
  std::vector<std::string> blocks;
  bool inside = false;
  for (std::string line; std::getline(stream, line);) {
    if (line == "```yaml") {
      inside = true;
      blocks.emplace_back();
    } else if (line == "```") {
      inside = false;
    } else if (inside) {
      blocks.back() += line + "\n";
    }
  }
  if (blocks.size() != 3) throw std::runtime_error("instruments/README.md must hold three YAML examples");
  return blocks;
}

/// The text with the one place where `old` stands replaced.
[[nodiscard]] inline std::string changed(std::string text, const std::string& old, const std::string& by) {
  const std::size_t at = text.find(old);
  if (at == std::string::npos) throw std::runtime_error("the example has no '" + old + "'");
  return text.replace(at, old.size(), by);
}

/// A folder with the pipe and, as conversions, the texts given by name.
class PipeFolder {
 public:
  explicit PipeFolder(const std::string& pipe = readme_examples()[0]) { folder_.write("pipe.yaml", pipe); }

  void conversion(const std::string& id, const std::string& text) const {
    folder_.write("conversions/" + id + ".yaml", text);
  }
  /// A conversion of the pipe with only the given sections.
  void short_conversion(const std::string& id, const std::string& sections) const {
    conversion(id, "fingerway: conversion\nversion: 1\nid: " + id + "\nbase: pipe\nname: n\nwhat: w\n" +
                       "sources: {s: made up}\n" + sections);
  }
  [[nodiscard]] Instrument read(const std::string& stacked) const { return read_instrument(stacked, where()); }
  [[nodiscard]] InstrumentFolders where() const { return {{folder_.path()}}; }
  [[nodiscard]] const ScratchFolder& folder() const { return folder_; }
  /// All messages of a failed reading, the folder's path taken out; "read" when nothing was wrong.
  [[nodiscard]] std::string faults(const std::string& stacked) const {
    return told(folder_, [&] { static_cast<void>(read(stacked)); });
  }

 private:
  ScratchFolder folder_;
};

/// What reading the pipe says after one change of its text.
[[nodiscard]] inline std::string pipe_faults(const std::string& old, const std::string& by) {
  return PipeFolder(changed(readme_examples()[0], old, by)).faults("pipe");
}

}  // namespace fingerway
