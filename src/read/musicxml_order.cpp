#include "musicxml_order.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>

namespace fingerway {

namespace {

constexpr std::size_t most_played = 1'000'000;
constexpr int most_jumps = 1000;

/// An ending: measures [first, last] played only on some passes.
struct Ending {
  std::size_t first = 0;
  std::size_t last = 0;
  std::vector<int> numbers;
};

/// Endings that follow each other directly, and so belong to one repeated section.
struct EndingGroup {
  std::vector<Ending> endings;
  int most = 0;  // the largest number

  void add(Ending ending) {
    // An ending without numbers is the next one.
    if (ending.numbers.empty()) ending.numbers = {most + 1};
    most = std::max(most, *std::ranges::max_element(ending.numbers));
    endings.push_back(std::move(ending));
  }
  /// How often the section is played: a first ending alone is left out once more than its number says.
  [[nodiscard]] int passes() const {
    const bool only_first = endings.size() == 1 && std::ranges::count(endings.front().numbers, 1) > 0;
    return only_first ? most + 1 : most;
  }
};

std::size_t end_of_ending(const std::vector<OrderSigns>& signs, std::size_t first) {
  for (std::size_t i = first; i < signs.size(); ++i) {
    if (i > first && signs[i].ending_starts) return i - 1;
    if (signs[i].ending_stops || signs[i].backward) return i;
  }
  return first;
}

std::vector<EndingGroup> ending_groups(const std::vector<OrderSigns>& signs) {
  std::vector<EndingGroup> groups;
  for (std::size_t i = 0; i < signs.size(); ++i) {
    if (!signs[i].ending_starts) continue;
    Ending ending{i, end_of_ending(signs, i), signs[i].ending_numbers};
    const bool follows = !groups.empty() && groups.back().endings.back().last + 1 == i && !signs[i].forward;
    if (!follows) groups.emplace_back();
    i = ending.last;
    groups.back().add(std::move(ending));
  }
  return groups;
}

/// Follows the signs as a player does, one measure after the other.
class Follower {
 public:
  Follower(const std::vector<OrderSigns>& signs, const std::vector<Measure>& measures,
           const std::vector<std::size_t>& notes, Findings& findings)
      : signs_(signs),
        measures_(measures),
        notes_(notes),
        findings_(findings),
        groups_(ending_groups(signs)),
        group_at_(signs.size(), none),
        ending_at_(signs.size(), 0),
        visits_(signs.size(), 0),
        jumps_taken_(signs.size(), false) {
    std::size_t written = 0;
    for (const std::size_t count : notes) written += count;
    most_notes_ = std::max(most_played, written);
    most_measures_ = std::max(most_played, signs.size());
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      for (std::size_t e = 0; e < groups_[g].endings.size(); ++e) {
        const Ending& ending = groups_[g].endings[e];
        for (std::size_t i = ending.first; i <= ending.last; ++i) {
          group_at_[i] = g;
          ending_at_[i] = e;
        }
      }
    }
  }

  std::vector<PlayedMeasure> follow() {
    while (now_ < signs_.size()) {
      if (skip_other_endings()) continue;
      if (!play()) return {};
      go_on();
      if (over_) break;
    }
    tell_unplayed();
    return std::move(order_);
  }

 private:
  static constexpr std::size_t none = static_cast<std::size_t>(-1);

  [[nodiscard]] const Ending* ending_here() const {
    return group_at_[now_] == none ? nullptr : &groups_[group_at_[now_]].endings[ending_at_[now_]];
  }

  /// Whether repeats are passed over, as they are after a jump.
  [[nodiscard]] bool repeats_are_over(const OrderSigns& backward) const { return after_jump_ && !backward.after_jump; }

  /// At the start of an ending that is not for this pass, goes behind it.
  bool skip_other_endings() {
    if (signs_[now_].forward && now_ != section_) start_section(now_);
    const Ending* ending = ending_here();
    if (ending == nullptr || now_ != ending->first) return false;
    const EndingGroup& group = groups_[group_at_[now_]];
    const bool last_time = after_jump_ && !signs_[ending->last].after_jump;
    const int wanted = last_time ? group.passes() : pass_;
    if (std::ranges::find(ending->numbers, wanted) != ending->numbers.end()) return false;
    // The last ending is never left out: whatever the numbers say, the section has to end.
    if (ending == &group.endings.back() && group.endings.size() > 1 && wanted > group.most) return false;
    const std::size_t behind = ending->last + 1;
    if (ending == &group.endings.back()) start_section(behind);
    now_ = behind;
    return true;
  }

  void tell_unplayed() {
    std::size_t measures = 0;
    std::size_t notes = 0;
    for (std::size_t i = 0; i < signs_.size(); ++i) {
      if (visits_[i] > 0 || notes_[i] == 0) continue;
      ++measures;
      notes += notes_[i];
    }
    if (measures == 0) return;
    findings_.remark(counted(measures, "measure") + " (" + counted(notes, "note") +
                     ") that no repeat or jump leads to: not planned; as written they would be");
  }

