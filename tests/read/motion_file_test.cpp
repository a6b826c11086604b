// The file of motion numbers: that every number says where it comes from, and every fault in such a file, on the exact
// text a user reads.
#include <catch2/catch.hpp>

#include <fstream>
#include <set>
#include <sstream>

#include "fingerway/base/errors.hpp"
#include "fingerway/read/motion_file.hpp"
#include "read/told.hpp"
#include "support/passages.hpp"
#include "support/scratch_folder.hpp"

using namespace fingerway;

namespace {

std::string own_text() {
  std::ifstream stream(project_folder() / "instruments" / "motion.yaml");
  std::stringstream text;
  text << stream.rdbuf();
  return text.str();
}

/// The file as its lines, so that a test can change one and know its number.
struct Lines {
  Lines() {
    std::istringstream text(own_text());
    for (std::string line; std::getline(text, line);) all.push_back(line);
  }
  /// Index of the line of one number.
  [[nodiscard]] std::size_t of(const std::string& name) const {
    for (std::size_t i = 0; i < all.size(); ++i) {
      if (all[i].find("{name: " + name + ",") != std::string::npos) return i;
    }
    throw std::runtime_error("no number " + name);
  }
  void change(const std::string& name, const std::string& old, const std::string& by) {
    std::string& line = all[of(name)];
    const std::size_t at = line.find(old);
    if (at == std::string::npos) throw std::runtime_error("no '" + old + "' in " + line);
    line.replace(at, old.size(), by);
  }
  [[nodiscard]] std::string text() const {
    std::string joined;
    for (const std::string& line : all) joined += line + "\n";
    return joined;
  }
  std::vector<std::string> all;
};

std::string faults(const Lines& lines) {
  const ScratchFolder folder;
  const auto file = folder.write("motion.yaml", lines.text());
  return told(folder, [&] { static_cast<void>(read_motion_numbers(file)); });
}

/// "motion.yaml:LINE:5: " of one number's map.
std::string place_of(const Lines& lines, const std::string& name, int column = 5) {
  return "motion.yaml:" + std::to_string(lines.of(name) + 1) + ":" + std::to_string(column) + ": ";
}

}  // namespace

TEST_CASE("every number of the model has a unit, a range around it and a source") {
  MotionNumbers numbers = own_numbers();
  const auto all = named_numbers(numbers);
  CHECK(all.size() > 80);
  for (const NamedNumber& entry : all) {
    INFO(entry.name);
    CHECK_FALSE(entry.number->unit.empty());
    CHECK_FALSE(entry.number->source.empty());
    CHECK(entry.number->low <= entry.number->value);
    CHECK(entry.number->value <= entry.number->high);
  }
}

TEST_CASE("numbers that are this project's own choice say that they are assumed") {
  MotionNumbers numbers = own_numbers();
  std::size_t chosen = 0;
  for (const NamedNumber& entry : named_numbers(numbers)) {
    INFO(entry.name);
    if (entry.number->source.find("a choice of this project") == std::string::npos) continue;
    CHECK(entry.number->basis == Basis::assumed);
    ++chosen;
  }
  CHECK(chosen > 10);
  for (const Number* number : {&numbers.slide_friction, &numbers.roll_share, &numbers.roll_per_touch,
                               &numbers.jump_points, &numbers.contrary_two_hands}) {
    CHECK((number->basis == Basis::assumed || number->basis == Basis::fitted));
  }
}

TEST_CASE("fitted numbers say where they stood before and how well the fit agrees") {
  MotionNumbers numbers = own_numbers();
  std::size_t fitted = 0;
  for (const NamedNumber& entry : named_numbers(numbers)) {
    INFO(entry.name);
    if (entry.number->basis != Basis::fitted) continue;
    ++fitted;
    CHECK(entry.number->prior >= entry.number->low);
    CHECK(entry.number->prior <= entry.number->high);
    CHECK(entry.number->source.find("Held out") != std::string::npos);
  }
  CHECK(fitted > 5);
}

TEST_CASE("assumed numbers have room to be wrong in") {
  MotionNumbers numbers = own_numbers();
  for (const NamedNumber& entry : named_numbers(numbers)) {
    INFO(entry.name);
    if (entry.number->basis == Basis::assumed) CHECK(entry.number->high > entry.number->low);
  }
}

