// What this part answers: does the reader of motion numbers bear any bytes?
#include "fingerway/read/motion_file.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  const auto file = folder.write("motion.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] {
    MotionNumbers numbers = read_motion_numbers(file);
    for (const NamedNumber& named : named_numbers(numbers)) {
      const Number& number = *named.number;
      fuzz::require(number.low <= number.value && number.value <= number.high, "a value out of its range", named.name);
    }
  });
  return 0;
}
