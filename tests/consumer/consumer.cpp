// Uses the installed library on the installed data: consumer PREFIX. It must know no other folder.
#include <filesystem>
#include <fingerway/mechanism/candidates.hpp>
#include <fingerway/read/instrument_files.hpp>
#include <iostream>

int main(int argc, char** argv) {
  if (argc != 2) return 3;
  const fingerway::InstrumentFolders where{.folders = {std::filesystem::path(argv[1]) / "share/fingerway/instruments"}};
  const fingerway::Instrument stock = fingerway::read_instrument("bassoon", where);
  const fingerway::Instrument converted = fingerway::read_instrument("bassoon+interlinked-low-keys", where);
  const fingerway::Difference difference =
      fingerway::difference(stock, fingerway::derive(stock), converted, fingerway::derive(converted));
  std::cout << stock.touches.size() << " touches; " << difference.gained.size() << " fingerings gained, "
            << difference.lost.size() << " lost\n";
  return difference.gained.empty() || difference.lost.empty() ? 1 : 0;
}
