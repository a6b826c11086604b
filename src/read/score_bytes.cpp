#include "fingerway/read/score_bytes.hpp"

#include <utility>

#include "archive_splice.hpp"
#include "fingerway/base/errors.hpp"
#include "musicxml_document.hpp"
#include "score_container.hpp"
#include "text_encoding.hpp"

namespace fingerway {

namespace {

bool holds(const std::string& archive, const std::string& bytes) {
  try {
    return unpacked_score(archive, {}).bytes == bytes;
  } catch (const InputError&) {
    return false;
  }
}

}  // namespace

ScoreFile load_score(const std::filesystem::path& file) { return parse_score_bytes(file_text(file), file.string()); }

ScoreFile parse_score_bytes(std::string bytes, const std::string& name) {
  ScoreFile score;
  if (is_archive(bytes)) {
    PackedScore packed = unpacked_score(bytes, name);
    score.container = Container{std::move(bytes), packed.entry, std::move(packed.name)};
    bytes = std::move(packed.bytes);
  }
  DecodedText text = decoded(std::move(bytes), name);
  score.text = std::move(text.text);
  score.encoding = text.encoding;
  score.byte_order_mark = text.byte_order_mark;
  return score;
}

std::string score_bytes(const ScoreFile& original, std::string_view new_text) {
  std::string bytes = encoded(new_text, original.encoding, original.byte_order_mark);
  if (!original.container) return bytes;
  const Container& container = *original.container;
  const std::string before = encoded(original.text, original.encoding, original.byte_order_mark);
  std::string archive = spliced(container.archive, container.entry, before, bytes);
  // An archive whose two directories disagree is read by the one and was changed by the other.
  if (!holds(archive, bytes)) refuse_to_splice();
  return archive;
}

}  // namespace fingerway
