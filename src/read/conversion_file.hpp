// What this part answers: conversion files laid over an instrument, one after the other, contradictions refused.
// It does not judge whether a conversion pays off, and it types in no fingering that the rules yield.
#pragma once

#include <filesystem>

#include "conversion_parts.hpp"
#include "instrument_file.hpp"

namespace fingerway {

/// Lays one conversion file, parsed as `root`, over `stack`; `stock` is the instrument without any. Throws InputError.
void lay_over(const std::filesystem::path& file, const YamlNode& root, const Instrument& stock, TracedInstrument& stack,
              ConversionClaims& claims);
/// Takes out what hangs on touches that conversions took off: their rules and slides, their part of grips.
void drop_removed_touches(TracedInstrument& stack);

}  // namespace fingerway