TEST_CASE("every number has a name of its own") {
  MotionNumbers numbers;
  std::set<std::string> names;
  std::set<const Number*> places;
  for (const NamedNumber& entry : named_numbers(numbers)) {
    CHECK(names.insert(entry.name).second);
    CHECK(places.insert(entry.number).second);
  }
}

TEST_CASE("the file as it stands is read whole") { CHECK(faults(Lines()) == "read"); }

TEST_CASE("a missing number is told") {
  Lines lines;
  lines.all.erase(lines.all.begin() + static_cast<std::ptrdiff_t>(lines.of("pad-sprung")));
  CHECK(faults(lines) == "motion.yaml:5:1: the number 'pad-sprung' is missing (instruments/motion.yaml has it)");
}

TEST_CASE("a number that stands twice is told at the second place") {
  Lines lines;
  lines.all.push_back(lines.all[lines.of("pad-sprung")]);
  CHECK(faults(lines) ==
        "motion.yaml:" + std::to_string(lines.all.size()) + ":5: the number 'pad-sprung' stands here twice (keep one)");
}

TEST_CASE("a number the model does not have is told with the nearest one") {
  Lines lines;
  const std::string place = place_of(lines, "pad-sprung");
  lines.change("pad-sprung", "name: pad-sprung", "name: pad-sprang");
  CHECK(faults(lines) == place +
                             "the model has no number 'pad-sprang' (did you mean 'pad-sprung'?)\n"
                             "motion.yaml:5:1: the number 'pad-sprung' is missing (instruments/motion.yaml has it)");
}

TEST_CASE("a value outside its own range is told at the range") {
  Lines lines;
  const std::size_t line = lines.of("pad-sprung");
  lines.change("pad-sprung", "value: 16", "value: 61");
  const std::size_t column = lines.all[line].find("[") + 1;
  CHECK(faults(lines) == place_of(lines, "pad-sprung", static_cast<int>(column)) +
                             "the value does not lie in its range (widen the range, or change the value)");
}

TEST_CASE("a range that is none is told") {
  Lines lines;
  const std::size_t line = lines.of("pad-sprung");
  lines.change("pad-sprung", "[12, 20]", "[12, 16, 20]");
  const std::size_t column = lines.all[line].find("[") + 1;
  CHECK(faults(lines) ==
        place_of(lines, "pad-sprung", static_cast<int>(column)) + "'range' must hold two numbers (range: [low, high])");
}

TEST_CASE("a number without a source, or with one the file does not name, is told") {
  Lines lines;
  const std::string place = place_of(lines, "pad-sprung");
  lines.change("pad-sprung", "source: almeida-2009, ", "");
  CHECK(faults(lines) == place + "a number needs the key 'source'");
  Lines other;
  other.change("pad-sprung", "source: almeida-2009", "source: almeida-2008");
  CHECK(faults(other) == place + "no source 'almeida-2008' (did you mean 'almeida-2009'?)");
}

TEST_CASE("a number with a basis that is none, without a unit, or with a key too many is told") {
  const Lines own;
  const std::string line = "motion.yaml:" + std::to_string(own.of("pad-sprung") + 1) + ":";
  Lines lines;
  lines.change("pad-sprung", "basis: published", "basis: guessed");
  CHECK(faults(lines).find(line) == 0);
  CHECK(
      faults(lines).find("'basis' can't be 'guessed' (one of: assumed, published, derived, fitted, common-practice)") !=
      std::string::npos);
  Lines unitless;
  unitless.change("pad-sprung", "unit: ms, ", "");
  CHECK(faults(unitless) == line + "5: a number needs the key 'unit'");
  Lines more;
  more.change("pad-sprung", "unit: ms, ", "unit: ms, note: x, ");
  CHECK(faults(more).find("unknown key 'note' in a number") != std::string::npos);
}

TEST_CASE("a file of another kind is refused") {
  Lines lines;
  for (std::string& line : lines.all) {
    if (line == "fingerway: motion") line = "fingerway: player";
  }
  CHECK(
      faults(lines) ==
      "motion.yaml:5:12: this is not 'motion' but 'player' (the first line says what the file is: fingerway: motion)");
}

TEST_CASE("a motion file that is not there is a file error") {
  const ScratchFolder folder;
  CHECK_THROWS_AS(read_motion_numbers(folder.path() / "none.yaml"), FileError);
}
