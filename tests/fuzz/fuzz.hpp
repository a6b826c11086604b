// What this part answers: what every fuzz driver asks of a reader: it reads, or it refuses with messages that a person
// can be shown. Anything else (another exception, a broken message) stops the run.
#pragma once

#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

#include "fingerway/base/errors.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway::fuzz {

/// Stops the run; libFuzzer keeps the input.
[[noreturn]] inline void stop(std::string_view why, std::string_view shown = {}) {
  std::fprintf(stderr, "%.*s\n%.*s\n", static_cast<int>(why.size()), why.data(), static_cast<int>(shown.size()),
               shown.data());
  std::abort();
}

inline void require(bool held, std::string_view why, std::string_view shown = {}) {
  if (!held) stop(why, shown);
}

/// True for a line of UTF-8 without control characters, the second set of them included.
[[nodiscard]] inline bool is_one_line(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto lead = static_cast<unsigned char>(text[i]);
    const std::size_t length = lead < 0x80 ? 1 : lead >= 0xF0 ? 4 : lead >= 0xE0 ? 3 : 2;
    if (lead < 0x20 || lead == 0x7F || (lead >= 0x80 && lead < 0xC2) || lead > 0xF4) return false;
    if (text.size() - i < length) return false;
    for (std::size_t k = 1; k < length; ++k) {
      if ((static_cast<unsigned char>(text[i + k]) & 0xC0) != 0x80) return false;
    }
    if (lead == 0xC2 && static_cast<unsigned char>(text[i + 1]) < 0xA0) return false;
    i += length;
  }
  return true;
}

inline void require_message(const Fault& fault) {
  const std::string text = message(fault);
  require(!fault.what.empty(), "a fault that says nothing", text);
  require(is_one_line(text), "a message that is no line of text", text);
  require(text.size() < 10000, "a message nobody can read", text);
}

/// Runs a reading that may refuse its input; true when it did not.
template <class Read>
bool reads(const Read& read) {
  try {
    read();
    return true;
  } catch (const InputError& error) {
    require(!error.faults().empty(), "refused without a fault");
    require(error.faults().size() < 1000, "too many faults to read");
    for (const Fault& fault : error.faults()) require_message(fault);
  } catch (const FileError& error) {
    require_message(error.fault());
  }
  return false;
}

/// A folder of this process with the file under test in it; in memory where the caller says so (TMPDIR).
class Folder : public ScratchFolder {
 public:
  std::filesystem::path write(const std::string& name, std::string_view text) const {
    return ScratchFolder::write(name, std::string(text));
  }
};

/// The bytes of an input as text.
[[nodiscard]] inline std::string_view text_of(const std::uint8_t* data, std::size_t size) {
  return {reinterpret_cast<const char*>(data), size};
}

}  // namespace fingerway::fuzz
