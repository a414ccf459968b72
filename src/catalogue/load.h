#pragma once

#include <sqlite3.h>

#include "knowledge/knowledge.h"

namespace loomkey::catalogue {

// Reads everything from an open catalogue. Throws BadRow if a row cannot be read or cannot be true; the result has
// also passed check_knowledge.
knowledge::Knowledge load_knowledge(sqlite3* database);

// The pieces, in the order in which they refer to each other.
void load_vocabulary(sqlite3* database, knowledge::Knowledge& knowledge);
void load_traits(sqlite3* database, knowledge::Knowledge& knowledge);
void load_advice(sqlite3* database, knowledge::Knowledge& knowledge);
void load_parts(sqlite3* database, knowledge::Knowledge& knowledge);
void load_claims(sqlite3* database, knowledge::Knowledge& knowledge);

}  // namespace loomkey::catalogue
