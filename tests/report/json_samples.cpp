#include <iostream>

#include "report/finding_json.h"
#include "support/report_cases.h"

// Prints one finding as JSON a line, of every status and with hostile texts, for schema_test.py to judge.
int main() {
  using namespace loomkey;
  std::vector<support::ReportCase> cases = support::cases_of_every_kind();
  cases.push_back(support::spoilt_case());
  for (const support::ReportCase& given : cases) {
    std::string text = report::finding_json(*given.knowledge, given.find, given.finding, {"a note"});
    // No string in it holds a line break: JSON escapes them.
    std::erase(text, '\n');
    std::cout << text << '\n';
  }
  return 0;
}
