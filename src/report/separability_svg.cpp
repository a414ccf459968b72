#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/format.h>

#include "base/text.h"
#include "report/separability_document.h"

namespace loomkey::report {

using bench::Equipment;
using bench::PairSeparation;
using bench::Separability;
using knowledge::Knowledge;

namespace {

constexpr int cell = 24;
constexpr int label_gap = 6;
constexpr double letter_width = 6.3;  // of the labels, about
constexpr int margin = 16;
constexpr int heading = 68;
constexpr std::size_t longest_label = 34;

// From hard to easy. Lightness alone tells the steps apart, so neither grey print nor colour-blindness hides them; the
// writing on each step keeps a contrast of 4.5 to 1 or more.
struct Step {
  double below;
  std::string_view fill;
  std::string_view ink;
  std::string_view words;
};
constexpr std::array<Step, 6> steps = {{{5.0, "#0b2545", "#ffffff", "below 5"},
                                        {10.0, "#1f5480", "#ffffff", "5 to 10"},
                                        {20.0, "#5d97c2", "#000000", "10 to 20"},
                                        {40.0, "#a9cbe2", "#000000", "20 to 40"},
                                        {80.0, "#dce9f3", "#000000", "40 to 80"},
                                        {1e300, "#f6f9fc", "#000000", "80 and more"}}};

const Step& step_of(double decibans) {
  for (const Step& step : steps) {
    if (decibans < step.below) return step;
  }
  return steps.back();
}

// XML text and attribute values. Control characters have no place in XML at all.
std::string xml(std::string_view text) {
  std::string out;
  for (const char c : printable(text)) {
    if (c == '&') {
      out += "&amp;";
    } else if (c == '<') {
      out += "&lt;";
    } else if (c == '>') {
      out += "&gt;";
    } else if (c == '"') {
      out += "&quot;";
    } else {
      out += c;
    }
  }
  return out;
}

std::string text_at(int x, int y, std::string_view attributes, std::string_view words) {
  return fmt::format("<text x=\"{}\" y=\"{}\" {}>{}</text>\n", x, y, attributes, xml(words));
}

std::string label(const knowledge::Family& family) {
  // Code points, not bytes, are cut.
  if (display_width(family.name) <= longest_label) return family.name;
  return family.id;
}

class Picture {
 public:
  Picture(const Knowledge& knowledge, const Separability& found) : knowledge_(&knowledge), found_(&found) {
    std::size_t longest = 0;
    for (const auto& family : knowledge.families) longest = std::max(longest, display_width(label(family)));
    left_ = margin + static_cast<int>(static_cast<double>(longest) * letter_width) + label_gap;
    side_ = static_cast<int>(knowledge.families.size()) * cell;
  }

  [[nodiscard]] std::string draw() const {
    const int width = std::max(left_ + side_ + margin, smallest_width);
    const int height = heading + side_ + left_ + margin;
    std::string out = fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1}\" viewBox=\"0 0 {0} {1}\" role=\"img\" "
        "aria-labelledby=\"title desc\" font-family=\"sans-serif\" font-size=\"12\" fill=\"#1a1a1a\">\n",
        width, height);
    out += "<title id=\"title\">" + xml(title) + "</title>\n<desc id=\"desc\">" + xml(description()) + "</desc>\n";
    // Its own paper: the picture looks the same on a light page and on a dark one.
    out +=
        fmt::format("<rect width=\"{}\" height=\"{}\" rx=\"8\" fill=\"#ffffff\" stroke=\"#8a8a8a\"/>\n", width, height);
    out += text_at(margin, margin + 14, "font-size=\"17\" font-weight=\"bold\"", title);
    out += text_at(margin, margin + 34, "",
                   "Each cell: the two parts, one of each family, that look, ruler and meter together separate least. "
                   "Ten decibans: "
                   "ten times likelier.");
    for (int row = 0; row < families(); ++row) {
      for (int column = 0; column <= row; ++column) out += square(row, column);
    }
    return out + labels() + legend() + "</svg>\n";
  }

 private:
  static constexpr std::string_view title = "How well families of parts can be told apart";
  static constexpr int smallest_width = 640;
  static constexpr int most_described = 12;

  [[nodiscard]] int families() const { return static_cast<int>(knowledge_->families.size()); }
  [[nodiscard]] const knowledge::Family& family(int index) const {
    return knowledge_->families[static_cast<std::size_t>(index)];
  }
  [[nodiscard]] const PairSeparation& hardest(int row, int column) const {
    return found_->families[bench::family_pair(row, column)];
  }

  [[nodiscard]] std::string words(const PairSeparation& pair) const {
    const auto& parts = knowledge_->parts;
    return fmt::format("{} and {}, {:.1f} decibans", parts[static_cast<std::size_t>(pair.part_a)].id,
                       parts[static_cast<std::size_t>(pair.part_b)].id, pair.with(Equipment::meter));
  }

