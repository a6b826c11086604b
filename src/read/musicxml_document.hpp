// What this part answers: a MusicXML file or text as a parsed document, or what is wrong with it, by line and column.
// It looks at no music.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

namespace pugi {
class xml_document;
class xml_node;
}  // namespace pugi

namespace fingerway {

/// The bytes of a file. Throws FileError when it cannot be read, InputError when it is too large.
[[nodiscard]] std::string file_text(const std::filesystem::path& file);

/// A parsed score document.
class ScoreDocument {
 public:
  /// Throws InputError when the text is no well-formed uncompressed MusicXML score.
  ScoreDocument(std::string_view text, const std::string& file);
  ~ScoreDocument();
  ScoreDocument(const ScoreDocument&) = delete;
  ScoreDocument& operator=(const ScoreDocument&) = delete;

  /// The <score-partwise> or <score-timewise> element.
  [[nodiscard]] pugi::xml_node score() const;

 private:
  std::unique_ptr<pugi::xml_document> document_;
};

}  // namespace fingerway
