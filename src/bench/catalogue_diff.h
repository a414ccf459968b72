#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "knowledge/knowledge.h"

namespace loomkey::bench {

// A text or figure that is another one now; empty where there was or is none.
struct FieldChange {
  std::string what;
  std::string was;
  std::string is;
};

// What is claimed of one trait that both catalogues know.
struct ClaimChange {
  std::string of;  // the fault or condition it belongs to; empty for the good part, and for a family
  int trait_was = -1;
  int trait_is = -1;
  std::optional<knowledge::Claim> was;
  std::optional<knowledge::Claim> is;
};

struct NamedId {
  std::string id;
  std::string name;
};

struct ItemChange {
  NamedId item;  // as it is now
  std::vector<FieldChange> fields;
  std::vector<ClaimChange> claims;
};

// Entries of one kind.
struct KindDiff {
  std::string one;
  std::string many;
  std::vector<NamedId> added;
  std::vector<NamedId> removed;
  std::vector<std::pair<NamedId, NamedId>> renamed;  // was, is; what else changed is among the changed ones
  std::vector<ItemChange> changed;
  bool reordered = false;  // those that stayed stand in another order

  [[nodiscard]] bool empty() const {
    return added.empty() && removed.empty() && renamed.empty() && changed.empty() && !reordered;
  }
};

// A removed part and the parts that took its place, or one advice class and those it became, or the reverse.
struct Regrouping {
  std::string one;
  std::vector<std::string> many;
};

struct CatalogueDiff {
  std::string hash_was;
  std::string hash_is;
  KindDiff parts;
  KindDiff advice;
  std::vector<KindDiff> rest;        // families, confusion sets, traits, words
  std::vector<Regrouping> replaced;  // removed parts whose successors are there
  std::vector<Regrouping> merged;    // a class now, and the two or more whole classes it was made of
  std::vector<Regrouping> split;     // a class then, and the two or more classes made of nothing else

  [[nodiscard]] bool identical() const { return hash_was == hash_is; }
};

// Compares two bodies of knowledge by ids, whatever their order. A removed part is renamed if its one successor is new,
// or if a new part says the same in every word; an advice record is renamed if a new one has exactly its parts. The
// settings of the engine are no part of a catalogue. Both must carry their hashes.
CatalogueDiff catalogue_diff(const knowledge::Knowledge& was, const knowledge::Knowledge& is);

}  // namespace loomkey::bench
