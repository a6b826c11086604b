// What this part answers: instruments/motion.yaml, or a file like it, as the numbers of the motion model.
#pragma once

#include <filesystem>

#include "fingerway/motion/numbers.hpp"

namespace fingerway {

/// Every number of the model must be there, once, with unit, range, basis and a source the file names; its value must
/// lie in its range. Throws InputError with every fault, or FileError.
[[nodiscard]] MotionNumbers read_motion_numbers(const std::filesystem::path& file);

}  // namespace fingerway
