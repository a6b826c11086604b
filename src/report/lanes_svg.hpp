// What this part answers: a system of finger lanes as an inline SVG picture, and the legend that explains its signs.
// Private to report. Colours are classes; the page's style gives them (page_style.hpp).
#pragma once

#include <string>
#include <vector>

#include "fingerway/report/lanes.hpp"

namespace fingerway {

/// How wide the time axis is, in units of the picture; everything else follows.
inline constexpr double lanes_axis_width = 748.0;
/// The shortest usual note.
inline constexpr double lanes_note_width = 33.0;

/// One system. `titles` names the blocks where there are several; `number` and the bars make the accessible title.
[[nodiscard]] std::string system_svg(const Lanes& lanes, std::size_t number, const std::vector<std::string>& titles);

/// The pattern that hatches, drawn once for all pictures of the page.
[[nodiscard]] std::string svg_patterns();

/// Every sign with its words, as a list of small pictures.
[[nodiscard]] std::string legend_html();

}  // namespace fingerway
