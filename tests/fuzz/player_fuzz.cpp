// What this part answers: does the reader of player files bear any bytes, for the instrument named and for a converted
// one?
#include "fingerway/read/player_file.hpp"
#include "fuzz.hpp"
#include "pipe.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  static const InstrumentFolders where = fuzz::with_pipe(folder);
  static const Instrument converted = read_instrument("pipe+trill-hole", where);
  const auto file = folder.write("player.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] { check_player_file(file, where); });
  fuzz::reads([&] { static_cast<void>(read_player(file, converted, where)); });
  return 0;
}
