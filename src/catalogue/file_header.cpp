#include "catalogue/file_header.h"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdint>
#include <cstring>
#include <fstream>
#include <string>
#include <string_view>
#include <system_error>

#include <fmt/format.h>

#include "catalogue/schema.h"

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t header_size = 100;
constexpr std::string_view magic("SQLite format 3\0", 16);

// Offsets of SQLite's file format; all numbers in it are big-endian.
constexpr std::size_t page_size_at = 16;
constexpr std::size_t page_count_at = 28;
constexpr std::size_t user_version_at = 60;
constexpr std::size_t application_id_at = 68;

using Header = std::array<char, header_size>;

std::uint32_t number_at(const Header& header, std::size_t at, std::size_t bytes) {
  std::uint32_t value = 0;
  for (std::size_t i = 0; i < bytes; ++i) value = (value << 8U) | static_cast<unsigned char>(header[at + i]);
  return value;
}

Result<void> check_identity(const Header& header, const std::string& where) {
  const std::uint32_t id = number_at(header, application_id_at, 4);
  if (id != application_id) {
    return fail(ErrorKind::catalogue,
                fmt::format("not a loomkey catalogue: another program's SQLite file (application id {:#010x})", id),
                where);
  }
  const std::uint32_t version = number_at(header, user_version_at, 4);
  if (version > format_version) {
    return fail(ErrorKind::catalogue,
                fmt::format("made by a newer loomkey: format {}, and this one reads format {}. Update loomkey", version,
                            format_version),
                where);
  }
  if (version < format_version) {
    return fail(ErrorKind::catalogue,
                fmt::format("made by an older loomkey: format {}, and this one reads format {}. Build it again",
                            version, format_version),
                where);
  }
  return {};
}

Result<void> check_size(const Header& header, std::uintmax_t size, const std::string& where) {
  // A page of 65536 bytes is written as 1.
  const std::uintmax_t stored = number_at(header, page_size_at, 2);
  const std::uintmax_t expected = (stored == 1 ? 65536 : stored) * number_at(header, page_count_at, 4);
  if (size == expected) return {};
  const std::string what = size < expected ? "cut short" : "damaged: it is too long";
  return fail(ErrorKind::catalogue,
              fmt::format("{}: {} bytes, expected {}. Build or copy it again", what, size, expected), where);
}

}  // namespace

Result<void> check_file_header(const fs::path& path) {
  const std::string where = path.string();
  std::error_code problem;
  const auto status = fs::status(path, problem);
  if (status.type() == fs::file_type::not_found) {
    return fail(ErrorKind::catalogue, "there is no such catalogue", where);
  }
  if (status.type() == fs::file_type::none) {
    return fail(ErrorKind::storage, "cannot be reached: " + problem.message(), where);
  }
  if (!fs::is_regular_file(status)) {
    return fail(ErrorKind::catalogue, "is a folder or a device, not a catalogue", where);
  }
  std::ifstream file(path, std::ios::binary);
  if (!file) return fail(ErrorKind::storage, std::string("cannot be read: ") + std::strerror(errno), where);
  Header header{};
  file.read(header.data(), header.size());
  if (file.bad()) return fail(ErrorKind::storage, "cannot be read", where);
  const auto got = static_cast<std::size_t>(file.gcount());
  if (got == 0) return fail(ErrorKind::catalogue, "the file is empty. Build the catalogue again", where);
  const std::string_view start(header.data(), std::min(got, magic.size()));
  if (start != magic.substr(0, start.size())) {
    return fail(ErrorKind::catalogue, "not a loomkey catalogue: it is not an SQLite file", where);
  }
  if (got < header_size) {
    return fail(ErrorKind::catalogue, fmt::format("cut short: {} bytes. Build or copy it again", got), where);
  }
  if (auto identity = check_identity(header, where); !identity) return identity;
  const std::uintmax_t size = fs::file_size(path, problem);
  if (problem) return fail(ErrorKind::storage, "cannot be read: " + problem.message(), where);
  return check_size(header, size, where);
}

}  // namespace loomkey::catalogue
