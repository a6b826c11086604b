#include "walk.hpp"

#include <algorithm>

namespace fingerway {
namespace {

PadSet demanded(const Target& target) {
  PadSet pads = target.demand.closed | target.demand.half | target.demand.open;
  if (target.at_attack) pads |= target.at_attack->closed | target.at_attack->half | target.at_attack->open;
  return pads;
}

bool agrees(const PadDemand& demand, PadStates states, PadSet pads) {
  return states.closed.contains_all(demand.closed & pads) && states.half.contains_all(demand.half & pads) &&
         !(states.closed | states.half).intersects(demand.open & pads);
}

/// Holds of one finger that press the same of what matters.
struct HoldClass {
  TouchSet touches;
  TouchSet half;
  HoldMask holds = 0;
};

class Walk {
 public:
  Walk(const Instrument& instrument, const Works& works, const std::array<std::vector<Hold>, finger_count>& holds,
       const Target& target, std::size_t target_index, TouchSet telling)
      : target_(target), works_(only_for(works, demanded(target))) {
    family_.target = target_index;
    for (std::size_t f = 0; f < finger_count; ++f) classes_[f] = classes_of(holds[f], telling);
    // A pad is settled once the last finger that any of its rules names has taken its place.
    for (PadId pad : demanded(target)) {
      std::size_t last = 0;
      for (const Linkage& link : works_.linkages) {
        if (!(link.opens | link.closes).contains(pad)) continue;
        for (TouchId touch : link.when | link.unless) {
          last = std::max(last, index(instrument.touches[touch.index].finger));
        }
      }
      settled_[last].insert(pad);
    }
  }

  std::vector<Family> run() {
    descend(0, {}, {});
    return std::move(found_);
  }

 private:
  static std::vector<HoldClass> classes_of(const std::vector<Hold>& holds, TouchSet telling) {
    std::vector<HoldClass> classes;
    for (std::size_t h = 0; h < holds.size(); ++h) {
      const TouchSet touches = holds[h].touches & telling;
      const TouchSet half = holds[h].half & telling;
      auto same =
          std::ranges::find_if(classes, [&](const HoldClass& c) { return c.touches == touches && c.half == half; });
      if (same == classes.end()) same = classes.insert(same, HoldClass{.touches = touches, .half = half, .holds = 0});
      same->holds |= HoldMask{1} << h;
    }
    return classes;
  }

  void descend(std::size_t finger, TouchSet pressed, TouchSet half) {
    if (finger == finger_count) {
      found_.push_back(family_);
      return;
    }
    for (const HoldClass& c : classes_[finger]) {
      const TouchSet now = pressed | c.touches;
      const TouchSet now_half = half | c.half;
      if (!settled_[finger].empty() && !agrees(target_.demand, press(works_, now, now_half), settled_[finger]))
        continue;
      family_.holds[finger] = c.holds;
      descend(finger + 1, now, now_half);
    }
  }

  const Target& target_;
  Works works_;
  std::array<std::vector<HoldClass>, finger_count> classes_;
  std::array<PadSet, finger_count> settled_;
  Family family_;
  std::vector<Family> found_;
};

}  // namespace

TouchSet touches_that_matter(const Works& works, const Target& target) {
  TouchSet touches;
  for (const Linkage& link : only_for(works, demanded(target)).linkages) touches |= link.when | link.unless;
  return touches;
}

std::vector<Family> walk(const Instrument& instrument, const Works& works,
                         const std::array<std::vector<Hold>, finger_count>& holds, const Target& target,
                         std::size_t target_index, TouchSet telling) {
  return Walk(instrument, works, holds, target, target_index, telling).run();
}

}  // namespace fingerway
