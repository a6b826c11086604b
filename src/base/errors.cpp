#include "fingerway/base/errors.hpp"

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <utility>

#include "fingerway/base/text.hpp"

namespace fingerway {

namespace {

std::string all_messages(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) {
    if (!text.empty()) text += '\n';
    text += message(fault);
  }
  return text;
}

// Longer words are no typing slips; the bound keeps the table small whatever the input holds.
constexpr std::size_t longest_word = 128;

/// Steps (insert, remove, replace, swap neighbours) from one word to another.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> before(b.size() + 1);
  std::vector<std::size_t> row(b.size() + 1);
  std::vector<std::size_t> next(b.size() + 1);
  std::iota(row.begin(), row.end(), std::size_t{0});
  for (std::size_t i = 1; i <= a.size(); ++i) {
    next[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = row[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      next[j] = std::min({row[j] + 1, next[j - 1] + 1, replaced});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) next[j] = std::min(next[j], before[j - 2] + 1);
    }
    before.swap(row);
    row.swap(next);
  }
  return row[b.size()];
}

}  // namespace

std::string message(const Fault& fault) {
  std::string text = fault.place.file;
  const auto separate = [&text](const char* separator) {
    if (!text.empty()) text += separator;
  };
  if (fault.place.line > 0) {
    separate(":");
    text += std::to_string(fault.place.line);
    if (fault.place.column > 0) text += ":" + std::to_string(fault.place.column);
  }
  if (!fault.place.within.empty()) {
    separate(": ");
    text += fault.place.within;
  }
  separate(": ");
  text += fault.what;
  if (!fault.hint.empty()) text += " (" + fault.hint + ")";
  // Names of files, and what stands in them, may hold anything; a message is one line on every terminal.
  return one_line(text);
}

InputError::InputError(std::vector<Fault> faults)
    : std::runtime_error(all_messages(faults)), faults_(std::move(faults)) {}

InputError::InputError(Fault fault) : InputError(std::vector<Fault>{std::move(fault)}) {}

FileError::FileError(std::string file, std::string what, std::string hint)
    : std::runtime_error(message(Fault{{file, 0, 0, {}}, what, hint})),
      fault_{{std::move(file), 0, 0, {}}, std::move(what), std::move(hint)} {}

std::string nearest_word(std::string_view word, const std::vector<std::string>& known) {
  if (word.empty() || word.size() > longest_word) return {};
  // A slip in three letters may be meant; more is another word.
  const std::size_t near_enough = std::max<std::size_t>(1, word.size() / 3);
  std::size_t best = near_enough + 1;
  const std::string* nearest = nullptr;
  for (const std::string& candidate : known) {
    if (candidate.size() > word.size() + near_enough || word.size() > candidate.size() + near_enough) continue;
    const std::size_t distance = edit_distance(word, candidate);
    if (distance < best) {
      best = distance;
      nearest = &candidate;
    }
  }
  return nearest != nullptr ? *nearest : std::string();
}

}  // namespace fingerway
