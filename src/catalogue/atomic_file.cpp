#include "catalogue/atomic_file.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string>
#include <system_error>
#include <utility>

namespace loomkey::catalogue {
namespace {

namespace fs = std::filesystem;

tl::unexpected<Error> refused(const std::string& what, int number, const fs::path& where) {
  return fail(ErrorKind::storage, what + ": " + std::strerror(number), where.string());
}

// The new file while it is not yet in place; removed again unless it was kept.
class DraftFile {
 public:
  explicit DraftFile(const fs::path& beside)
      : name_((beside.parent_path() / ("." + beside.filename().string() + ".XXXXXX")).string()),
        descriptor_(::mkostemp(name_.data(), O_CLOEXEC)) {}
  ~DraftFile() {
    close();
    if (!kept_ && made_) ::unlink(name_.c_str());
  }
  DraftFile(const DraftFile&) = delete;
  DraftFile& operator=(const DraftFile&) = delete;

  [[nodiscard]] bool made() const { return made_; }

  bool write(std::string_view bytes) {
    while (!bytes.empty()) {
      const ssize_t written = ::write(descriptor_, bytes.data(), bytes.size());
      if (written < 0 && errno == EINTR) continue;
      if (written <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(written));
    }
    return true;
  }

  bool sync() {
    // mkostemp makes files for the owner alone; a catalogue is for everybody, as far as the umask allows.
    const mode_t mask = ::umask(0);
    ::umask(mask);
    if (::fchmod(descriptor_, 0666 & ~mask) != 0 || ::fsync(descriptor_) != 0) return false;
    return close();
  }

  bool rename_to(const fs::path& path) {
    kept_ = ::rename(name_.c_str(), path.c_str()) == 0;
    return kept_;
  }

 private:
  bool close() {
    const int descriptor = std::exchange(descriptor_, -1);
    return descriptor < 0 || ::close(descriptor) == 0;
  }

  std::string name_;
  int descriptor_;
  bool made_ = descriptor_ >= 0;
  bool kept_ = false;
};

// The file that a chain of links leads to, there or not.
fs::path follow_links(fs::path path) {
  constexpr int longest_chain = 40;
  std::error_code problem;
  for (int i = 0; i < longest_chain && fs::is_symlink(path, problem); ++i) {
    path = path.parent_path() / fs::read_symlink(path, problem);
  }
  return fs::absolute(path, problem);
}

// So that the renaming itself survives a power cut. A folder that cannot be synced is no reason to fail.
void sync_folder(const fs::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor < 0) return;
  ::fsync(descriptor);
  ::close(descriptor);
}

}  // namespace

Result<void> write_atomically(const fs::path& path, std::string_view bytes) {
  std::error_code problem;
  const fs::path target = follow_links(path);
  if (path.empty() || !path.has_filename()) {
    return fail(ErrorKind::storage, "expected the name of a file to write", path.string());
  }
  const auto status = fs::status(target, problem);
  if (fs::exists(status) && !fs::is_regular_file(status)) {
    return fail(ErrorKind::storage, "is a folder or a device and will not be replaced", path.string());
  }
  if (!fs::is_directory(target.parent_path(), problem)) {
    return fail(ErrorKind::storage, "there is no folder to put it in", path.string());
  }
  DraftFile draft(target);
  if (!draft.made()) return refused("cannot make a file beside it", errno, path);
  if (!draft.write(bytes) || !draft.sync()) return refused("cannot be written", errno, path);
  if (!draft.rename_to(target)) return refused("cannot be put in place", errno, path);
  sync_folder(target.parent_path());
  return {};
}

}  // namespace loomkey::catalogue
