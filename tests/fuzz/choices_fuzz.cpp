// What this part answers: does the reader of choices files, and of places such as "3:2+1/3", bear any bytes?
#include "fingerway/read/choices_file.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  const std::string_view text = fuzz::text_of(data, size);
  static_cast<void>(parse_bar_beat(text));
  const auto file = folder.write("choices.yaml", text);
  fuzz::reads([&] { static_cast<void>(read_choices_file(file)); });
  return 0;
}
