#include "cli/text_input.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <vector>

#include "base/text.h"

namespace loomkey::cli {
namespace {

tl::unexpected<Error> refused(const std::string& path, int number) {
  const bool missing = number == ENOENT || number == ENOTDIR;
  return fail(missing ? ErrorKind::input : ErrorKind::storage, std::string("cannot be read: ") + std::strerror(number),
              source_name(path));
}

// Standard input is borrowed; everything else is closed again.
class Source {
 public:
  explicit Source(const std::string& path)
      : own_(path != "-"), descriptor_(own_ ? ::open(path.c_str(), O_RDONLY | O_CLOEXEC) : STDIN_FILENO) {}
  ~Source() {
    if (own_ && descriptor_ >= 0) ::close(descriptor_);
  }
  Source(const Source&) = delete;
  Source& operator=(const Source&) = delete;

  [[nodiscard]] int descriptor() const { return descriptor_; }

 private:
  bool own_;
  int descriptor_;
};

std::size_t line_at(const std::string& text, std::size_t at) {
  return 1 + static_cast<std::size_t>(std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(at), '\n'));
}

Result<std::string> judged(std::string text, const std::string& name) {
  if (text.size() > largest_text) {
    return fail(ErrorKind::input, "is larger than a readings file may be (1 MiB)", name);
  }
  if (trim(text).empty()) return fail(ErrorKind::input, "is empty", name);
  if (text.find('\0') != std::string::npos) return fail(ErrorKind::input, "is not a text file", name);
  if (const std::size_t bad = first_invalid_utf8(text); bad != std::string::npos) {
    return fail(ErrorKind::input, "is not UTF-8 text; save it as UTF-8",
                name + ":" + std::to_string(line_at(text, bad)));
  }
  return text;
}

}  // namespace

std::string source_name(const std::string& path) { return path == "-" ? "standard input" : printable(path); }

Result<std::string> read_text(const std::string& path) {
  const Source source(path);
  if (source.descriptor() < 0) return refused(path, errno);
  struct stat status {};
  if (::fstat(source.descriptor(), &status) == 0 && S_ISDIR(status.st_mode)) {
    return fail(ErrorKind::input, "is a folder, not a file", source_name(path));
  }
  std::string text;
  std::vector<char> block(64 * 1024);
  // One block more than is allowed tells that there is too much.
  while (text.size() <= largest_text) {
    const ssize_t got = ::read(source.descriptor(), block.data(), block.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return refused(path, errno);
    if (got == 0) break;
    text.append(block.data(), static_cast<std::size_t>(got));
  }
  return judged(std::move(text), source_name(path));
}

}  // namespace loomkey::cli
