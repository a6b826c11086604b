// What this part answers: how the page looks, on screen (light and dark) and on A4 paper.
// Private to report.
#pragma once

#include <string_view>

namespace fingerway {

[[nodiscard]] std::string_view page_style();

}  // namespace fingerway
