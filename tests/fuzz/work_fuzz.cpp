// What this part answers: do the readers of a payoff's work file bear any bytes, and is what they believe written back
// as it was read?
#include "app/payoff_json.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  const std::string line(fuzz::text_of(data, size));
  fuzz::reads([&] {
    const PayoffRequest request = parse_request_line(line, "tried");
    const std::string written = request_line(request);
    fuzz::require(request_line(parse_request_line(written, "again")) == written, "a request that changes", written);
  });
  fuzz::reads([&] {
    const auto [key, outcome] = parse_unit_line(line, "tried", 1);
    const std::string written = unit_line(key, outcome);
    const auto [key_again, again] = parse_unit_line(written, "again", 1);
    fuzz::require(unit_line(key_again, again) == written, "a unit that changes", written);
  });
  return 0;
}
