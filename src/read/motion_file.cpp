#include "fingerway/read/motion_file.hpp"

#include <algorithm>
#include <set>

#include "instrument_parts.hpp"
#include "yaml_strict.hpp"

namespace fingerway {
namespace {

constexpr Bounds any_number{.least = 0.0, .most = 1e6};

Number read_number(YamlMap& line, const std::map<std::string, std::string>& sources, FaultList& faults) {
  Number number;
  number.value = line.number("value", any_number);
  number.prior = line.number_or("prior", any_number, number.value);
  if (const YamlNode* range = line.need("range")) {
    const auto ends = yaml_items(*range, "'range'", faults);
    if (ends.size() != 2) {
      faults.add(*range, "'range' must hold two numbers", "range: [low, high]");
    } else {
      number.low = yaml_number(*ends[0], "the low end", any_number, faults).value_or(0.0);
      number.high = yaml_number(*ends[1], "the high end", any_number, faults).value_or(0.0);
      if (number.low > number.value || number.value > number.high) {
        faults.add(*range, "the value does not lie in its range", "widen the range, or change the value");
      }
    }
  }
  number.unit = line.text("unit");
  number.basis = line.word<Basis>("basis", {{"assumed", Basis::assumed},
                                            {"published", Basis::published},
                                            {"derived", Basis::derived},
                                            {"fitted", Basis::fitted},
                                            {"common-practice", Basis::common_practice}});
  const std::string source = line.text("source");
  if (const auto known = sources.find(source); known != sources.end()) {
    number.source = known->second;
  } else if (!source.empty()) {
    std::vector<std::string> names;
    for (const auto& [name, text] : sources) names.push_back(name);
    faults.add(line.node(), "no source " + in_quotes(source), suggestion(source, names));
  }
  static_cast<void>(line.text("about"));  // for people who read the file; must be there
  return number;
}

}  // namespace

MotionNumbers read_motion_numbers(const std::filesystem::path& file) {
  const YamlNode root = load_yaml(file);
  FaultList faults(file.string());
  YamlMap top(root, "the motion file", faults);
  top.file_kind("motion");
  const auto sources = read_sources(top.need("sources"), faults);
  MotionNumbers numbers;
  const std::vector<NamedNumber> wanted = named_numbers(numbers);
  std::vector<std::string> names;
  for (const NamedNumber& number : wanted) names.push_back(number.name);
  std::set<std::string> seen;
  for (const YamlNode* item : top.items("numbers")) {
    YamlMap line(*item, "a number", faults);
    if (!line.usable()) continue;
    const std::string name = line.text("name");
    const auto found = std::ranges::find(wanted, name, &NamedNumber::name);
    const Number number = read_number(line, sources, faults);
    line.finish();
    if (found == wanted.end()) {
      faults.add(*item, "the model has no number " + in_quotes(name), suggestion(name, names));
    } else if (!seen.insert(name).second) {
      faults.add(*item, "the number " + in_quotes(name) + " stands here twice", "keep one");
    } else {
      *found->number = number;
    }
  }
  for (const std::string& name : names) {
    if (!seen.contains(name))
      faults.add(root, "the number " + in_quotes(name) + " is missing", "instruments/motion.yaml has it");
  }
  top.finish();
  faults.throw_if_any();
  return numbers;
}

}  // namespace fingerway
