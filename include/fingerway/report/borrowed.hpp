// What this part answers: which habits fail on a borrowed instrument, and what to use there, as text and as JSON.
// It decides nothing (decide/borrowed.hpp).
#pragma once

#include <string>

#include "fingerway/decide/borrowed.hpp"

namespace fingerway {

/// Each failing habit with its places, what it does there and what to use; then how the passage goes.
[[nodiscard]] std::string borrowed_text(const Played& own, const Played& borrowed, const Passage& passage,
                                        const Borrowed& result);

/// Format "fingerway/habits".
[[nodiscard]] std::string borrowed_json(const Played& own, const Played& borrowed, const Passage& passage,
                                        const Borrowed& result);

}  // namespace fingerway
