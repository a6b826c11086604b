// What this part answers: the messages of a failed reading as a test compares them.
#pragma once

#include <string>

#include "fingerway/base/errors.hpp"
#include "support/scratch_folder.hpp"

namespace fingerway {

/// All messages of a reading that fails, the folder's path taken out; "read" when nothing was wrong.
template <class Read>
[[nodiscard]] std::string told(const ScratchFolder& folder, const Read& read) {
  std::string text = "read";
  try {
    read();
  } catch (const InputError& error) {
    text = error.what();
  } catch (const FileError& error) {
    text = std::string("file error: ") + error.what();
  }
  const std::string prefix = folder.path().string() + "/";
  for (std::size_t at = text.find(prefix); at != std::string::npos; at = text.find(prefix)) {
    text.erase(at, prefix.size());
  }
  return text;
}

}  // namespace fingerway
