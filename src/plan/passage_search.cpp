#include "passage_search.hpp"

#include <algorithm>

#include "fingerway/search/banded_search.hpp"
#include "plan_writer.hpp"

namespace fingerway {
namespace {

/// The notes and changes of a passage as layers of bands. Those looked at last are kept.
class PassageLayers {
 public:
  PassageLayers(const PassageWays& passage, const std::optional<OnlyAt>& only) : passage_(passage), only_(only) {}

  template <class Visit>
  void each_band(std::size_t note, const Visit& visit) {
    const NoteShape& shape = *layer(note).shape;
    if (!shape.playable()) visit(0U, 1U, BandPlace{.band = 0, .node = 0});
    for (std::uint32_t b = 0; b < shape.bands.size(); ++b) {
      const Band& band = shape.bands[b];
      const std::uint32_t end = shape.end_of(b);
      const bool single = end == band.first + 1;
      visit(band.first, end, BandPlace{.band = b, .node = single ? band.first : BandPlace::any, .mark = band.enter});
    }
  }
  [[nodiscard]] BandPlace place(std::size_t note, std::uint32_t band, std::uint32_t node) {
    const NoteShape& shape = *layer(note).shape;
    return {.band = band, .node = node, .mark = shape.playable() ? shape.enter_of(band, node) : HandNumbers{}};
  }
  [[nodiscard]] Weight own(std::size_t note, const BandPlace& place) {
    const Layer& here = layer(note);
    const NoteShape& shape = *here.shape;
    if (only_ && only_->note == note && !place_allowed(shape, place)) return forbidden;
    if (!shape.playable()) return 0;
    if (shape.pairs.empty()) return (*here.own)[place.band];
    if (!place.is_band()) return shape.pairs[place.node].weight;
    Weight least = forbidden;
    for (std::uint32_t way = shape.bands[place.band].first; way < shape.end_of(place.band); ++way) {
      least = std::min(least, shape.pairs[way].weight);
    }
    return least;
  }
  [[nodiscard]] StepPrices::From steps(std::size_t note, const BandPlace& from, Look look) {
    return prices(note).start(from, look);
  }
  [[nodiscard]] StepPrices& prices(std::size_t note) {
    if (priced_ != note) {
      prices_ = &passage_.prices(note);
      priced_ = note;
    }
    return *prices_;
  }

 private:
  static constexpr std::size_t none = std::numeric_limits<std::size_t>::max();
  struct Layer {
    std::size_t note = none;
    std::shared_ptr<const NoteShape> shape;
    const std::vector<Weight>* own = nullptr;
  };
  [[nodiscard]] const Layer& layer(std::size_t note) {
    Layer& layer = layers_[note % layers_.size()];
    if (layer.note != note) {
      layer = {.note = note, .shape = passage_.shape(note), .own = nullptr};
      if (layer.shape->playable() && layer.shape->pairs.empty()) layer.own = &passage_.weights(note);
    }
    return layer;
  }
  [[nodiscard]] bool place_allowed(const NoteShape& shape, const BandPlace& place) const {
    if (!place.is_band()) return only_->allowed(place.node);
    for (std::uint32_t way = shape.bands[place.band].first; way < shape.end_of(place.band); ++way) {
      if (only_->allowed(way)) return true;
    }
    return false;
  }

  const PassageWays& passage_;
  const std::optional<OnlyAt>& only_;
  std::array<Layer, 8> layers_;
  std::size_t priced_ = none;  ///< the note asked for last: others may push its prices out
  StepPrices* prices_ = nullptr;
};

/// Only how much of the time there is a change takes, of all that it costs.
class PassageLoads {
 public:
  explicit PassageLoads(PassageLayers& layers) : layers_(layers) {}
  struct From {
    StepPrices* prices;
    [[nodiscard]] static Load glance(const BandMark& /*mark*/) { return 0; }
    [[nodiscard]] static Load bound(const BandPlace& /*to*/, Load /*enough*/) { return 0; }
    [[nodiscard]] Load cost(const BandPlace& to, Load /*enough*/) const { return prices->load(to); }
  };
  template <class Visit>
  void each_band(std::size_t note, const Visit& visit) {
    layers_.each_band(note, visit);
  }
  [[nodiscard]] BandPlace place(std::size_t note, std::uint32_t band, std::uint32_t node) {
    return layers_.place(note, band, node);
  }
  [[nodiscard]] static Load own(std::size_t /*note*/, const BandPlace& /*place*/) { return 0; }
  [[nodiscard]] From steps(std::size_t note, const BandPlace& from, Look look) {
    StepPrices& prices = layers_.prices(note);
    (void)prices.start(from, look);
    return {&prices};
  }

 private:
  PassageLayers& layers_;
};

}  // namespace

Found search(const PassageWays& passage, const std::optional<OnlyAt>& only, Sought sought) {
  Found found;
  if (passage.size() == 0) return found;
  PassageLayers layers(passage, only);
  PassageLoads loads(layers);
  BandedSearch<PassageLayers, Sum> best(layers, passage.size());
  std::optional<BandedSearch<PassageLoads, Worst>> smoothest;
  if (sought == Sought::path_and_limit) smoothest.emplace(loads, passage.size());
  for (std::size_t i = passage.size(); i-- > 0;) {
    best.take();
    if (smoothest) smoothest->take();
  }
  if (is_forbidden(best.weight())) return found;
  found.weight = best.weight();
  found.at = best.path();
  if (smoothest) found.least_limit = smoothest->weight();
  return found;
}

Plan plan_along(const Passage& passage, const PassageWays& ways, const std::vector<std::uint32_t>& at,
                std::optional<Load> least_limit) {
  PlanWriter writer(ways.workshop().played(), passage);
  for (std::size_t i = 0; i < at.size(); ++i) {
    const auto shape = ways.shape(i);
    const Node node = ways.node(i, *shape, at[i]);
    writer.add({.pitch = shape->first->pitch,
                .other = shape->other,
                .candidate = node.candidate ? &shape->first->candidates[*node.candidate] : nullptr,
                .second = node.other ? &shape->seconds->candidates[*node.other] : nullptr},
               node, shape->pairs.empty() ? weight(node.cost.total()) : shape->pairs[at[i]].weight);
  }
  return writer.done(least_limit);
}

}  // namespace fingerway
