// What this part answers: fitted values put into the text of instruments/motion.yaml, everything else left as it is.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "agreement/fit.hpp"

namespace fingerway {

/// Rewrites the lines of the moved numbers and of the verdict limits (value, prior, basis, source) and the source
/// `fit`, whole or not at all. Throws std::runtime_error when a number has no line of its own.
void write_fitted(const std::filesystem::path& file, const MotionNumbers& numbers, const std::vector<FitNumber>& fitted,
                  const std::string& figures);

}  // namespace fingerway
