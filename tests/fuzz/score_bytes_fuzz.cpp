// What this part answers: does the reader of score files in any encoding, or in an archive, bear any bytes; and does a
// text that is put back come back? Where the first byte is odd the rest is made an archive: names and contents in turn,
// divided by lines of dashes, so that what lies behind the checksums is reached too.
#include "fingerway/read/score_bytes.hpp"
#include "fuzz.hpp"
#include "read/archive.hpp"

namespace {

using namespace fingerway;

std::string archive_from(std::string_view text) {
  constexpr std::string_view divider = "\n---\n";
  Entries entries;
  std::vector<std::string> pieces;
  for (std::size_t start = 0; start <= text.size() && pieces.size() < 20;) {
    const std::size_t end = std::min(text.find(divider, start), text.size());
    pieces.emplace_back(text.substr(start, end - start));
    start = end + divider.size();
  }
  if (pieces.size() % 2 != 0) pieces.emplace_back();
  for (std::size_t i = 0; i + 1 < pieces.size(); i += 2) entries.emplace_back(pieces[i].c_str(), pieces[i + 1]);
  return archive_of(entries);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0) return 0;
  std::string bytes(fuzz::text_of(data + 1, size - 1));
  if (data[0] % 2 == 1) {
    try {
      bytes = archive_from(bytes);
    } catch (const std::runtime_error&) {
      return 0;  // libzip refuses to make such an archive
    }
  }
  ScoreFile score;
  if (!fuzz::reads([&] { score = parse_score_bytes(bytes, "tried"); })) return 0;
  std::string back;
  if (!fuzz::reads([&] { back = score_bytes(score, score.text); })) return 0;
  if (!score.container) fuzz::require(back == bytes, "a text that does not come back as it was");
  ScoreFile again;
  fuzz::require(fuzz::reads([&] { again = parse_score_bytes(back, "again"); }), "what was written is refused");
  fuzz::require(again.text == score.text, "what was written is read otherwise");
  return 0;
}
