// What this part answers: what a conversion says of itself, and whether the conversions of one stack agree.
// It changes no instrument (conversion_file.hpp does).
#pragma once

#include <map>
#include <string>

#include "fingerway/instrument/instrument.hpp"
#include "yaml_strict.hpp"

namespace fingerway {

/// Name, cost, work and upkeep of a conversion, without what it changes. It must name `base` or its family.
[[nodiscard]] ConversionSheet read_sheet(YamlMap& map, const Instrument& base, FaultList& faults);

/// What the conversions of one stack have said about each part, so that two that disagree are found in any order.
class ConversionClaims {
 public:
  /// States that `conversion` makes `subject` become `value`. Reports at `at` when another one said otherwise.
  void state(const std::string& conversion, const std::string& subject, const std::string& value, const YamlNode& at,
             FaultList& faults);

 private:
  struct Claim {
    std::string conversion;
    std::string value;
  };
  std::map<std::string, Claim> claims_;
};

}  // namespace fingerway
