#include "fingerway/motion/numbers.hpp"

#include <utility>

namespace fingerway {
namespace {

constexpr std::array<std::string_view, 3> level_words = {"professional", "amateur", "beginner"};
constexpr std::array<std::string_view, 5> digit_words = {"thumb", "index", "middle", "ring", "little"};

void add_levels(std::vector<NamedNumber>& all, MotionNumbers& n) {
  for (std::size_t l = 0; l < n.levels.size(); ++l) {
    const std::string level(level_words[l]);
    all.push_back({level + ".index-rate", &n.levels[l].index_rate});
    for (std::size_t d = 0; d < 5; ++d) {
      all.push_back({level + ".rate-ratio." + std::string(digit_words[d]), &n.levels[l].rate_ratio[d]});
    }
    all.push_back({level + ".onset-scatter", &n.levels[l].onset_scatter});
  }
}

void add_single_numbers(std::vector<NamedNumber>& all, MotionNumbers& n) {
  const std::pair<const char*, Number*> singles[] = {
      {"pad-pressed", &n.pad_pressed},
      {"pad-sprung", &n.pad_sprung},
      {"travel-per-bit", &n.travel_per_bit},
      {"slide-per-bit", &n.slide_per_bit},
      {"slide-friction", &n.slide_friction},
      {"sideways-ratio", &n.sideways_ratio},
      {"roll-share", &n.roll_share},
      {"roll-per-touch", &n.roll_per_touch},
      {"tongue-hides", &n.tongue_hides},
      {"shortest-sounding", &n.shortest_sounding},
      {"contrary-one-hand", &n.contrary_one_hand},
      {"contrary-two-hands", &n.contrary_two_hands},
      {"per-finger", &n.per_finger},
      {"per-difference", &n.per_difference},
      {"independence-points", &n.independence_points},
      {"jump-points", &n.jump_points},
      {"slide-points", &n.slide_points},
      {"roller-points", &n.roller_points},
      {"roll-points", &n.roll_points},
      {"shift-points", &n.shift_points},
      {"straddle-points", &n.straddle_points},
      {"same-way-share", &n.same_way_share},
      {"far-holder-share", &n.far_holder_share},
      {"travel-points", &n.travel_points},
      {"flick-points", &n.flick_points},
      {"reach-points", &n.reach_points},
      {"hand-span", &n.hand_span},
      {"effort-floor", &n.effort_floor},
      {"tightness-points", &n.tightness_points},
      {"misfit-points", &n.misfit_points},
      {"overload-points", &n.overload_points},
      {"gap-points", &n.gap_points},
      {"blip-points", &n.blip_points},
      {"alternate-points", &n.alternate_points},
      {"alternate-points-per-second", &n.alternate_points_per_second},
      {"trill-only-points", &n.trill_only_points},
      {"trill-only-points-per-second", &n.trill_only_points_per_second},
      {"trait-points-per-second", &n.trait_points_per_second},
      {"dynamic-points", &n.dynamic_points},
      {"doubtful-points", &n.doubtful_points},
      {"pass-through-points", &n.pass_through_points},
      {"later-line-points", &n.later_line_points},
      {"harmonic-points", &n.harmonic_points},
      {"spare-points", &n.spare_points},
      {"shade-points-per-second", &n.shade_points_per_second},
      {"rest-points", &n.rest_points},
      {"habit-points", &n.habit_points},
      {"fluent-from", &n.fluent_from},
      {"workable-from", &n.workable_from},
      {"laborious-from", &n.laborious_from},
      {"trill-enough", &n.trill_enough},
      {"trill-tone", &n.trill_tone},
      {"trill-after-half-minute", &n.trill_after_half_minute},
  };
  for (const auto& [name, number] : singles) all.push_back({name, number});
}

}  // namespace

std::vector<NamedNumber> named_numbers(MotionNumbers& numbers) {
  std::vector<NamedNumber> all;
  add_levels(all, numbers);
  add_single_numbers(all, numbers);
  for (std::size_t i = 0; i < numbers.spread.size(); ++i) {
    all.push_back({"spread." + std::to_string(i + 1), &numbers.spread[i]});
  }
  for (std::size_t d = 0; d < 5; ++d) {
    all.push_back({"individuation." + std::string(digit_words[d]), &numbers.individuation[d]});
    all.push_back({"stationarity." + std::string(digit_words[d]), &numbers.stationarity[d]});
  }
  const char* reaches[] = {"comfortable-reach.index-middle", "comfortable-reach.middle-ring",
                           "comfortable-reach.ring-little"};
  for (std::size_t i = 0; i < 3; ++i) all.push_back({reaches[i], &numbers.comfortable_reach[i]});
  return all;
}

std::string_view words(Level level) { return level_words[static_cast<std::size_t>(level)]; }

}  // namespace fingerway
