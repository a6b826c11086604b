// What this part answers: zip archives in memory for tests, made and read by libzip.
#pragma once

#include <zip.h>

#include <cstdint>
#include <memory>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace fingerway {

/// Name and content, in order.
using Entries = std::vector<std::pair<std::string, std::string>>;

/// An archive; the entry called "mimetype" is stored, the others are deflated.
[[nodiscard]] inline std::string archive_of(const Entries& entries) {
  struct Closer {
    void operator()(zip_t* archive) const { zip_discard(archive); }
    void operator()(zip_source_t* source) const { zip_source_free(source); }
  };
  const std::unique_ptr<zip_source_t, Closer> target(zip_source_buffer_create(nullptr, 0, 0, nullptr));
  zip_source_keep(target.get());
  std::unique_ptr<zip_t, Closer> archive(zip_open_from_source(target.get(), ZIP_TRUNCATE, nullptr));
  for (const auto& [name, content] : entries) {
    std::unique_ptr<zip_source_t, Closer> source(zip_source_buffer(archive.get(), content.data(), content.size(), 0));
    const std::int64_t at = zip_file_add(archive.get(), name.c_str(), source.get(), ZIP_FL_ENC_UTF_8);
    if (at < 0) throw std::runtime_error("cannot add " + name);
    static_cast<void>(source.release());  // the archive's now
    const auto entry = static_cast<std::uint64_t>(at);
    zip_set_file_compression(archive.get(), entry, name == "mimetype" ? ZIP_CM_STORE : ZIP_CM_DEFLATE, 0);
    constexpr time_t some_time = 1'600'000'000;
    zip_file_set_mtime(archive.get(), entry, some_time, 0);
  }
  if (zip_close(archive.get()) != 0) throw std::runtime_error("cannot write the archive");
  static_cast<void>(archive.release());
  zip_stat_t stat;
  zip_stat_init(&stat);
  zip_source_stat(target.get(), &stat);
  std::string bytes(stat.size, '\0');
  zip_source_open(target.get());
  zip_source_read(target.get(), bytes.data(), bytes.size());
  zip_source_close(target.get());
  return bytes;
}

[[nodiscard]] inline Entries entries_of(const std::string& bytes) {
  zip_source_t* source = zip_source_buffer_create(bytes.data(), bytes.size(), 0, nullptr);
  zip_t* archive = zip_open_from_source(source, ZIP_RDONLY | ZIP_CHECKCONS, nullptr);
  if (archive == nullptr) throw std::runtime_error("not an archive");
  Entries entries;
  for (std::int64_t i = 0; i < zip_get_num_entries(archive, 0); ++i) {
    zip_stat_t stat;
    zip_stat_init(&stat);
    zip_stat_index(archive, static_cast<std::uint64_t>(i), 0, &stat);
    std::string content(stat.size, '\0');
    zip_file_t* file = zip_fopen_index(archive, static_cast<std::uint64_t>(i), 0);
    zip_fread(file, content.data(), content.size());
    zip_fclose(file);
    entries.emplace_back(stat.name, content);
  }
  zip_discard(archive);
  return entries;
}

/// A META-INF/container.xml that names these root files, each with the media type after it.
[[nodiscard]] inline std::pair<std::string, std::string> container_for(const Entries& rootfiles) {
  std::string xml = "<?xml version=\"1.0\"?><container><rootfiles>";
  for (const auto& [path, type] : rootfiles) {
    xml += "<rootfile full-path=\"" + path + "\"" + (type.empty() ? "" : " media-type=\"" + type + "\"") + "/>";
  }
  return {"META-INF/container.xml", xml + "</rootfiles></container>"};
}

}  // namespace fingerway
