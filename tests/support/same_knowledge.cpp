#include "support/same_knowledge.h"

#include <algorithm>
#include <tuple>
#include <utility>

namespace loomkey::support {
namespace {

using namespace knowledge;

class Comparison {
 public:
  template <typename T>
  void value(const std::string& path, const T& a, const T& b) {
    if (!(a == b)) found_.push_back(path);
  }

  template <typename T, typename Each>
  void list(const std::string& path, const std::vector<T>& a, const std::vector<T>& b, Each each) {
    if (a.size() != b.size()) found_.push_back(path + ".size");
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i)
      each(path + "[" + std::to_string(i) + "]", a[i], b[i]);
  }

  void trait(const std::string& at, const Trait& a, const Trait& b) {
    value(at + ".id", a.id, b.id);
    value(at + ".name", a.name, b.name);
    value(at + ".ask", a.ask, b.ask);
    value(at + ".how", a.how, b.how);
    value(at + ".kind", a.kind, b.kind);
    value(at + ".layer", a.layer, b.layer);
    value(at + ".effort", a.effort, b.effort);
    value(at + ".group", a.group, b.group);
    value(at + ".hazard", a.hazard, b.hazard);
    value(at + ".runs", a.runs, b.runs);
    list(at + ".states", a.states, b.states, [&](const std::string& p, const State& x, const State& y) {
      value(p + ".id", x.id, y.id);
      value(p + ".name", x.name, y.name);
    });
    value(at + ".seen", a.seen, b.seen);
    value(at + ".unit", a.unit, b.unit);
    value(at + ".log_scale", a.log_scale, b.log_scale);
    value(at + ".low", a.low, b.low);
    value(at + ".high", a.high, b.high);
    value(at + ".soft", a.soft, b.soft);
    value(at + ".relative_error", a.relative_error, b.relative_error);
    value(at + ".absolute_error", a.absolute_error, b.absolute_error);
    value(at + ".allows", a.allows, b.allows);
    value(at + ".low_ohm", a.low_ohm, b.low_ohm);
    value(at + ".items", a.items, b.items);
    value(at + ".none_name", a.none_name, b.none_name);
    value(at + ".asked_with", a.asked_with, b.asked_with);
    value(at + ".unless_stated", a.unless_stated, b.unless_stated);
  }

  void advice(const std::string& at, const Advice& a, const Advice& b) {
    value(at + ".id", a.id, b.id);
    value(at + ".title", a.title, b.title);
    value(at + ".function", a.function, b.function);
    value(at + ".needed", a.needed, b.needed);
    value(at + ".price", a.price, b.price);
    value(at + ".harmless_if", a.harmless_if, b.harmless_if);
    value(at + ".cautions", a.cautions, b.cautions);
    value(at + ".basis", a.basis, b.basis);
    list(at + ".substitutes", a.substitutes, b.substitutes,
         [&](const std::string& p, const Substitute& x, const Substitute& y) {
           value(p + ".what", x.what, y.what);
           value(p + ".when", x.when, y.when);
           value(p + ".not_when", x.not_when, y.not_when);
           value(p + ".connect", x.connect, y.connect);
           value(p + ".connect_positive", x.connect_positive, y.connect_positive);
           value(p + ".connect_negative", x.connect_negative, y.connect_negative);
           value(p + ".basis", x.basis, y.basis);
         });
  }

  void condition(const std::string& at, const Condition& a, const Condition& b) {
    value(at + ".kind", a.kind, b.kind);
    value(at + ".id", a.id, b.id);
    value(at + ".name", a.name, b.name);
    value(at + ".sees", a.sees, b.sees);
    value(at + ".share", a.share, b.share);
    value(at + ".symptoms", a.symptoms, b.symptoms);
    value(at + ".claims", a.claims, b.claims);
  }

