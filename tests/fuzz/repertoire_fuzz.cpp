// What this part answers: does the reader of repertoire lists bear any bytes?
#include "fingerway/read/repertoire_file.hpp"
#include "fuzz.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  const auto file = folder.write("list.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] {
    for (const WrittenPiece& piece : read_repertoire_file(file).pieces) {
      fuzz::require(piece.weight > 0 && piece.times > 0, "a piece that counts nothing");
      fuzz::require(!piece.tempo || (*piece.tempo >= 1 && *piece.tempo <= 1000), "a tempo out of range");
    }
  });
  return 0;
}
