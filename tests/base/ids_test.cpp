#include <concepts>
#include <vector>

#include <catch2/catch.hpp>

#include "fingerway/base/ids.hpp"

using namespace fingerway;

namespace {

using KeyId = Id<struct KeyTag>;
using HoleId = Id<struct HoleTag>;
using Keys = IdSet<KeyId>;

template <class A, class B>
concept comparable = requires(A a, B b) {
  a == b;
};
template <class Set, class IdT>
concept insertable = requires(Set set, IdT id) {
  set.insert(id);
};

static_assert(comparable<KeyId, KeyId> && !comparable<KeyId, HoleId>, "ids of different kinds do not mix");
static_assert(insertable<Keys, KeyId> && !insertable<Keys, HoleId>, "a set holds one kind of id");
static_assert(!std::convertible_to<int, KeyId>, "an id is made on purpose");

std::vector<int> indices(Keys keys) {
  std::vector<int> list;
  for (const KeyId id : keys) list.push_back(id.index);
  return list;
}

}  // namespace

TEST_CASE("a set iterates in rising order whatever the order of insertion") {
  CHECK(indices({KeyId(63), KeyId(0), KeyId(7)}) == std::vector<int>{0, 7, 63});
  CHECK(indices({}).empty());
}

TEST_CASE("sets join, meet and subtract") {
  const Keys a{KeyId(1), KeyId(2), KeyId(3)};
  const Keys b{KeyId(3), KeyId(4)};
  CHECK(indices(a | b) == std::vector<int>{1, 2, 3, 4});
  CHECK(indices(a & b) == std::vector<int>{3});
  CHECK(indices(a - b) == std::vector<int>{1, 2});
  CHECK(a.intersects(b));
  CHECK_FALSE((a - b).intersects(b));
  CHECK((a | b).contains_all(a));
  CHECK_FALSE(a.contains_all(b));
}

TEST_CASE("inserting twice and erasing what is absent change nothing") {
  Keys keys{KeyId(5)};
  keys.insert(KeyId(5));
  CHECK(keys.size() == 1);
  keys.erase(KeyId(6));
  CHECK(keys.contains(KeyId(5)));
  keys.erase(KeyId(5));
  CHECK(keys.empty());
}