  [[nodiscard]] bool notable(const PairSeparation& pair) const {
    return pair.with(Equipment::meter) < found_->options.together_below;
  }

  [[nodiscard]] std::string description() const {
    std::string out = fmt::format(
        "Heat map of {} families of parts. The darker a cell, the harder the hardest pair of parts of the two families "
        "is to tell apart; figures are expected decibans of all traits together, shown below {:.0f}.",
        families(), found_->options.together_below);
    std::vector<const PairSeparation*> hard;
    for (const PairSeparation& pair : found_->families) {
      if (pair.part_a >= 0 && notable(pair)) hard.push_back(&pair);
    }
    if (hard.empty()) return out + " No cell is below it.";
    std::sort(hard.begin(), hard.end(), [](const PairSeparation* a, const PairSeparation* b) {
      return a->with(Equipment::meter) < b->with(Equipment::meter);
    });
    out += fmt::format(" {} cells are. The hardest: ", hard.size());
    std::vector<std::string> named;
    for (const PairSeparation* pair : hard) {
      if (static_cast<int>(named.size()) < most_described) named.push_back(words(*pair));
    }
    return out + join(named, "; ") + ".";
  }

  [[nodiscard]] std::string square(int row, int column) const {
    const PairSeparation& pair = hardest(row, column);
    const int x = left_ + column * cell;
    const int y = heading + row * cell;
    const std::string both =
        row == column ? "within " + family(row).name : family(row).name + " and " + family(column).name;
    if (pair.part_a < 0) {
      return fmt::format("<g><title>{}: no two parts that need different advice</title>", xml(both)) +
             fmt::format(
                 "<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{2}\" fill=\"#ffffff\" stroke=\"#bbbbbb\"/>"
                 "<path d=\"M{3} {4}h8\" stroke=\"#777777\"/></g>\n",
                 x, y, cell - 1, x + cell / 2 - 4, y + cell / 2);
    }
    const Step& step = step_of(pair.with(Equipment::meter));
    std::string out =
        fmt::format("<g><title>{}: {}</title>", xml(both), xml(words(pair))) +
        fmt::format("<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{2}\" fill=\"{3}\"/>", x, y, cell - 1, step.fill);
    if (notable(pair)) {
      out += fmt::format("<text x=\"{}\" y=\"{}\" font-size=\"11\" text-anchor=\"middle\" fill=\"{}\">{:.0f}</text>",
                         x + (cell - 1) / 2, y + cell / 2 + 4, step.ink, pair.with(Equipment::meter));
    }
    return out + "</g>\n";
  }

  [[nodiscard]] std::string labels() const {
    std::string out;
    for (int i = 0; i < families(); ++i) {
      const int middle = i * cell + cell / 2 + 4;
      out += text_at(left_ - label_gap, heading + middle, "text-anchor=\"end\"", label(family(i)));
      const int x = left_ + middle;
      const int y = heading + side_ + label_gap;
      out += text_at(x, y, fmt::format("text-anchor=\"end\" transform=\"rotate(-90 {} {})\"", x, y), label(family(i)));
    }
    return out;
  }

  // In the empty half above the diagonal.
  [[nodiscard]] std::string legend() const {
    constexpr int box_width = 150;
    const int x = std::max(left_ + side_ - box_width, left_ + box_width);
    int y = heading;
    std::string out = text_at(x, y + 10, "font-weight=\"bold\"", "decibans");
    for (const Step& step : steps) {
      y += cell;
      out += fmt::format(
          "<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{3}\" fill=\"{4}\" stroke=\"#8a8a8a\" "
          "stroke-width=\"0.5\"/>\n",
          x, y, cell - 1, cell - 1, step.fill);
      out += text_at(x + cell + label_gap, y + cell / 2 + 4, "", step.words);
    }
    y += cell;
    out += fmt::format(
        "<rect x=\"{0}\" y=\"{1}\" width=\"{2}\" height=\"{2}\" fill=\"#ffffff\" stroke=\"#bbbbbb\"/>"
        "<path d=\"M{3} {4}h8\" stroke=\"#777777\"/>\n",
        x, y, cell - 1, x + cell / 2 - 4, y + cell / 2);
    return out + text_at(x + cell + label_gap, y + cell / 2 + 4, "", "no such pair");
  }

  const Knowledge* knowledge_;
  const Separability* found_;
  int left_ = 0;
  int side_ = 0;
};

}  // namespace

std::string separability_svg(const Knowledge& knowledge, const Separability& found) {
  return Picture(knowledge, found).draw();
}

}  // namespace loomkey::report
