// What this part answers: text made safe inside HTML and SVG, and numbers as they stand in attributes.
// Private to report.
#pragma once

#include <string>
#include <string_view>

namespace fingerway {

/// &, <, >, " and ' as entities; control characters that no HTML may hold are left out.
[[nodiscard]] std::string escaped(std::string_view text);
/// A coordinate: at most two decimals, no trailing zeros.
[[nodiscard]] std::string coordinate(double value);
/// <tag class="...">text</tag>, the text escaped.
[[nodiscard]] std::string element(std::string_view tag, std::string_view css_class, std::string_view text);

}  // namespace fingerway