  bool play() {
    const bool jumped = order_.empty() ? now_ != 0 : order_.back().written + 1 != now_;
    order_.push_back({static_cast<std::uint32_t>(now_), ++visits_[now_], jumped});
    played_notes_ += notes_[now_];
    if (played_notes_ <= most_notes_ && order_.size() <= most_measures_) return true;
    findings_.fault("its repeats lead to more than " + std::to_string(most_played) + " notes or measures",
                    "read it as written");
    return false;
  }

  void go_on() {
    const OrderSigns& signs = signs_[now_];
    if (signs.backward && goes_back(signs)) {
      ++pass_;
      now_ = section_;
      return;
    }
    const bool leaves_group =
        group_at_[now_] != none && (now_ + 1 == signs_.size() || group_at_[now_ + 1] != group_at_[now_]);
    const Ending* ending = ending_here();
    const bool ends_section = signs.backward || leaves_group;
    if (jump(signs)) return;
    if (ends_section) {
      start_section(now_ + 1);
    } else if (ending != nullptr && now_ == ending->last) {
      // Out of an ending that was not the last of its group: the others are for other passes.
      const std::size_t behind = groups_[group_at_[now_]].endings.back().last + 1;
      start_section(behind);
      now_ = behind;
      return;
    }
    ++now_;
  }

  [[nodiscard]] bool goes_back(const OrderSigns& signs) const {
    if (repeats_are_over(signs)) return false;
    if (group_at_[now_] == none) return pass_ < signs.times;
    return pass_ < groups_[group_at_[now_]].passes();
  }

  void start_section(std::size_t first) {
    section_ = first;
    pass_ = 1;
  }

  /// A jump at the end of this measure, if one is due.
  bool jump(const OrderSigns& signs) {
    if (!due(signs)) return false;
    // A sign that says when it holds needs no jump before it.
    const bool onward = after_jump_ || !signs.jump_times.empty();
    if (onward && signs.fine) {
      over_ = true;
      now_ = signs_.size();
      return true;
    }
    if (onward && !signs.to_coda.empty() && !jumps_taken_[now_]) {
      return jump_to(find(&OrderSigns::codas, signs.to_coda.front(), true), "a coda that is nowhere");
    }
    if (jumps_taken_[now_]) return false;
    if (signs.da_capo) return jump_back(0, {});
    if (signs.dal_segno.empty()) return false;
    return jump_back(find(&OrderSigns::segnos, signs.dal_segno.front(), false), "a segno that is nowhere");
  }

  [[nodiscard]] bool due(const OrderSigns& signs) const {
    return signs.jump_times.empty() || std::ranges::find(signs.jump_times, visits_[now_]) != signs.jump_times.end();
  }

  bool jump_back(std::optional<std::size_t> target, const std::string& missing) {
    if (!jump_to(target, missing)) return false;
    after_jump_ = true;
    return true;
  }

  bool jump_to(std::optional<std::size_t> target, const std::string& missing) {
    jumps_taken_[now_] = true;
    if (++jumps_ > most_jumps) {
      findings_.fault("more than 1000 jumps", "read it as written");
      over_ = true;
      return false;
    }
    if (!target) {
      findings_.at_measure(measures_[now_].name);
      findings_.remark("a sign leads to " + missing + ": play goes on without it");
      findings_.at_part();
      return false;
    }
    start_section(*target);
    now_ = *target;
    return true;
  }

  /// The mark of that name; without one of it, the nearest in the direction of the jump.
  [[nodiscard]] std::optional<std::size_t> find(std::vector<std::string> OrderSigns::*marks, const std::string& name,
                                                bool onward) const {
    std::optional<std::size_t> nearest;
    for (std::size_t i = 0; i < signs_.size(); ++i) {
      const std::vector<std::string>& names = signs_[i].*marks;
      if (names.empty()) continue;
      if (!name.empty() && std::ranges::find(names, name) != names.end()) return i;
      if (onward && i > now_ && !nearest) nearest = i;
      if (!onward && i <= now_) nearest = i;
    }
    return nearest;
  }

  const std::vector<OrderSigns>& signs_;
  const std::vector<Measure>& measures_;
  const std::vector<std::size_t>& notes_;
  Findings& findings_;
  std::vector<EndingGroup> groups_;
  std::vector<std::size_t> group_at_;
  std::vector<std::size_t> ending_at_;
  std::vector<int> visits_;
  std::vector<bool> jumps_taken_;
  std::vector<PlayedMeasure> order_;
  std::size_t now_ = 0;
  std::size_t section_ = 0;
  int pass_ = 1;
  bool after_jump_ = false;
  bool over_ = false;
  int jumps_ = 0;
  std::size_t played_notes_ = 0;
  std::size_t most_notes_ = most_played;
  std::size_t most_measures_ = most_played;
};

}  // namespace

std::vector<PlayedMeasure> play_order(const std::vector<OrderSigns>& signs, const std::vector<Measure>& measures,
                                      const std::vector<std::size_t>& notes, Findings& findings) {
  bool in_middle = false;
  for (std::size_t i = 0; i < signs.size(); ++i) {
    if (!signs[i].in_middle) continue;
    in_middle = true;
    findings.at_measure(measures[i].name);
    findings.fault("a repeat sign stands in the middle of the measure", "read it as written, or split that measure");
  }
  findings.at_part();
  if (in_middle) return {};
  return Follower(signs, measures, notes, findings).follow();
}

}  // namespace fingerway
