#include "score_container.hpp"

#include <zip.h>

#include <algorithm>
#include <memory>
#include <optional>
#include <pugixml.hpp>
#include <set>
#include <utility>
#include <vector>

#include "fingerway/base/errors.hpp"
#include "musicxml_text.hpp"

namespace fingerway {

namespace {

constexpr std::uint64_t mebibyte = 1U << 20U;
// No score comes near these; an archive made to fill the memory does.
constexpr std::int64_t most_entries = 10'000;
constexpr std::uint64_t largest_unpacked = 1024 * mebibyte;
constexpr std::uint64_t largest_ratio = 200;
constexpr std::uint64_t free_of_ratio = 10 * mebibyte;

constexpr const char* container_name = "META-INF/container.xml";

[[noreturn]] void refuse(const std::string& file, std::string what,
                         std::string hint = "save it uncompressed, as .musicxml") {
  throw InputError(Fault{{file, 0, 0, {}}, std::move(what), std::move(hint)});
}

struct Discard {
  void operator()(zip_t* archive) const { zip_discard(archive); }
};
struct FreeSource {
  void operator()(zip_source_t* source) const { zip_source_free(source); }
};
struct CloseFile {
  void operator()(zip_file_t* entry) const { static_cast<void>(zip_fclose(entry)); }
};
using Archive = std::unique_ptr<zip_t, Discard>;
using Source = std::unique_ptr<zip_source_t, FreeSource>;
using OpenEntry = std::unique_ptr<zip_file_t, CloseFile>;

/// libzip's sentence for an error, as the end of one of ours.
std::string reason(zip_error_t* error) {
  switch (zip_error_code_zip(error)) {
    case ZIP_ER_NOZIP:
    case ZIP_ER_EOF:
      return "the archive is cut short or damaged";
    case ZIP_ER_INCONS:
    case ZIP_ER_CRC:
    case ZIP_ER_ZLIB:
    case ZIP_ER_COMPRESSED_DATA:
      return "the archive is damaged";
    case ZIP_ER_COMPNOTSUPP:
      return "the archive is packed in a way that is not read";
    default:
      return "the archive cannot be read: " + std::string(zip_error_strerror(error));
  }
}

class ZipError {
 public:
  ZipError() { zip_error_init(&error_); }
  ~ZipError() { zip_error_fini(&error_); }
  ZipError(const ZipError&) = delete;
  ZipError& operator=(const ZipError&) = delete;
  zip_error_t* get() { return &error_; }

