// What this part answers: does the reader of instrument files, whole or like another, bear any bytes; and does what it
// believes have fingerings that a hand can hold?
#include "fingerway/mechanism/candidates.hpp"
#include "fingerway/read/file_kind.hpp"
#include "fingerway/read/instrument_files.hpp"
#include "fuzz.hpp"
#include "pipe.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  static const InstrumentFolders where = fuzz::with_pipe(folder);
  const auto file = folder.write("tried.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] { static_cast<void>(file_kind(file)); });
  fuzz::reads([&] { check_instrument_file(file, where); });
  fuzz::reads([&] {
    const Derivation derivation = derive(read_instrument(file.string(), where));
    fuzz::require(!derivation.targets.empty(), "an instrument that sounds nothing");
  });
  return 0;
}
