// What this part answers: the pieces that every page shares: the document around it, sections, lists, the cautions.
// Private to report.
#pragma once

#include <string>
#include <vector>

#include "fingerway/report/view.hpp"

namespace fingerway {

/// A whole page that needs no script and asks for nothing outside itself.
[[nodiscard]] std::string page_document(const std::string& title, const std::string& content);
/// A heading and what belongs to it; nothing where there is no content.
[[nodiscard]] std::string page_section(const std::string& title, const std::string& content);
/// Bullets; nothing when there are none.
[[nodiscard]] std::string page_list(const std::vector<std::string>& items);
/// Labels beside what they say.
[[nodiscard]] std::string page_definitions(const std::vector<Labelled>& lines);
/// What every page says at its foot.
[[nodiscard]] std::string page_cautions();

}  // namespace fingerway
