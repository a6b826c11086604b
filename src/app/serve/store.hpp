// What this part answers: values kept in memory under a name nobody can guess, the ones not used for longest dropped
// first when all together take too much.
#pragma once

#include <cstddef>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <utility>

namespace fingerway {

/// 128 bits of the system's randomness, as hexadecimal digits.
[[nodiscard]] std::string new_token();

/// May be used from many threads at once; a value that is dropped lives on with whoever still holds it.
template <class Value>
class Store {
 public:
  explicit Store(std::size_t most_bytes) : most_bytes_(most_bytes) {}

  /// Keeps a value of about so many bytes, in place of one of the same name. The newest is kept however large it is.
  void put(const std::string& name, std::shared_ptr<const Value> value, std::size_t bytes) {
    const std::scoped_lock lock(mutex_);
    if (const auto old = places_.find(name); old != places_.end()) drop(old->second);
    kept_.push_front({name, std::move(value), bytes});
    places_[name] = kept_.begin();
    bytes_ += bytes;
    while (bytes_ > most_bytes_ && kept_.size() > 1) drop(std::prev(kept_.end()));
  }

  /// The same under a new token, which is given back.
  [[nodiscard]] std::string add(std::shared_ptr<const Value> value, std::size_t bytes) {
    std::string token = new_token();
    put(token, std::move(value), bytes);
    return token;
  }

  /// Null when it was never kept, or is no longer.
  [[nodiscard]] std::shared_ptr<const Value> find(const std::string& name) {
    const std::scoped_lock lock(mutex_);
    const auto found = places_.find(name);
    if (found == places_.end()) return nullptr;
    kept_.splice(kept_.begin(), kept_, found->second);
    return found->second->value;
  }

 private:
  struct Kept {
    std::string name;
    std::shared_ptr<const Value> value;
    std::size_t bytes = 0;
  };
  using Position = typename std::list<Kept>::iterator;

  void drop(Position at) {
    bytes_ -= at->bytes;
    places_.erase(at->name);
    kept_.erase(at);
  }

  std::mutex mutex_;
  std::size_t most_bytes_;
  std::size_t bytes_ = 0;
  std::list<Kept> kept_;  ///< the last used first
  std::unordered_map<std::string, Position> places_;
};

}  // namespace fingerway
