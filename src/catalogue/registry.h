#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/source_log.h"

namespace loomkey::catalogue {

// A word of a source file and where it stands.
struct Word {
  std::string text;
  Place place;
};

// The ids of one kind in their final order. When a file that should have defined some could not be read, the registry
// is incomplete: a name it lacks then says nothing, and is let pass, as the file itself has been reported.
class Registry {
 public:
  explicit Registry(std::string kind) : kind_(std::move(kind)) {}

  // The index of the id; a new one is given the next.
  int add(const std::string& id);
  // An id that is left out for its own mistakes; naming it is a mistake too, and is told as that.
  void withdraw(const std::string& id) { withdrawn_.insert(id); }
  void mark_incomplete() { complete_ = false; }
  [[nodiscard]] bool complete() const { return complete_; }

  [[nodiscard]] int find(std::string_view id) const;

  // Index, or -1 after reporting the unknown name with the nearest known one; `also` are other words that may stand in
  // its place.
  [[nodiscard]] int resolve(const Word& word, SourceLog& log, const std::vector<std::string>& also = {}) const;

  // The same for a name whose index is of no use.
  void demand(const Word& word, SourceLog& log) const { static_cast<void>(resolve(word, log)); }

  [[nodiscard]] const std::string& kind() const { return kind_; }
  [[nodiscard]] const std::vector<std::string>& ids() const { return ids_; }

 private:
  std::string kind_;
  std::vector<std::string> ids_;
  std::map<std::string, int, std::less<>> index_;
  std::set<std::string, std::less<>> withdrawn_;
  bool complete_ = true;
};

// Where each word was first used; a second use is reported with both places.
class FirstUse {
 public:
  // False, and reported as "`what` 'x' is given twice; first at ...", if the word was there before.
  bool claim(const Word& word, std::string_view what, SourceLog& log);

 private:
  std::map<std::string, Place> places_;
};

}  // namespace loomkey::catalogue