 private:
  zip_error_t error_;
};

Source memory_source(std::string_view bytes, const std::string& file) {
  ZipError error;
  Source source(zip_source_buffer_create(bytes.data(), bytes.size(), 0, error.get()));
  if (!source) refuse(file, reason(error.get()));
  return source;
}

/// Takes a reference of its own to the source.
Archive open(const Source& source, int how, const std::string& file) {
  ZipError error;
  zip_source_keep(source.get());
  Archive archive(zip_open_from_source(source.get(), how, error.get()));
  if (!archive) {
    zip_source_free(source.get());
    refuse(file, reason(error.get()));
  }
  return archive;
}

/// True for names that would lead out of the folder an archive is unpacked in.
bool is_unsafe(std::string_view name) {
  if (name.empty() || name.front() == '/' || name.find('\\') != std::string_view::npos) return true;
  if (name.size() > 1 && name[1] == ':') return true;
  for (std::size_t start = 0; start <= name.size();) {
    const std::size_t end = std::min(name.find('/', start), name.size());
    if (name.substr(start, end - start) == "..") return true;
    start = end + 1;
  }
  return false;
}

struct Entry {
  std::uint64_t index = 0;
  std::string name;
  std::uint64_t size = 0;
  bool encrypted = false;
};

/// The entries of an archive, which is refused when they are too many, too large or not safely named.
std::vector<Entry> entries_of(zip_t* archive, std::size_t archive_size, const std::string& file) {
  const std::int64_t count = zip_get_num_entries(archive, 0);
  if (count > most_entries) refuse(file, "the archive has more than 10,000 entries");
  std::vector<Entry> entries;
  std::set<std::string> names;
  std::uint64_t unpacked = 0;
  for (std::uint64_t i = 0; i < static_cast<std::uint64_t>(std::max<std::int64_t>(count, 0)); ++i) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    if (zip_stat_index(archive, i, 0, &stat) != 0) refuse(file, reason(zip_get_error(archive)));
    constexpr std::uint64_t needed = ZIP_STAT_NAME | ZIP_STAT_SIZE;
    if ((stat.valid & needed) != needed) refuse(file, "the archive is damaged");
    Entry entry{i, stat.name, stat.size, stat.encryption_method != ZIP_EM_NONE};
    if (is_unsafe(entry.name)) {
      refuse(file, "the archive has an entry with the unsafe name " + short_quote(entry.name));
    }
    if (!names.insert(entry.name).second) {
      refuse(file, "the archive has two entries named " + short_quote(entry.name));
    }
    // Each size is at most the sum allowed, so the sum cannot run over.
    if (entry.size > largest_unpacked || (unpacked += entry.size) > largest_unpacked) {
      refuse(file, "the archive unpacks to more than 1 GiB");
    }
    entries.push_back(std::move(entry));
  }
  if (unpacked > free_of_ratio + largest_ratio * archive_size) {
    refuse(file, "the archive unpacks to more than 200 times its size");
  }
  return entries;
}

std::string content(zip_t* archive, const Entry& entry, const std::string& file) {
  if (entry.encrypted) refuse(file, "the archive is encrypted", "save it without a password");
  const OpenEntry opened(zip_fopen_index(archive, entry.index, 0));
  if (!opened) refuse(file, reason(zip_get_error(archive)));
  std::string bytes;
  // One byte more than it says tells whether there is more.
  const std::size_t step = std::min<std::size_t>(mebibyte, entry.size + 1);
  for (;;) {
    const std::size_t had = bytes.size();
    bytes.resize(had + step);
    const std::int64_t got = zip_fread(opened.get(), bytes.data() + had, step);
    if (got < 0) refuse(file, short_quote(entry.name) + ": " + reason(zip_file_get_error(opened.get())));
    bytes.resize(had + static_cast<std::size_t>(got));
    if (got == 0) break;
    // What it says of its size was checked; what it really unpacks to may be more.
    if (bytes.size() > entry.size) refuse(file, short_quote(entry.name) + ": the archive is damaged");
  }
  if (bytes.size() != entry.size) refuse(file, short_quote(entry.name) + ": the archive is cut short or damaged");
  return bytes;
}

bool ends_as_score(std::string_view name) {
  return name.ends_with(".musicxml") || name.ends_with(".xml") || name.ends_with(".MUSICXML") || name.ends_with(".XML");
}

/// Media types of an uncompressed score: the registered one, the older one, and plain XML. Source: MusicXML 4.0,
/// container.xsd (a root file without a media type is MusicXML).
bool is_score_type(std::string_view type) {
  return type.empty() || type == "application/vnd.recordare.musicxml+xml" ||
         type == "application/vnd.recordare.musicxml" || type == "text/xml" || type == "application/xml";
}

/// What container.xml names as the score, if it names one.
std::optional<std::string> named_score(const std::string& xml, const std::string& file) {
  pugi::xml_document document;
  if (!document.load_buffer(xml.data(), xml.size())) refuse(file, std::string(container_name) + " is not XML");
  for (const pugi::xml_node rootfiles : document.document_element().children("rootfiles")) {
    for (const pugi::xml_node rootfile : rootfiles.children("rootfile")) {
      if (is_score_type(rootfile.attribute("media-type").value())) return rootfile.attribute("full-path").value();
    }
  }
  return std::nullopt;
}

const Entry* find(const std::vector<Entry>& entries, std::string_view name) {
  const auto found = std::ranges::find(entries, name, &Entry::name);
  return found == entries.end() ? nullptr : &*found;
}

const Entry& score_entry(zip_t* archive, const std::vector<Entry>& entries, const std::string& file) {
  std::optional<std::string> named;
  if (const Entry* const container = find(entries, container_name)) {
    named = named_score(content(archive, *container, file), file);
  }
  if (named) {
    if (is_unsafe(*named) || named->ends_with('/')) {
      refuse(file, std::string(container_name) + " names " + short_quote(*named) + ", which is no file in the archive");
    }
    if (const Entry* const entry = find(entries, *named)) return *entry;
  }
  // Names in letters beyond ASCII do not always agree, and some archives come without a container file.
  const Entry* only = nullptr;
  for (const Entry& entry : entries) {
    if (!ends_as_score(entry.name) || entry.name.starts_with("META-INF/") || entry.name.starts_with("__MACOSX/")) {
      continue;
    }
    if (only != nullptr) {
      refuse(file,
             named ? "the archive has no entry " + short_quote(*named) + ", which its container file names"
                   : "the archive has several scores and does not say which to read",
             "unpack it and read one of them");
    }
    only = &entry;
  }
  if (only == nullptr) refuse(file, "the archive holds no score", "is it a MusicXML file?");
  return *only;
}

}  // namespace

bool is_archive(std::string_view bytes) {
  using namespace std::string_view_literals;
  return bytes.starts_with("PK\3\4"sv) || bytes.starts_with("PK\5\6"sv);
}

PackedScore unpacked_score(std::string_view archive, const std::string& file) {
  const Source source = memory_source(archive, file);
  const Archive opened = open(source, ZIP_RDONLY, file);
  const std::vector<Entry> entries = entries_of(opened.get(), archive.size(), file);
  const Entry& entry = score_entry(opened.get(), entries, file);
  return {entry.index, entry.name, content(opened.get(), entry, file)};
}

}  // namespace fingerway
