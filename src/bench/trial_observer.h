#pragma once

#include <cstdint>

#include "bench/trial_sampler.h"
#include "evidence/reading.h"
#include "inference/model.h"

namespace loomkey::bench {

// Where a person's mistakes come from.
enum class Mistakes {
  own,    // the observer models that the engine itself weighs with, and slips that have nothing to do with each other
  other,  // habits the engine does not know (trial_other_observer.h)
};

// How a simulated person answers.
struct ObserverType {
  // Mistakes::own: chance that an answer given is plainly wrong, on top of the trait's observer model.
  // Mistakes::other: share of the answers given that are wrong, everything included.
  double wrong = 0.0;
  double cannot_tell = 0.0;  // chance that there is no answer
  bool meter = true;         // without one, no trait that needs a meter is read
  bool doubts = false;  // says how sure it is, and most mistakes are made in doubt; otherwise calls everything sure
  WrongAnswers wrong_answers = WrongAnswers::any;
  // Parts as the engine takes them to be: a claim misses by its residual, a whole group was changed by somebody as
  // often as the catalogue says. Off: every object is as its part is written. Mistakes::own only.
  bool altered = false;
  Mistakes mistakes = Mistakes::own;
};

// The object on the bench.
struct TrialObject {
  int part = -1;
  int condition = -1;
};

// Any part by how often it is brought in, or, `by_turns`, each part in its turn; then a condition by its share.
// Only parts of `advice_class`, unless it is -1.
TrialObject draw_object(const knowledge::Knowledge&, std::uint64_t seed, int number, bool by_turns, int advice_class);

// Somebody with one object in hand. The answers do not depend on the order in which they are asked for.
class Person {
 public:
  Person() = default;
  Person(const Person&) = default;
  Person(Person&&) = default;
  Person& operator=(const Person&) = default;
  Person& operator=(Person&&) = default;
  virtual ~Person() = default;

  [[nodiscard]] virtual const TrialObject& object() const = 0;
  // What the catalogue's claims made of the trait, for this one object.
  [[nodiscard]] virtual evidence::Value truth(int trait) const = 0;
  [[nodiscard]] virtual evidence::Reading answer(int trait) const = 0;
};

// One whose mistakes are the engine's own. What the object is, how it is seen and which mistakes are made depends on
// the seed and the trait alone: a mistake persists however often and in whatever order one asks, and two types of
// observer with one seed hold the same object and make the same mistakes, the worse one some more.
class Observer : public Person {
 public:
  Observer(const inference::Model&, const TraitSampler&, const ObserverType&, TrialObject, std::uint64_t seed);

  [[nodiscard]] const TrialObject& object() const override { return object_; }
  [[nodiscard]] evidence::Value truth(int trait) const override;
  [[nodiscard]] evidence::Reading answer(int trait) const override;

 private:
  [[nodiscard]] const knowledge::Claim* claim(int trait) const;

  const inference::Model* model_;
  const TraitSampler* sampler_;
  ObserverType type_;
  TrialObject object_;
  std::uint64_t seed_;
  double lead_ohms_ = 0.0;
};

}  // namespace loomkey::bench
