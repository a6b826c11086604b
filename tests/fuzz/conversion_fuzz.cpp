// What this part answers: does the reader of conversion files bear any bytes, alone and stacked?
#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fuzz.hpp"
#include "pipe.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  static const InstrumentFolders where = fuzz::with_pipe(folder);
  const auto file = folder.write("conversions/tried.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] { check_instrument_file(file, where); });
  const bool alone = fuzz::reads([&] { static_cast<void>(derive(read_instrument("pipe+tried", where))); });
  if (alone) fuzz::reads([&] { static_cast<void>(read_instrument("pipe+trill-hole+tried", where)); });
  return 0;
}
