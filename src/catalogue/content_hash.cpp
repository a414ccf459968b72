#include "catalogue/content_hash.h"

#include <array>
#include <bit>
#include <cstdint>
#include <optional>
#include <stdexcept>
#include <type_traits>
#include <utility>

#include <openssl/evp.h>

namespace loomkey::catalogue {
namespace {

using namespace knowledge;

// Appends values to the canonical form. Any change here makes every built catalogue unreadable: raise the user_version.
class Canonical {
 public:
  template <typename... Fields>
  void put(const Fields&... fields) {
    (one(fields), ...);
  }
  [[nodiscard]] const std::string& bytes() const { return bytes_; }

 private:
  void word(std::uint64_t value) {
    for (int i = 0; i < 8; ++i) bytes_ += static_cast<char>((value >> (8 * i)) & 0xFFU);
  }

  template <typename Number>
  requires(std::is_integral_v<Number> || std::is_enum_v<Number>) void one(Number value) {
    word(static_cast<std::uint64_t>(static_cast<std::int64_t>(value)));
  }
  // Adding zero turns -0.0 into 0.0, as SQLite does.
  void one(double value) { word(std::bit_cast<std::uint64_t>(value + 0.0)); }
  void one(const std::string& text) {
    word(text.size());
    bytes_ += text;
  }
  template <typename T>
  void one(const std::vector<T>& list) {
    word(list.size());
    for (const auto& item : list) one(item);
  }
  template <typename T, std::size_t n>
  void one(const std::array<T, n>& list) {
    for (const auto& item : list) one(item);
  }
  template <typename A, typename B>
  void one(const std::pair<A, B>& both) {
    put(both.first, both.second);
  }
  template <typename T>
  void one(const std::optional<T>& value) {
    one(value.has_value());
    if (value) one(*value);
  }

  void one(const Range& r) { put(r.low, r.high, r.share); }
  void one(const Alternative& a) { put(a.items, a.share); }
  void one(const Claim& c) { put(c.trait, c.states, c.ranges, c.special, c.sets, c.verify, c.basis); }
  void one(const State& s) { put(s.id, s.name); }
  void one(const Effort& e) { put(e.id, e.name, e.cost, e.tool); }
  void one(const Tool& t) { put(t.id, t.name, t.fetch); }
  void one(const Group& g) { put(g.id, g.name, g.switched, g.overlap); }
  void one(const Trait& t) {
    put(t.id, t.name, t.ask, t.how, t.kind, t.layer, t.effort, t.group, t.hazard, t.runs, t.states, t.seen, t.unit,
        t.log_scale, t.low, t.high, t.soft, t.relative_error, t.absolute_error, t.allows, t.low_ohm, t.items,
        t.none_name, t.asked_with, t.unless_stated);
  }
  void one(const Condition& c) { put(c.kind, c.id, c.name, c.sees, c.share, c.symptoms, c.claims); }
  void one(const LookAlike& l) { put(l.part, l.tell, l.trait); }
  void one(const MeterCheck& c) { put(c.how, c.good, c.bad, c.caveat, c.basis); }
  void one(const Partner& p) { put(p.part, p.family); }
  void one(const Family& f) { put(f.id, f.name, f.does, f.claims); }
  void one(const Part& p) {
    put(p.id, p.name, p.family, p.advice, p.aliases, p.foreign, p.called, p.first_year, p.last_year, p.retrofit,
        p.brought_in, p.origins, p.markets, p.volts, p.cylinders, p.where, p.strays, p.works_with, p.redundant_when,
        p.note, p.basis, p.successors, p.verify, p.claims, p.conditions, p.look_alikes, p.checks);
  }
  void one(const Substitute& s) {
    put(s.what, s.when, s.not_when, s.connect, s.connect_positive, s.connect_negative, s.basis);
  }
  void one(const Advice& a) {
    put(a.id, a.title, a.function, a.needed, a.price, a.harmless_if, a.cautions, a.substitutes, a.basis);
  }
  void one(const ConfusionSet& c) { put(c.id, c.name, c.parts, c.traits, c.tell, c.twins); }
  void one(const Caution& c) { put(c.id, c.order, c.hazard, c.text); }
  void one(const Basis& b) { put(b.id, b.kind, b.text); }
  void one(const Symptom& s) { put(s.id, s.name); }
  void one(const Colour& c) { put(c.id, c.becomes); }
  void one(const FamiliarThing& t) { put(t.id, t.names, t.size, t.spread); }

  std::string bytes_;
};

}  // namespace

std::string sha256(std::string_view bytes) {
  std::array<unsigned char, EVP_MAX_MD_SIZE> digest{};
  unsigned int length = 0;
  if (EVP_Digest(bytes.data(), bytes.size(), digest.data(), &length, EVP_sha256(), nullptr) != 1) {
    throw std::runtime_error("SHA-256 is not available");
  }
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (unsigned int i = 0; i < length; ++i) {
    text += digits[digest[i] >> 4U];
    text += digits[digest[i] & 15U];
  }
  return text;
}

std::string content_hash(const Knowledge& k) {
  Canonical canonical;
  canonical.put(k.efforts, k.tools, k.groups, k.traits, k.colours, k.tracer_lost, k.dark_chance, k.familiar, k.symptoms,
                k.bases, k.cautions, k.advice, k.families, k.parts, k.confusions);
  return sha256(canonical.bytes());
}

}  // namespace loomkey::catalogue