  void part(const std::string& at, const Part& a, const Part& b) {
    value(at + ".id", a.id, b.id);
    value(at + ".name", a.name, b.name);
    value(at + ".family", a.family, b.family);
    value(at + ".advice", a.advice, b.advice);
    value(at + ".aliases", a.aliases, b.aliases);
    value(at + ".foreign", a.foreign, b.foreign);
    value(at + ".called", a.called, b.called);
    value(at + ".first_year", a.first_year, b.first_year);
    value(at + ".last_year", a.last_year, b.last_year);
    value(at + ".retrofit", a.retrofit, b.retrofit);
    value(at + ".brought_in", a.brought_in, b.brought_in);
    value(at + ".origins", a.origins, b.origins);
    value(at + ".markets", a.markets, b.markets);
    value(at + ".volts", a.volts, b.volts);
    value(at + ".cylinders", a.cylinders, b.cylinders);
    value(at + ".where", a.where, b.where);
    value(at + ".strays", a.strays, b.strays);
    value(at + ".redundant_when", a.redundant_when, b.redundant_when);
    value(at + ".note", a.note, b.note);
    value(at + ".basis", a.basis, b.basis);
    value(at + ".successors", a.successors, b.successors);
    value(at + ".verify", a.verify, b.verify);
    value(at + ".claims", a.claims, b.claims);
    list(at + ".works_with", a.works_with, b.works_with, [&](const std::string& p, const Partner& x, const Partner& y) {
      value(p + ".part", x.part, y.part);
      value(p + ".family", x.family, y.family);
    });
    list(at + ".conditions", a.conditions, b.conditions,
         [&](const std::string& p, const Condition& x, const Condition& y) { condition(p, x, y); });
    list(at + ".look_alikes", a.look_alikes, b.look_alikes,
         [&](const std::string& p, const LookAlike& x, const LookAlike& y) {
           value(p + ".part", x.part, y.part);
           value(p + ".tell", x.tell, y.tell);
           value(p + ".trait", x.trait, y.trait);
         });
    list(at + ".checks", a.checks, b.checks, [&](const std::string& p, const MeterCheck& x, const MeterCheck& y) {
      value(p + ".how", x.how, y.how);
      value(p + ".good", x.good, y.good);
      value(p + ".bad", x.bad, y.bad);
      value(p + ".caveat", x.caveat, y.caveat);
      value(p + ".basis", x.basis, y.basis);
    });
  }

  void vocabulary(const Knowledge& a, const Knowledge& b) {
    value("tracer_lost", a.tracer_lost, b.tracer_lost);
    value("dark_chance", a.dark_chance, b.dark_chance);
    list("efforts", a.efforts, b.efforts, [&](const std::string& p, const Effort& x, const Effort& y) {
      value(p, std::tie(x.id, x.name, x.cost, x.tool), std::tie(y.id, y.name, y.cost, y.tool));
    });
    list("tools", a.tools, b.tools, [&](const std::string& p, const Tool& x, const Tool& y) {
      value(p, std::tie(x.id, x.name, x.fetch), std::tie(y.id, y.name, y.fetch));
    });
    list("groups", a.groups, b.groups, [&](const std::string& p, const Group& x, const Group& y) {
      value(p, std::tie(x.id, x.name, x.switched, x.overlap), std::tie(y.id, y.name, y.switched, y.overlap));
    });
    list("colours", a.colours, b.colours, [&](const std::string& p, const Colour& x, const Colour& y) {
      value(p, std::tie(x.id, x.becomes), std::tie(y.id, y.becomes));
    });
    list("familiar", a.familiar, b.familiar, [&](const std::string& p, const FamiliarThing& x, const FamiliarThing& y) {
      value(p, std::tie(x.id, x.names, x.size, x.spread), std::tie(y.id, y.names, y.size, y.spread));
    });
    list("symptoms", a.symptoms, b.symptoms, [&](const std::string& p, const Symptom& x, const Symptom& y) {
      value(p, std::tie(x.id, x.name), std::tie(y.id, y.name));
    });
    list("bases", a.bases, b.bases, [&](const std::string& p, const Basis& x, const Basis& y) {
      value(p, std::tie(x.id, x.kind, x.text), std::tie(y.id, y.kind, y.text));
    });
    list("cautions", a.cautions, b.cautions, [&](const std::string& p, const Caution& x, const Caution& y) {
      value(p, std::tie(x.id, x.order, x.hazard, x.text), std::tie(y.id, y.order, y.hazard, y.text));
    });
    list("families", a.families, b.families, [&](const std::string& p, const Family& x, const Family& y) {
      value(p, std::tie(x.id, x.name, x.does, x.claims), std::tie(y.id, y.name, y.does, y.claims));
    });
  }

  std::vector<std::string> take() { return std::move(found_); }

 private:
  std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> differences(const Knowledge& a, const Knowledge& b) {
  Comparison comparison;
  comparison.vocabulary(a, b);
  comparison.list("traits", a.traits, b.traits,
                  [&](const std::string& p, const Trait& x, const Trait& y) { comparison.trait(p, x, y); });
  comparison.list("advice", a.advice, b.advice,
                  [&](const std::string& p, const Advice& x, const Advice& y) { comparison.advice(p, x, y); });
  comparison.list("parts", a.parts, b.parts,
                  [&](const std::string& p, const Part& x, const Part& y) { comparison.part(p, x, y); });
  comparison.list("confusions", a.confusions, b.confusions,
                  [&](const std::string& p, const ConfusionSet& x, const ConfusionSet& y) {
                    comparison.value(p, std::tie(x.id, x.name, x.parts, x.traits, x.tell, x.twins),
                                     std::tie(y.id, y.name, y.parts, y.traits, y.tell, y.twins));
                  });
  return comparison.take();
}

}  // namespace loomkey::support
