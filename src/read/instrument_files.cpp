#include "fingerway/read/instrument_files.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <system_error>

#include "conversion_file.hpp"
#include "fingerway/base/text.hpp"
#include "yaml_strict.hpp"

namespace fingerway {

namespace {

namespace fs = std::filesystem;

// No request needs more; it bounds what a crafted one can ask for.
constexpr std::size_t most_conversions = 20;

bool is_path(std::string_view name) {
  return name.find('/') != std::string_view::npos || name.find('\\') != std::string_view::npos ||
         name.ends_with(".yaml");
}

/// Stems of the *.yaml files in one folder; a folder that cannot be read has none.
std::vector<std::string> stems_in(const fs::path& folder) {
  std::vector<std::string> stems;
  std::error_code error;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end; entry.increment(error)) {
    const fs::path& path = entry->path();
    if (path.extension() == ".yaml" && is_id(path.stem().string())) stems.push_back(path.stem().string());
  }
  return stems;
}

/// What a file says it is, without reading the rest; empty where it does not say.
struct FileHead {
  std::string kind;
  std::string base;  ///< of a conversion
  Place base_at;     ///< where that stands; the file's start where it does not
  std::string like;  ///< of an instrument that shares another's mechanism
};

FileHead head_of(const YamlNode& root, const fs::path& file) {
  FileHead head;
  head.base_at = {file.string(), root.line, root.column, {}};
  for (std::size_t i = 0; i < root.keys.size(); ++i) {
    if (root.keys[i].text == "fingerway") head.kind = root.items[i].text;
    if (root.keys[i].text == "base") {
      head.base = root.items[i].text;
      head.base_at = {file.string(), root.items[i].line, root.items[i].column, {}};
    }
    if (root.keys[i].text == "like") head.like = root.items[i].text;
  }
  return head;
}

FileHead read_head(const fs::path& file) { return head_of(load_yaml(file), file); }

/// A file's tree and what it says it is.
struct HeadedFile {
  fs::path file;
  YamlNode root;
  FileHead head;
};

/// For lists of what there is: a file that cannot be read is none of them; asking for it by name tells why.
HeadedFile headed_or_nothing(const fs::path& file) {
  try {
    YamlNode root = load_yaml(file);
    FileHead head = head_of(root, file);
    return {file, std::move(root), std::move(head)};
  } catch (const InputError&) {
  } catch (const FileError&) {
  }
  return {};
}

FileHead head_or_nothing(const fs::path& file) { return headed_or_nothing(file).head; }

/// Every file of this kind in the folders or their subfolder, by id; the first folder that has an id counts.
std::map<std::string, HeadedFile> all_headed(const std::string& kind, const char* subfolder,
                                             const InstrumentFolders& where) {
  std::map<std::string, HeadedFile> found;
  for (const fs::path& folder : where.folders) {
    for (const std::string& stem : stems_in(folder / subfolder)) {
      if (found.contains(stem)) continue;
      HeadedFile file = headed_or_nothing((folder / subfolder / (stem + ".yaml")).lexically_normal());
      if (file.head.kind == kind) found.emplace(stem, std::move(file));
    }
  }
  return found;
}

std::vector<std::string> sorted_once(std::vector<std::string> names) {
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

std::optional<fs::path> find_by_id(std::string_view id, const char* subfolder, const InstrumentFolders& where) {
  if (!is_id(id)) return std::nullopt;
  for (const fs::path& folder : where.folders) {
    fs::path file = folder / subfolder / (std::string(id) + ".yaml");
    std::error_code error;
    if (fs::exists(file, error)) return file.lexically_normal();
  }
  return std::nullopt;
}

[[noreturn]] void unknown(const char* kind, std::string_view name, const std::vector<std::string>& known,
                          const Place& at = {}) {
  throw InputError(Fault{at, "no " + std::string(kind) + " " + in_quotes(name),
                         known.empty() ? "none is known" : suggestion(name, known)});
}

/// Splits "bassoon+first+second"; a file whose own path has a plus in it stays whole.
std::vector<std::string> split_stack(std::string_view stacked) {
  std::error_code error;
  if (is_path(stacked) && fs::exists(fs::path(stacked), error)) return {std::string(stacked)};
  std::vector<std::string> parts;
  std::size_t start = 0;
  while (true) {
    const std::size_t plus = stacked.find('+', start);
    parts.emplace_back(stacked.substr(start, plus - start));
    if (plus == std::string_view::npos || parts.size() > most_conversions) break;
    start = plus + 1;
  }
  return parts;
}

fs::path instrument_path(const std::string& name, const InstrumentFolders& where, const Place& at = {}) {
  if (is_path(name)) return name;
  const std::optional<fs::path> file = find_by_id(name, "", where);
  if (!file) unknown("instrument", name, instrument_ids(where), at);
  return *file;
}

fs::path conversion_path(const std::string& name, const std::string& base, const InstrumentFolders& where) {
  if (is_path(name)) return name;
  const std::optional<fs::path> file = find_by_id(name, "conversions", where);
  if (!file) unknown(("conversion of " + base).c_str(), name, conversion_ids(base, where));
  return *file;
}

/// A file found by its name must carry that name as its id, or reports would call it otherwise than requests do.
void require_own_name(const std::string& name, const std::string& id, const std::string& file) {
  if (is_path(name) || name == id) return;
  throw InputError(Fault{{file, 0, 0, {}}, "the id in this file is " + in_quotes(id), "rename the file or the id"});
}

/// Nothing where the conversion contradicts this member of the family.
std::optional<OfferedConversion> offered_over(const TracedInstrument& stock, const std::string& id,
                                              const HeadedFile& conversion) {
  TracedInstrument stack = stock;
  try {
    ConversionClaims claims;
    lay_over(conversion.file, conversion.root, stock.instrument, stack, claims);
    require_own_name(id, stack.instrument.conversions.back().id, conversion.file.string());
    drop_removed_touches(stack);
    require_sound(stack);
  } catch (const InputError&) {
    return std::nullopt;
  }
  OfferedConversion offered{.sheet = stack.instrument.conversions.back(), .latches = {}};
  for (const Latch& latch : stack.instrument.latches) {
    if (!find_latch(stock.instrument, latch.id)) offered.latches.push_back(latch);
  }
  return offered;
}

}  // namespace

Instrument read_instrument(std::string_view stacked, const InstrumentFolders& where) {
  const std::vector<std::string> parts = split_stack(stacked);
  if (parts.size() > most_conversions) {
    throw InputError(Fault{{}, "too many conversions in one stack", "at most " + std::to_string(most_conversions - 1)});
  }
  TracedInstrument stack = read_instrument_file(instrument_path(parts[0], where));
  require_own_name(parts[0], stack.instrument.id, stack.instrument.file);
  const Instrument stock = stack.instrument;
  ConversionClaims claims;
  for (std::size_t i = 1; i < parts.size(); ++i) {
    const fs::path file = conversion_path(parts[i], stock.id, where);
    lay_over(file, load_yaml(file), stock, stack, claims);
    const std::vector<ConversionSheet>& laid = stack.instrument.conversions;
    require_own_name(parts[i], laid.back().id, file.string());
    const bool twice = std::any_of(laid.begin(), laid.end() - 1,
                                   [&](const ConversionSheet& sheet) { return sheet.id == laid.back().id; });
    if (twice) throw InputError(Fault{{}, "the conversion " + in_quotes(laid.back().id) + " is stacked twice", {}});
  }
  if (parts.size() > 1) {
    drop_removed_touches(stack);
    require_sound(stack);
  }
  return std::move(stack.instrument);
}

std::vector<OfferedInstrument> read_all_instruments(const InstrumentFolders& where) {
  std::map<std::string, HeadedFile> instruments = all_headed("instrument", "", where);
  const std::map<std::string, HeadedFile> conversions = all_headed("conversion", "conversions", where);
  std::vector<OfferedInstrument> all;
  for (auto& [id, instrument] : instruments) {
    const TracedInstrument stock = read_instrument_file(instrument.file, std::move(instrument.root));
    require_own_name(id, stock.instrument.id, stock.instrument.file);
    OfferedInstrument offered{.stock = stock.instrument, .conversions = {}};
    for (const auto& [name, conversion] : conversions) {
      const std::string& base = conversion.head.base;
      if (base.empty() || (base != id && base != instrument.head.like)) continue;
      if (auto one = offered_over(stock, name, conversion)) offered.conversions.push_back(std::move(*one));
    }
    all.push_back(std::move(offered));
  }
  return all;
}

std::vector<std::string> instrument_ids(const InstrumentFolders& where) {
  std::vector<std::string> ids;
  for (const fs::path& folder : where.folders) {
    for (std::string& stem : stems_in(folder)) {
      if (head_or_nothing(folder / (stem + ".yaml")).kind == "instrument") ids.push_back(std::move(stem));
    }
  }
  return sorted_once(std::move(ids));
}

std::vector<std::string> conversion_ids(std::string_view base, const InstrumentFolders& where) {
  const std::optional<fs::path> file = find_by_id(base, "", where);
  const std::string family = file ? head_or_nothing(*file).like : std::string();
  std::vector<std::string> ids;
  for (const fs::path& folder : where.folders) {
    for (std::string& stem : stems_in(folder / "conversions")) {
      const std::string fits = head_or_nothing(folder / "conversions" / (stem + ".yaml")).base;
      if (!fits.empty() && (fits == base || fits == family)) ids.push_back(std::move(stem));
    }
  }
  return sorted_once(std::move(ids));
}

void check_instrument_file(const std::filesystem::path& file, const InstrumentFolders& where) {
  const FileHead head = read_head(file);
  if (head.kind != "conversion") {
    static_cast<void>(read_instrument_file(file));
    return;
  }
  if (head.base.empty()) {
    throw InputError(Fault{head.base_at, "the conversion does not say what it is a conversion of", "base: bassoon"});
  }
  TracedInstrument stack = read_instrument_file(instrument_path(head.base, where, head.base_at));
  const Instrument stock = stack.instrument;
  ConversionClaims claims;
  lay_over(file, load_yaml(file), stock, stack, claims);
  drop_removed_touches(stack);
  require_sound(stack);
}

}  // namespace fingerway
