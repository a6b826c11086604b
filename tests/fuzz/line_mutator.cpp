// What this part answers: changes to a text that keep most of it a text of the same kind: lines left out, doubled,
// moved, values put in another's place. libFuzzer calls it; half of all changes are libFuzzer's own.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstring>
#include <random>
#include <string>
#include <string_view>
#include <vector>

extern "C" std::size_t LLVMFuzzerMutate(std::uint8_t* data, std::size_t size, std::size_t max_size);
extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed);

namespace {

constexpr std::string_view odd_values[] = {"0",         "-1",       "1e9",       "99999999999999999999",
                                           "nan",       "inf",      "\"\"",      "[]",
                                           "{}",        "~",        "true",      "C4",
                                           "Cbb-9",     "\"\\t\"",  "[1, 2]",    "'x'",
                                           "\"\\x9b\"", "\xc3\xa4", "&a x",      "*a",
                                           "!t x",      "..",       "/",         "-0.5",
                                           "0.1",       "1/0",      "4294967296"};

class Changer {
 public:
  Changer(std::string_view text, unsigned seed) : random_(seed) {
    for (std::size_t start = 0; start <= text.size();) {
      const std::size_t end = std::min(text.find('\n', start), text.size());
      lines_.emplace_back(text.substr(start, end - start));
      start = end + 1;
    }
  }

  std::string changed() {
    const std::size_t a = below(lines_.size());
    const std::size_t b = below(lines_.size());
    const auto at = [&](std::size_t i) { return lines_.begin() + static_cast<std::ptrdiff_t>(i); };
    switch (below(6)) {
      case 0:
        if (lines_.size() > 1) lines_.erase(at(a));
        break;
      case 1:
        lines_.insert(at(b), std::string(lines_[a]));
        break;
      case 2:
        std::swap(lines_[a], lines_[b]);
        break;
      case 3:
        exchange(lines_[a], std::string(odd_values[below(std::size(odd_values))]));
        break;
      case 4:
        exchange(lines_[a], token(lines_[b]));
        break;
      default:
        indent(lines_[a]);
    }
    std::string text;
    for (std::size_t i = 0; i < lines_.size(); ++i) text += (i == 0 ? "" : "\n") + lines_[i];
    return text;
  }

 private:
  std::size_t below(std::size_t n) { return random_() % n; }

  /// Where a word or number stands in a line; the line's end where there is none.
  std::pair<std::size_t, std::size_t> token_at(const std::string& line) {
    constexpr const char* separators = " ,:[]{}<>\"=\t";
    const std::size_t start = line.find_first_not_of(separators, below(line.size() + 1));
    if (start == std::string::npos) return {line.size(), line.size()};
    return {start, std::min(line.find_first_of(separators, start), line.size())};
  }
  std::string token(const std::string& line) {
    const auto [start, end] = token_at(line);
    return line.substr(start, end - start);
  }
  void exchange(std::string& line, const std::string& by) {
    const auto [start, end] = token_at(line);
    line.replace(start, end - start, by);
  }
  void indent(std::string& line) {
    if (line.starts_with("  ") && below(2) == 0) {
      line.erase(0, 2);
    } else {
      line.insert(0, "  ");
    }
  }

  std::minstd_rand random_;
  std::vector<std::string> lines_;
};

}  // namespace

extern "C" std::size_t LLVMFuzzerCustomMutator(std::uint8_t* data, std::size_t size, std::size_t max_size,
                                               unsigned seed) {
  if (seed % 2 == 0) return LLVMFuzzerMutate(data, size, max_size);
  const std::string text = Changer({reinterpret_cast<const char*>(data), size}, seed / 2).changed();
  const std::size_t kept = std::min(text.size(), max_size);
  std::memcpy(data, text.data(), kept);
  return kept;
}
