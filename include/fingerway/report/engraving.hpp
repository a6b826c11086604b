// What this part answers: one part of a score as MusicXML for an engraver, with ids by which notes are found again in
// the engraved picture; what such a score is called and which bars it has; and engraved pictures made safe.
// It engraves nothing itself.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/music/passage.hpp"

namespace fingerway {

struct Engraving {
  std::string musicxml;               ///< partwise, this part only
  std::vector<std::string> elements;  ///< of each note of the passage: the id of the `<note>` that starts it
};

/// The passage's part of a score text (UTF-8, partwise or timewise). Throws InputError when the text is not its score.
[[nodiscard]] Engraving engraved(std::string_view score_text, const Passage& passage);

struct ScoreOutline {
  std::string title;
  std::vector<std::string> bars;  ///< by printed name, each once, in the order they stand
};
[[nodiscard]] ScoreOutline score_outline(std::string_view score_text);

/// A picture from elsewhere with nothing but drawing left: no scripts, no handlers, no links, nothing loaded from
/// anywhere. Empty when it is no SVG. Ids get `prefix`, so that several pictures fit one page.
[[nodiscard]] std::string safe_svg(std::string_view svg, const std::string& prefix);

}  // namespace fingerway
