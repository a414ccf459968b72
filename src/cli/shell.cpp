#include "cli/shell.h"

#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <system_error>

namespace loomkey::cli {

Result<void> write_all(int descriptor, std::string_view text, std::string_view name) {
  while (!text.empty()) {
    const ssize_t written = ::write(descriptor, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0 && errno == EPIPE) return fail(ErrorKind::storage, "");
    if (written < 0) {
      return fail(ErrorKind::storage, std::string("cannot be written: ") + std::strerror(errno), std::string(name));
    }
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  return {};
}

Result<void> Shell::print(std::string_view text) const { return write_all(STDOUT_FILENO, text, "standard output"); }

Result<void> Shell::print(const report::Document& document) const { return print(report::to_text(document, style())); }

void Shell::tell(std::string_view text) const {
  std::string message;
  for (const std::string& line : report::fold("loomkey: " + std::string(text), terminal.width)) message += line + '\n';
  [[maybe_unused]] const auto lost = write_all(STDERR_FILENO, message, "standard error");
}

std::filesystem::path executable_path() {
  std::error_code unknown;
  const std::filesystem::path path = std::filesystem::read_symlink("/proc/self/exe", unknown);
  return unknown ? std::filesystem::path{} : path;
}

}  // namespace loomkey::cli
