// What this part answers: pieces of finger lanes for a page that puts them together itself: a line of notes as SVG, the
// signs' meaning, the hatching, the rules that colour them. The file pages draw with the same code.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "fingerway/plan/explain.hpp"
#include "fingerway/plan/trills.hpp"
#include "fingerway/report/lanes.hpp"

namespace fingerway {

/// The notes of a span as one inline SVG picture as wide as asked for, several plans above each other. What belongs to
/// a note carries its number as data-note.
[[nodiscard]] std::string lanes_picture(const Passage& passage, const std::vector<LanePlan>& plans,
                                        const std::vector<std::size_t>& differing, const LaneSpan& span);

/// A choice at a note among its neighbours, as they would be played with it.
[[nodiscard]] std::string option_picture(const Played& played, const Passage& passage, const Option& option,
                                         double width);
/// A trill or tremolo by itself: one note after the other, there and back.
[[nodiscard]] std::string trill_picture(const Played& played, const Trill& trill, double width);

/// A hatching that pictures refer to; it stands once in the page.
[[nodiscard]] std::string lanes_hatching();
/// What each sign means, as an HTML list.
[[nodiscard]] std::string lanes_legend();
/// Colours of paper, ink and lanes as CSS variables, and the rules for every class in the pictures.
[[nodiscard]] std::string_view lanes_style();
/// All rules of the file pages, those for lanes among them.
[[nodiscard]] std::string report_style();

}  // namespace fingerway
