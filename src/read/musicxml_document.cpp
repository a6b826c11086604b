#include "musicxml_document.hpp"

#include <algorithm>
#include <cerrno>
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstring>
#include <optional>
#include <pugixml.hpp>
#include <system_error>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/score_bytes.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr std::size_t largest_file = std::size_t{1} << 30U;
constexpr const char* too_large = "1 GiB or larger";
// Each element costs memory whatever its length; a score of the largest size has fewer.
constexpr std::ptrdiff_t most_tags = 40'000'000;

Place place_at(std::string_view text, std::size_t offset, const std::string& file) {
  const std::string_view before = text.substr(0, std::min(offset, text.size()));
  const auto lines = std::ranges::count(before, '\n');
  const std::size_t line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  return {file, static_cast<int>(lines) + 1, static_cast<int>(before.size() - line_start) + 1, {}};
}

void check_text(std::string_view text, const std::string& file) {
  if (trimmed(text).empty()) throw InputError({{file, 0, 0, {}}, "is empty", {}});
  if (std::ranges::count(text, '<') > most_tags) {
    throw InputError({{file, 0, 0, {}}, "more than 40 million tags", {}});
  }
}

std::string reason(const pugi::xml_parse_result& result, bool at_end) {
  switch (result.status) {
    case pugi::status_out_of_memory:
      return "too large for this machine's memory";
    case pugi::status_no_document_element:
      return "not XML: it has no element";
    case pugi::status_end_element_mismatch:
      return at_end ? "the text ends inside an element" : "an end tag does not match its start tag";
    default:
      return at_end ? "the text ends inside a tag" : "not well-formed XML: " + std::string(result.description());
  }
}

[[noreturn]] void refuse_xml(const pugi::xml_parse_result& result, std::string_view text, const std::string& file) {
  Place place{file, 0, 0, {}};
  const auto offset = static_cast<std::size_t>(std::max<std::ptrdiff_t>(result.offset, 0));
  const bool has_tags = text.find('<') != std::string_view::npos;
  const bool known = has_tags && result.status != pugi::status_out_of_memory;
  if (known) place = place_at(text, offset, file);
  // It failed at the last character or in a tag that is never closed: the rest of the file is missing.
  const std::string_view rest = trimmed(text.substr(std::min(offset, text.size())));
  const bool at_end = known && (rest.size() <= 1 || rest.find('>') == std::string_view::npos);
  if (!has_tags) throw InputError({place, "not XML: it has no tags", "is it a MusicXML file?"});
  throw InputError({place, reason(result, at_end), at_end ? "the file may be cut short" : ""});
}

void check_root(const pugi::xml_document& document, const std::string& file) {
  const pugi::xml_node root = document.document_element();
  const std::string_view name = root.name();
  const Place place{file, 0, 0, {}};
  if (name == "score-partwise" || name == "score-timewise") return;
  if (name == "opus") {
    throw InputError({place, "a list of scores, not a score", "read one of the files it names"});
  }
  throw InputError(
      {place, "not MusicXML: its root element is " + short_quote(name), "a score starts with <score-partwise>"});
}

}  // namespace

std::string file_text(const std::filesystem::path& file) {
  std::error_code error;
  const std::filesystem::file_status status = std::filesystem::status(file, error);
  if (status.type() == std::filesystem::file_type::not_found) throw FileError(file.string(), "no such file");
  if (std::filesystem::is_directory(status)) throw FileError(file.string(), "is a folder, not a file");
  struct Closer {
    void operator()(std::FILE* f) const { static_cast<void>(std::fclose(f)); }
  };
  const std::unique_ptr<std::FILE, Closer> handle(std::fopen(file.c_str(), "rb"));
  if (!handle) throw FileError(file.string(), std::string("cannot be opened: ") + std::strerror(errno));
  const std::uintmax_t size = std::filesystem::file_size(file, error);
  if (!error && size >= largest_file) throw InputError({{file.string(), 0, 0, {}}, too_large, {}});
  std::string text;
  constexpr std::size_t step = std::size_t{1} << 20U;
  // Read until the end rather than by a size asked for first: pipes and devices have none.
  for (std::size_t got = step; got == step;) {
    const std::size_t had = text.size();
    text.resize(had + step);
    got = std::fread(text.data() + had, 1, step, handle.get());
    text.resize(had + got);
    if (text.size() >= largest_file) throw InputError({{file.string(), 0, 0, {}}, too_large, {}});
  }
  if (std::ferror(handle.get()) != 0) throw FileError(file.string(), "cannot be read to its end");
  return text;
}

ScoreDocument::ScoreDocument(std::string_view bytes, const std::string& file)
    : document_(std::make_unique<pugi::xml_document>()) {
  if (bytes.size() >= largest_file) throw InputError({{file, 0, 0, {}}, too_large, {}});
  const std::string text = parse_score_bytes(std::string(bytes), file).text;
  check_text(text, file);
  // A document type is skipped, never fetched, and entities it may define are not expanded.
  // Most elements hold one short text: kept in the element itself, it needs half the memory.
  const pugi::xml_parse_result result = document_->load_buffer(
      text.data(), text.size(), pugi::parse_default | pugi::parse_embed_pcdata, pugi::encoding_utf8);
  if (!result) refuse_xml(result, text, file);
  check_root(*document_, file);
}

ScoreDocument::~ScoreDocument() = default;

pugi::xml_node ScoreDocument::score() const { return document_->document_element(); }

}  // namespace fingerway
