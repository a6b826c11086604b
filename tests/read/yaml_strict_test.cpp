#include "read/yaml_strict.hpp"

#include <catch2/catch.hpp>

using namespace fingerway;

namespace {

std::string told(const FaultList& faults) {
  try {
    faults.throw_if_any();
  } catch (const InputError& error) {
    return error.what();
  }
  return "nothing";
}

}  // namespace

TEST_CASE("a map gives its values and is silent when all were asked for") {
  const YamlNode root = parse_yaml("name: a b\ncount: -3\nsize: 2.5\non: true\nlist: [x, \"y\"]\nempty: \"\"\n", "f");
  FaultList faults("f");
  YamlMap map(root, "the file", faults);
  CHECK(map.text("name") == "a b");
  CHECK(map.whole("count", {-5, 5}) == -3);
  CHECK(map.number("size", {0, 5}) == 2.5);
  CHECK(map.flag_or("on", false));
  CHECK(map.texts("list") == std::vector<std::string>{"x", "y"});
  CHECK(map.text_or("empty", "other").empty());
  CHECK(map.text_or("missing", "other") == "other");
  CHECK(map.whole_or("missing", {0, 1}, 1) == 1);
  CHECK_FALSE(map.number_if("missing", {0, 1}));
  CHECK(map.items("missing").empty());
  map.finish();
  CHECK(faults.empty());
}

TEST_CASE("every fault of a map is collected, then thrown once") {
  const YamlNode root = parse_yaml("count: many\nsize: 9\nsize: 8\nsiez: 1\n", "f");
  FaultList faults("f");
  YamlMap map(root, "the file", faults);
  map.text("name");
  map.whole("count", {0, 5});
  map.number("size", {0, 5});
  map.finish();
  CHECK(told(faults) ==
        "f:3:1: the key 'size' stands twice in the file (keep one)\n"
        "f:1:1: the file needs the key 'name'\n"
        "f:1:8: 'count' must be a whole number, not 'many' (from 0 to 5)\n"
        "f:2:7: 'size' is out of range: 9 (from 0 to 5)\n"
        "f:4:1: unknown key 'siez' in the file (did you mean 'size'?)");
}

TEST_CASE("a missing key of an inner map is told where that map stands") {
  const YamlNode root = parse_yaml("outer:\n  inner: {a: 1}\n", "f");
  FaultList faults("f");
  YamlMap map(root, "the file", faults);
  YamlMap outer(*map.need("outer"), "'outer'", faults);
  YamlMap inner(*outer.need("inner"), "'inner'", faults);
  inner.text("b");
  CHECK(told(faults) == "f:2:10: 'inner' needs the key 'b'");
}

TEST_CASE("numbers are read as people write them") {
  FaultList faults("f");
  const auto whole = [&](const std::string& text) { return yaml_whole(parse_yaml(text, "f"), "n", {-99, 99}, faults); };
  CHECK(whole("0") == 0);
  CHECK(whole("-0") == 0);
  CHECK(whole("12") == 12);
  for (const char* text : {"012", "-012", "00", "0x1F", "1_000", "+5", "5 apples", "1e1", "~", "true", "'7'", "[7]"}) {
    INFO(text);
    CHECK_FALSE(whole(text));
  }
  const auto number = [&](const std::string& text) {
    return yaml_number(parse_yaml(text, "f"), "n", {-99, 99}, faults);
  };
  CHECK(number("0.5") == 0.5);
  CHECK(number("-1e1") == -10.0);
  for (const char* text : {"00.5", ".inf", "inf", "nan", ".nan", "1e999", "1,5"}) {
    INFO(text);
    CHECK_FALSE(number(text));
  }
}

TEST_CASE("a key that is no word is told") {
  const YamlNode root = parse_yaml("[a]: 1\n", "f");
  FaultList faults("f");
  YamlMap map(root, "the file", faults);
  map.finish();
  CHECK(told(faults) == "f:1:1: a key of the file must be a word, not a list");
}

TEST_CASE("what is no map is told once, and asking goes on silently") {
  const YamlNode root = parse_yaml("- 1\n", "f");
  FaultList faults("f");
  YamlMap map(root, "the file", faults);
  CHECK_FALSE(map.usable());
  CHECK(map.text("name").empty());
  map.file_kind("player");
  map.finish();
  CHECK(told(faults) == "f:1:1: the file must be a map of keys and values, not a list");
}

TEST_CASE("an id is lower-case words with hyphens") {
  for (const char* id : {"a", "low-eflat", "b2", "x-2-y"}) CHECK(is_id(id));
  for (const char* id : {"", "A", "2a", "-a", "a-", "a--b", "a_b", "a b", "\xc3\xa4", "a.b", "a/b"})
    CHECK_FALSE(is_id(id));
  CHECK_FALSE(is_id(std::string(65, 'a')));
}

TEST_CASE("long or broken texts stay one short line in messages") {
  CHECK(in_quotes("a\nb") == "'a b'");
  CHECK(in_quotes(std::string(100, 'x')) == "'" + std::string(60, 'x') + "...'");
}
