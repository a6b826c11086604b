// What this part answers: which instruments, conversions and demo scores there are to choose from, so that a request
// can name them by id only, never by a path.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "fingerway/read/instrument_files.hpp"
#include "fingerway/read/musicxml.hpp"

namespace fingerway {

struct KnownLatch {
  std::string id, name;
};

struct KnownConversion {
  std::string id, name, what;
  std::vector<KnownLatch> latches;  ///< that it adds
};

struct KnownInstrument {
  std::string id, name, family;
  PartWanted wanted;
  std::vector<KnownConversion> conversions;
  std::vector<KnownLatch> latches;
};

struct Demo {
  std::string id, title, instrument;
  std::filesystem::path file;
};

/// Read once; all of it can be asked from many threads.
class Catalogue {
 public:
  explicit Catalogue(InstrumentFolders folders);

  [[nodiscard]] const InstrumentFolders& folders() const { return folders_; }
  [[nodiscard]] const std::vector<KnownInstrument>& instruments() const { return instruments_; }
  [[nodiscard]] const std::vector<Demo>& demos() const { return demos_; }

  /// Throws InputError, told at `field`, where it is not an instrument's id with conversions that fit it.
  void require_known(const std::string& stacked, const std::string& field) const;
  [[nodiscard]] const Demo& demo(const std::string& id) const;
  /// Ids of the instruments a part may be for, the best first.
  [[nodiscard]] std::vector<std::string> instruments_for(const PartInfo& part) const;

 private:
  InstrumentFolders folders_;
  std::vector<KnownInstrument> instruments_;
  std::vector<Demo> demos_;
};

}  // namespace fingerway
