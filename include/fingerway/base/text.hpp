// What this part answers: whether bytes are text, and how to show text from anywhere on one line.
// It knows no encoding but UTF-8.
#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace fingerway {

/// Length in bytes of the valid UTF-8 character at `at`, 0 when there is none. Source: RFC 3629, section 4.
[[nodiscard]] std::size_t utf8_length(std::string_view text, std::size_t at);

/// True for characters that steer a terminal instead of being drawn: below the blank, U+007F to U+009F. `at` must be
/// the start of a valid character.
[[nodiscard]] bool is_control(std::string_view text, std::size_t at);

/// Text that can be shown anywhere: control characters and line breaks as one blank, bytes that are no text as "?".
[[nodiscard]] std::string one_line(std::string_view text);

/// The hint for an unknown word: "did you mean 'x'?" when a known one is near, else "known: a, b, c" (the start of a
/// long list), else nothing.
[[nodiscard]] std::string suggestion(std::string_view word, const std::vector<std::string>& known);

/// Takes a text part by part, where the whole is more than memory should hold.
using TextSink = std::function<void(std::string_view part)>;

}  // namespace fingerway
