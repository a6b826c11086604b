// What this part answers: one way on for each node of a long passage, in as few bytes as their number allows.
// Private to plan. Layers are added from the last one to the first.
#pragma once

#include <cstdint>
#include <vector>

namespace fingerway {

class BackPointers {
 public:
  /// `next[i]`, below `ahead`, is where node i goes on to.
  void add(const std::vector<std::uint32_t>& next, std::size_t ahead) {
    const std::uint8_t width = ahead <= 0x100 ? 1 : ahead <= 0x1'0000 ? 2 : 4;
    layers_.push_back({.first = bytes_.size(), .width = width});
    bytes_.resize(bytes_.size() + next.size() * width);
    std::uint8_t* at = bytes_.data() + layers_.back().first;
    for (const std::uint32_t n : next) {
      for (std::uint8_t b = 0; b < width; ++b) *at++ = static_cast<std::uint8_t>(n >> 8U * b);
    }
  }
  /// Where node i of the layer added as the `layer`th from the end goes on to; the last one added has the highest
  /// number.
  [[nodiscard]] std::uint32_t next(std::size_t layer, std::uint32_t i) const {
    const Layer& l = layers_[layer];
    const std::uint8_t* at = bytes_.data() + l.first + std::size_t{i} * l.width;
    std::uint32_t n = 0;
    for (std::uint8_t b = 0; b < l.width; ++b) n |= std::uint32_t{at[b]} << 8U * b;
    return n;
  }

 private:
  struct Layer {
    std::size_t first = 0;
    std::uint8_t width = 1;
  };
  std::vector<Layer> layers_;
  std::vector<std::uint8_t> bytes_;
};

}  // namespace fingerway
