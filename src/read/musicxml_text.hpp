// What this part answers: texts and numbers as MusicXML elements hold them, read strictly and without the locale.
// It knows no element by name.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "fingerway/music/score_time.hpp"

namespace pugi {
class xml_node;
}

namespace fingerway {

/// Without white space at either end.
[[nodiscard]] std::string_view trimmed(std::string_view text);
/// The text of an element's first text child, without white space at either end; empty when there is none.
[[nodiscard]] std::string_view text_of(const pugi::xml_node& node);
/// Whether the element is there for playing back only (print-object="no"): players do not see it.
[[nodiscard]] bool is_hidden(const pugi::xml_node& node);
/// Text fit for messages and reports: one line, no control characters, valid UTF-8, not longer than some 200 bytes.
[[nodiscard]] std::string clean_text(std::string_view text);
/// The text in single quotes, cleaned and cut short, for messages.
[[nodiscard]] std::string short_quote(std::string_view text);

/// A whole number ("-3", "+4"); nothing when it is not one or does not lie in the range.
[[nodiscard]] std::optional<int> parse_whole(std::string_view text, int least, int most);
/// An exact decimal number ("12", "0.5"), at most nine digits either side of the point.
[[nodiscard]] std::optional<ScoreTime> parse_decimal(std::string_view text);
/// A decimal number where the last digits do not matter (a tempo).
[[nodiscard]] std::optional<double> parse_inexact(std::string_view text);

/// The offset of the first byte that is not part of valid UTF-8 text or is a control character XML does not allow.
[[nodiscard]] std::optional<std::size_t> first_bad_byte(std::string_view text);

}  // namespace fingerway
