// What this part answers: how the page looks, on screen (light and dark) and on A4 paper.
// Private to report.
#pragma once

#include <string>
#include <string_view>

namespace fingerway {

/// All of it.
[[nodiscard]] std::string page_style();
/// The part that lanes need: colours, signs, the legend.
[[nodiscard]] std::string_view page_lanes_style();

}  // namespace fingerway
