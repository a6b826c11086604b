// What this part answers: does the reader of rosters bear any bytes? Ids become folders, so they must be harmless.
#include "fingerway/read/roster_file.hpp"
#include "fuzz.hpp"
#include "pipe.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace fingerway;
  static const fuzz::Folder folder;
  static const InstrumentFolders where = fuzz::with_pipe(folder);
  static const auto player = folder.write("one.yaml", "fingerway: player\nversion: 1\nname: One\n");
  const auto file = folder.write("roster.yaml", fuzz::text_of(data, size));
  fuzz::reads([&] {
    for (const RosterPupil& pupil : read_roster(file, where).pupils) {
      const bool plain = pupil.id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
      fuzz::require(plain && !pupil.id.empty(), "a pupil's folder with an unsafe name", pupil.id);
      fuzz::require(!pupil.passages.empty(), "a pupil without a passage");
    }
  });
  return 0;
}
