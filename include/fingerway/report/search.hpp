// What this part answers: a search for changes of the keywork as text and JSON.
// It computes nothing and rounds only what people read.
#pragma once

#include <string>

#include "fingerway/decide/conversion_search.hpp"

namespace fingerway {

/// A search and what it was made for; everything must outlive the report.
struct SearchReport {
  const Played& stock;
  const Repertoire& repertoire;
  const SearchResult& result;
};

/// The hard pairs, then the proposed sets with what they do, cost and lose.
[[nodiscard]] std::string search_text(const SearchReport& report);
/// Format "fingerway/payoff-search".
[[nodiscard]] std::string search_json(const SearchReport& report);

/// "low D-flat (left little finger) also lets the low E-flat pad open".
[[nodiscard]] std::string change_words(const Instrument& instrument, const ElementaryChange& change);

}  // namespace fingerway
