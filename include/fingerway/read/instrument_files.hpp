// What this part answers: instrument and conversion files (YAML) as instruments, conversions laid over their base.
// It is strict: unknown and duplicate keys, wrong types and unknown names are faults with line and column.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "fingerway/instrument/instrument.hpp"

namespace fingerway {

/// Folders searched for instruments by id, in order (each holds *.yaml and conversions/*.yaml).
struct InstrumentFolders {
  std::vector<std::filesystem::path> folders;
};

/// Reads "bassoon", "path/to/file.yaml", or either with conversions stacked: "bassoon+first+second". Conversions are
/// laid over in the order given and `check` is applied to the result.
/// Throws InputError (every fault of the file at once, with file, line, column and hint; two conversions that change
/// the same thing in contradiction are refused with both names) or FileError.
[[nodiscard]] Instrument read_instrument(std::string_view stacked, const InstrumentFolders& where);

/// The ids of instruments found in the folders, sorted; and of the conversions that fit one of them.
[[nodiscard]] std::vector<std::string> instrument_ids(const InstrumentFolders& where);
[[nodiscard]] std::vector<std::string> conversion_ids(std::string_view base, const InstrumentFolders& where);

/// A conversion that can be laid over an instrument, and the latches it adds.
struct OfferedConversion {
  ConversionSheet sheet;
  std::vector<Latch> latches;
};

/// An instrument with each conversion that fits it by itself.
struct OfferedInstrument {
  Instrument stock;
  std::vector<OfferedConversion> conversions;
};

/// All instruments of the folders, by id; each file is parsed once. Throws InputError where an instrument is faulty; a
/// conversion that is, or that contradicts the instrument, is not offered.
[[nodiscard]] std::vector<OfferedInstrument> read_all_instruments(const InstrumentFolders& where);

/// Reads one instrument file or one conversion file (over its base, found in `where`) only to find its faults.
void check_instrument_file(const std::filesystem::path& file, const InstrumentFolders& where);

}  // namespace fingerway
