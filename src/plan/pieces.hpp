// What this part answers: room for rows of something small, taken again and again. Private to plan.
#pragma once

#include <algorithm>
#include <cstddef>
#include <memory>
#include <vector>

namespace fingerway {

/// Room in pieces of modest size. Large ones would be scattered over the heap where many plans are made in turn.
template <class T, std::size_t PieceSize>
class Pieces {
 public:
  /// For so many in a row; nothing is set. It stays where it is until all is given back.
  [[nodiscard]] T* take(std::size_t count) {
    while (now_ < pieces_.size() && used_ + count > pieces_[now_].size) {
      ++now_;
      used_ = 0;
    }
    if (now_ == pieces_.size()) {
      const std::size_t size = std::max(count, PieceSize);
      pieces_.push_back({.size = size, .all = std::make_unique_for_overwrite<T[]>(size)});
    }
    T* const taken = pieces_[now_].all.get() + used_;
    used_ += count;
    return taken;
  }
  /// Gives all of it back.
  void clear() { now_ = used_ = 0; }

 private:
  struct Piece {
    std::size_t size;
    std::unique_ptr<T[]> all;
  };
  std::vector<Piece> pieces_;
  std::size_t now_ = 0, used_ = 0;  ///< piece that is taken from, and how much of it is taken
};

}  // namespace fingerway
