#include "bench/workbench.h"

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"

namespace loomkey::bench {

Result<Workbench> Workbench::open(const std::filesystem::path& catalogue_path,
                                  const std::optional<std::filesystem::path>& overlay) {
  auto opened = catalogue::open_catalogue(catalogue_path);
  if (!opened) return tl::unexpected(opened.error());
  std::string shipped_hash = opened->knowledge()->hash;
  std::optional<catalogue::OverlayReport> report;
  if (overlay) {
    catalogue::Overlaid overlaid = catalogue::apply_overlay(*opened->knowledge(), *overlay);
    report = std::move(overlaid.report);
    opened = std::move(*opened).with(std::move(overlaid.knowledge));
  }
  Workbench bench = over(opened->knowledge());
  bench.catalogue_ = std::make_shared<const catalogue::Catalogue>(std::move(*opened));
  bench.overlay_ = std::move(report);
  bench.shipped_hash_ = std::move(shipped_hash);
  return bench;
}

Workbench Workbench::over(std::shared_ptr<const knowledge::Knowledge> knowledge) {
  Workbench bench;
  bench.model_ = std::make_shared<const inference::Model>(std::move(knowledge));
  return bench;
}

Result<int> Workbench::part(std::string_view words) const {
  const std::string wanted = to_lower(trim(words));
  const auto& parts = knowledge().parts;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    if (parts[p].id == wanted) return static_cast<int>(p);
  }
  std::vector<int> named;
  for (std::size_t p = 0; p < parts.size(); ++p) {
    const bool alias = std::any_of(parts[p].aliases.begin(), parts[p].aliases.end(),
                                   [&](const std::string& a) { return to_lower(a) == wanted; });
    if (alias || to_lower(parts[p].name) == wanted) named.push_back(static_cast<int>(p));
  }
  if (named.size() == 1) return named.front();
  std::vector<std::string> ids;
  for (const auto& part : parts) ids.push_back(part.id);
  if (named.size() > 1) {
    std::vector<std::string> choices;
    for (const int p : named) choices.push_back(ids[static_cast<std::size_t>(p)]);
    return fail(ErrorKind::input, "'" + printable(words) + "' names several parts: " + join(choices, ", "));
  }
  return fail(ErrorKind::input, "no part is called '" + printable(words) + "'." + did_you_mean(wanted, ids) +
                                    " 'loomkey parts list' shows all.");
}

std::vector<int> Workbench::search(std::string_view words, std::size_t limit) const {
  std::vector<int> found;
  if (!catalogue_) return found;
  for (const auto& hit : catalogue_->search(words, limit)) found.push_back(hit.part);
  return found;
}

}  // namespace loomkey::bench
