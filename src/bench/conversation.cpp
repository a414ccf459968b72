#include "bench/conversation.h"

#include <algorithm>

#include "evidence/parse_value.h"
#include "evidence/readings_file.h"

namespace loomkey::bench {

using evidence::Certainty;
using evidence::Reading;
using evidence::Value;

Conversation::Conversation(std::shared_ptr<const inference::Model> model, evidence::Case start)
    : model_(std::move(model)), case_(std::move(start)) {
  recompute();
}

void Conversation::recompute() { finding_ = identify(*model_, case_); }

const inference::Question* Conversation::question() const {
  return finding_.questions.empty() ? nullptr : &finding_.questions.front();
}

bool Conversation::finished() const { return question() == nullptr; }

void Conversation::put(Reading reading) {
  // The latest reading stands last, so that `back` takes back what was said last.
  std::erase_if(case_.readings,
                [&](const Reading& r) { return r.trait == reading.trait && r.observer == reading.observer; });
  case_.readings.push_back(std::move(reading));
}

Result<void> Conversation::answer(std::string_view words, Certainty certainty) {
  const inference::Question* asked = question();
  if (asked == nullptr) return fail(ErrorKind::input, "there is no question to answer");
  const int trait = asked->trait;
  auto value = evidence::parse_value(model_->knowledge(), trait, words);
  if (!value) return tl::unexpected(value.error());
  Reading reading;
  reading.trait = trait;
  reading.value = std::move(*value);
  reading.certainty = certainty;
  reading.text = std::string(words);
  put(std::move(reading));
  recompute();
  return {};
}

Result<std::vector<std::string>> Conversation::observe(std::string_view trait, std::string_view words,
                                                       Certainty certainty) {
  auto expanded = evidence::parse_assignment(model_->knowledge(), trait, words);
  if (!expanded) return tl::unexpected(expanded.error());
  for (Reading& reading : expanded->readings) {
    reading.certainty = certainty;
    put(std::move(reading));
  }
  recompute();
  return std::move(expanded->notes);
}

void Conversation::cannot_tell() {
  const inference::Question* asked = question();
  if (asked == nullptr) return;
  Reading reading;
  reading.trait = asked->trait;
  reading.value.kind = Value::Kind::cannot_tell;
  reading.text = "cannot tell";
  put(std::move(reading));
  recompute();
}

bool Conversation::back() {
  if (case_.readings.empty()) return false;
  case_.readings.pop_back();
  recompute();
  return true;
}

bool Conversation::forget(int trait) {
  const auto removed = std::erase_if(case_.readings, [&](const Reading& r) { return r.trait == trait; });
  if (removed > 0) recompute();
  return removed > 0;
}

void Conversation::change_bike(evidence::Bike bike) {
  case_.bike = std::move(bike);
  recompute();
}

}  // namespace loomkey::bench
