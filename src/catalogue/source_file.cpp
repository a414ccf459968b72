#include "catalogue/source_file.h"

#include <cerrno>
#include <cstring>
#include <fstream>
#include <system_error>
#include <utility>

#include "base/text.h"

namespace loomkey::catalogue {
namespace {

constexpr std::uintmax_t largest_file = 8U << 20U;

Place place_of_byte(const std::string& file, std::string_view text, std::size_t at) {
  Place place{file, 1, 1};
  for (const char c : text.substr(0, at)) {
    if (c == '\n') {
      ++place.line;
      place.column = 1;
    } else if ((static_cast<unsigned char>(c) & 0xC0U) != 0x80U) {
      ++place.column;
    }
  }
  return place;
}

std::optional<std::string> read_bytes(const std::filesystem::path& path, const std::string& name, SourceLog& log) {
  std::error_code problem;
  const auto status = std::filesystem::status(path, problem);
  if (!std::filesystem::exists(status)) {
    log.add({name}, "the file is missing");
    return std::nullopt;
  }
  if (!std::filesystem::is_regular_file(status)) {
    log.add({name}, "expected a file of TOML text here, found a folder or a device");
    return std::nullopt;
  }
  const std::uintmax_t size = std::filesystem::file_size(path, problem);
  if (!problem && size > largest_file) {
    log.add({name}, "the file is larger than 8 MB; split it");
    return std::nullopt;
  }
  std::ifstream stream(path, std::ios::binary);
  if (!stream) {
    log.add({name}, std::string("cannot be opened: ") + std::strerror(errno));
    return std::nullopt;
  }
  std::string bytes(std::istreambuf_iterator<char>(stream), {});
  if (stream.bad()) {
    log.add({name}, "cannot be read to its end");
    return std::nullopt;
  }
  return bytes;
}

}  // namespace

Place SourceNode::place() const { return place_of(file, node->source()); }

Place place_of(const std::string& file, const toml::source_region& region) {
  // Tables that only dotted keys made carry no position of their own.
  if (region.begin.line == 0) return {file};
  return {file, static_cast<int>(region.begin.line), static_cast<int>(region.begin.column)};
}

std::string describe(const toml::node& node) {
  switch (node.type()) {
    case toml::node_type::table:
      return "a table";
    case toml::node_type::array:
      return "a list";
    case toml::node_type::string:
      return "a text";
    case toml::node_type::integer:
      return "a whole number";
    case toml::node_type::floating_point:
      return "a number";
    case toml::node_type::boolean:
      return "true or false";
    default:
      return "a date or time";
  }
}

std::optional<SourceFile> read_source_file(const std::filesystem::path& data_dir, const std::string& name,
                                           SourceLog& log) {
  const auto bytes = read_bytes(data_dir / name, name, log);
  if (!bytes) return std::nullopt;
  const std::size_t invalid = first_invalid_utf8(*bytes);
  if (invalid != std::string_view::npos) {
    log.add(place_of_byte(name, *bytes, invalid), "this byte is not UTF-8 text; save the file as UTF-8");
    return std::nullopt;
  }
  try {
    SourceFile file{name, toml::parse(*bytes)};
    if (file.root.empty()) {
      log.add({name}, "the file is empty");
      return std::nullopt;
    }
    return file;
  } catch (const toml::parse_error& error) {
    log.add(place_of(name, error.source()), "not TOML: " + std::string(error.description()));
    return std::nullopt;
  }
}

}  // namespace loomkey::catalogue
