#include "archive_splice.hpp"

#include <zlib.h>

#include <optional>
#include <vector>

#include "fingerway/base/errors.hpp"

namespace fingerway {

namespace {

// Offsets of fields, and sizes of records without their names. Source: APPNOTE 6.3,
// sections 4.3.7, 4.3.9, 4.3.12, 4.3.16.
constexpr std::size_t local_size = 30;
constexpr std::size_t record_size = 46;
constexpr std::size_t end_size = 22;
constexpr std::uint64_t has_descriptor = 0x08;
constexpr std::uint64_t stored = 0;
constexpr std::uint64_t deflated = 8;
constexpr std::uint64_t in_zip64 = 0xFFFFFFFF;

[[noreturn]] void refuse() { refuse_to_splice(); }

std::uint64_t number_at(std::string_view bytes, std::size_t at, std::size_t size) {
  if (at > bytes.size() || bytes.size() - at < size) refuse();
  std::uint64_t number = 0;
  for (std::size_t k = size; k > 0; --k) number = number << 8U | static_cast<unsigned char>(bytes[at + k - 1]);
  return number;
}

void put_number(std::string& bytes, std::size_t at, std::uint64_t number) {
  if (number >= in_zip64 || at + 4 > bytes.size()) refuse();
  for (std::size_t k = 0; k < 4; ++k) bytes[at + k] = static_cast<char>(static_cast<unsigned char>(number >> 8 * k));
}

/// Where things stand in an archive.
struct Layout {
  std::size_t end = 0;               ///< the end-of-directory record
  std::vector<std::size_t> records;  ///< of the central directory
  std::size_t record = 0;            ///< the entry's own
  std::size_t local = 0;             ///< its local header
  std::size_t data = 0;
  std::size_t packed_size = 0;
};

Layout layout_of(std::string_view archive, std::uint64_t entry) {
  using namespace std::string_view_literals;
  Layout layout;
  layout.end = archive.rfind("PK\5\6"sv);
  if (layout.end == std::string_view::npos || archive.size() - layout.end < end_size) refuse();
  const std::uint64_t count = number_at(archive, layout.end + 10, 2);
  std::size_t at = number_at(archive, layout.end + 16, 4);
  for (std::uint64_t i = 0; i < count; ++i) {
    if (number_at(archive, at, 4) != 0x02014b50) refuse();
    layout.records.push_back(at);
    at +=
        record_size + number_at(archive, at + 28, 2) + number_at(archive, at + 30, 2) + number_at(archive, at + 32, 2);
  }
  if (at != layout.end || entry >= count) refuse();  // anything between is a 64-bit directory or a signature
  layout.record = layout.records[entry];
  layout.packed_size = number_at(archive, layout.record + 20, 4);
  layout.local = number_at(archive, layout.record + 42, 4);
  if (number_at(archive, layout.local, 4) != 0x04034b50) refuse();
  layout.data =
      layout.local + local_size + number_at(archive, layout.local + 26, 2) + number_at(archive, layout.local + 28, 2);
  if (layout.data > archive.size() || archive.size() - layout.data < layout.packed_size) refuse();
  return layout;
}

/// How hard to look for repeats, and with how much memory: what the bytes depend on.
struct Packing {
  int level = 6;
  int memory = 8;
};

std::string deflate_with(Packing how, std::string_view content) {
  z_stream stream{};
  if (content.size() >= in_zip64 ||
      deflateInit2(&stream, how.level, Z_DEFLATED, -MAX_WBITS, how.memory, Z_DEFAULT_STRATEGY) != Z_OK) {
    refuse();
  }
  std::string packed(deflateBound(&stream, content.size()), '\0');
  // zlib does not write to its input, whatever its type says.
  stream.next_in = const_cast<Bytef*>(reinterpret_cast<const Bytef*>(content.data()));
  stream.avail_in = static_cast<uInt>(content.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  const int result = deflate(&stream, Z_FINISH);
  packed.resize(packed.size() - stream.avail_out);
  deflateEnd(&stream);
  if (result != Z_STREAM_END) refuse();
  return packed;
}

Packing packing_of(std::string_view packed, std::string_view content) {
  // Most programs leave zlib its defaults; the others ask for the smallest result, or the quickest.
  for (const Packing how : {Packing{6, 8}, Packing{9, 8}, Packing{9, 9}, Packing{6, 9}, Packing{1, 8}}) {
    if (deflate_with(how, content) == packed) return how;
  }
  return {};
}

}  // namespace

void refuse_to_splice() {
  throw FileError("the compressed score", "the archive is built in a way that is not written",
                  "save it uncompressed, as .musicxml");
}

std::string spliced(std::string_view archive, std::uint64_t entry, std::string_view before, std::string_view content) {
  const Layout layout = layout_of(archive, entry);
  const std::uint64_t method = number_at(archive, layout.record + 10, 2);
  if (method != stored && method != deflated) refuse();
  std::string packed(content);
  if (method == deflated) {
    packed = deflate_with(packing_of(archive.substr(layout.data, layout.packed_size), before), content);
  }
  const std::uint64_t check = crc32_z(0, reinterpret_cast<const Bytef*>(content.data()), content.size());

  std::string result(archive.substr(0, layout.data));
  result += packed;
  result += archive.substr(layout.data + layout.packed_size);
  // What stands behind the data has moved; unsigned arithmetic may wrap on the way and comes out right.
  const std::size_t moved = packed.size() - layout.packed_size;
  const auto put_sizes = [&](std::size_t at) {
    put_number(result, at, check);
    put_number(result, at + 4, packed.size());
    put_number(result, at + 8, content.size());
  };
  put_sizes(layout.record + moved + 16);
  if ((number_at(archive, layout.local + 6, 2) & has_descriptor) != 0) {
    const std::size_t descriptor = layout.data + packed.size();
    put_sizes(number_at(result, descriptor, 4) == 0x08074b50 ? descriptor + 4 : descriptor);
  } else {
    put_sizes(layout.local + 14);
  }
  for (const std::size_t record : layout.records) {
    const std::uint64_t local = number_at(archive, record + 42, 4);
    if (local > layout.local) put_number(result, record + moved + 42, local + moved);
  }
  put_number(result, layout.end + moved + 16, number_at(archive, layout.end + 16, 4) + moved);
  return result;
}

}  // namespace fingerway
