#include "cli/saved_case.h"

#include <system_error>
#include <utility>

#include "catalogue/atomic_file.h"
#include "cli/places.h"
#include "cli/text_input.h"
#include "evidence/readings_file.h"

namespace loomkey::cli {

namespace fs = std::filesystem;

Result<void> may_save(const knowledge::Knowledge& knowledge, const std::string& file, bool force) {
  std::error_code unknown;
  const auto status = fs::status(file, unknown);
  if (force || !fs::is_regular_file(status) || fs::file_size(file, unknown) == 0) return {};
  const auto text = read_text(file);
  if (text && evidence::read_readings_file(knowledge, *text, file)) return {};
  return fail(ErrorKind::input, "exists and holds no readings, so it is left alone; --force writes over it",
              source_name(file));
}

Result<void> save_case(const knowledge::Knowledge& knowledge, const evidence::Case& find, const std::string& note,
                       const fs::path& file) {
  return catalogue::write_atomically(file, evidence::write_readings_file(knowledge, find, note));
}

CaseKeeper::CaseKeeper(const knowledge::Knowledge& knowledge, const Variables& variables, std::string file,
                       std::string note, bool fresh)
    : knowledge_(knowledge),
      folder_(state_folder(variables)),
      file_(std::move(file)),
      note_(std::move(note)),
      fresh_(fresh) {}

Result<void> CaseKeeper::keep(const evidence::Case& find) {
  const auto in_state = keep_in_state(find);
  if (!in_state && file_.empty()) return in_state;
  if (file_.empty()) return {};
  auto in_file = save_case(knowledge_, find, note_, file_);
  kept_in_file_ = in_file.has_value();
  return in_file;
}

Result<void> CaseKeeper::keep_in_state(const evidence::Case& find) {
  if (!folder_) return fail(ErrorKind::storage, "HOME names no folder to keep the conversation in");
  std::error_code problem;
  fs::create_directories(*folder_, problem);
  if (problem) return fail(ErrorKind::storage, "cannot be made: " + problem.message(), folder_->string());
  const fs::path last = *folder_ / last_conversation;
  if (std::exchange(fresh_, false) && fs::exists(last, problem)) {
    fs::rename(last, *folder_ / previous_conversation, problem);
  }
  auto done = save_case(knowledge_, find, note_, last);
  kept_in_state_ = done.has_value();
  return done;
}

std::string CaseKeeper::where() const {
  if (kept_in_file_) return source_name(file_);
  return kept_in_state_ ? source_name((*folder_ / last_conversation).string()) : "";
}

std::string CaseKeeper::how_to_resume() const {
  return kept_in_state_ ? "loomkey identify --resume" : "loomkey identify --resume " + source_name(file_);
}

}  // namespace loomkey::cli
