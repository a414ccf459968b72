#pragma once

#include <cstdint>
#include <vector>

#include "bench/trial_altered_bike.h"
#include "bench/trial_observer.h"
#include "bench/trial_other_eyes.h"

// People whose mistakes the engine does not expect, so that a trial is not the engine marking its own homework. What an
// object is still comes from the catalogue's claims. How it is seen does not come from the engine's observer models:
// no `seen` table, no error of measurement, no item model, no group. The habits are those of trial_other_habits.h.

namespace loomkey::bench {

// All such people of one share of wrong answers. Constant once made; threads share it.
//
// An answer is wrong if TraitSampler's rule says that it is not what the catalogue drew for the object: whatever came
// in between, a rewired bike, a bent ruler or a slip. Habits make some of the wrong answers; slips fill up, trait by
// trait, until the wanted share is reached. How often a slip is due for that is found by drawing objects beforehand.
class OtherPeople {
 public:
  // `wrong`: the share of the answers given that are to be wrong, over all objects and traits.
  OtherPeople(const inference::Model&, const TraitSampler&, double wrong);

  [[nodiscard]] const inference::Model& model() const { return *model_; }
  [[nodiscard]] const TraitSampler& sampler() const { return *sampler_; }
  [[nodiscard]] double wrong() const { return wrong_; }

  // Chance that a person of middling care slips at this trait.
  [[nodiscard]] double slip_chance(int trait) const { return slip_chance_[static_cast<std::size_t>(trait)]; }

  // Part that the careless may take this one for; -1 if it is the only one.
  [[nodiscard]] int part_in_mind(int part, Chance&) const;

 private:
  const inference::Model* model_;
  const TraitSampler* sampler_;
  double wrong_;
  std::vector<double> slip_chance_;
};

// One of them, with one object in hand. As with Observer, everything depends on the seed and the trait alone, the
// object is the one that Observer would hold.
class OtherObserver : public Person {
 public:
  OtherObserver(const OtherPeople&, const ObserverType&, TrialObject, std::uint64_t seed);

  [[nodiscard]] const TrialObject& object() const override { return holder_.object(); }
  [[nodiscard]] evidence::Value truth(int trait) const override { return holder_.truth(trait); }
  [[nodiscard]] evidence::Reading answer(int trait) const override;

  // What the eyes make of the object as it was found, before any slip.
  [[nodiscard]] evidence::Value without_slip(int trait) const;
  // What would be said in a slip; it may be right by chance where it comes from the part in mind, and where the
  // catalogue says nothing of that part it is what the eyes see.
  [[nodiscard]] evidence::Value in_a_slip(int trait) const;
  // A slip happens if the trait's slip chance is above this.
  [[nodiscard]] double slips_from(int trait) const;
  // The part held in mind, or -1.
  [[nodiscard]] int in_mind() const { return in_mind_; }

 private:
  [[nodiscard]] bool has_leads() const;

  const OtherPeople* people_;
  ObserverType type_;
  std::uint64_t seed_;
  Observer holder_;
  AlteredBike bike_;
  OtherEyes eyes_;
  double carefulness_ = 1.0;
  int in_mind_ = -1;
};

}  // namespace loomkey::bench
