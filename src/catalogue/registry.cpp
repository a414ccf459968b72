#include "catalogue/registry.h"

namespace loomkey::catalogue {

int Registry::add(const std::string& id) {
  const auto [entry, fresh] = index_.emplace(id, static_cast<int>(ids_.size()));
  if (fresh) ids_.push_back(id);
  return entry->second;
}

int Registry::find(std::string_view id) const {
  const auto found = index_.find(id);
  return found == index_.end() ? -1 : found->second;
}

int Registry::resolve(const Word& word, SourceLog& log, const std::vector<std::string>& also) const {
  const int index = find(word.text);
  if (index >= 0 || !complete_) return index;
  if (withdrawn_.contains(word.text)) {
    log.add(word.place, kind_ + " '" + word.text + "' is ignored for its own mistakes");
    return index;
  }
  std::vector<std::string> known = ids_;
  known.insert(known.end(), also.begin(), also.end());
  log.add(word.place, unknown(kind_, word.text, known));
  return index;
}

bool FirstUse::claim(const Word& word, std::string_view what, SourceLog& log) {
  const auto [entry, fresh] = places_.emplace(word.text, word.place);
  if (!fresh) {
    log.add(word.place, std::string(what) + " '" + word.text + "' is given twice; first at " + entry->second.text());
  }
  return fresh;
}

}  // namespace loomkey::catalogue
