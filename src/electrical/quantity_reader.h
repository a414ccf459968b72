#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "electrical/quantity.h"
#include "electrical/quantity_tokens.h"
#include "electrical/units.h"

namespace loomkey::electrical {

// The grammar of a quantity, read by recursive descent over its tokens:
//   quantity = [about] amount [("-" | ".." | "to" | "+-") amount] [about]
//            | [about] ("between" | "from") amount ("and" | "to" | "-") amount
//   amount   = [about] (coded | value [unit ["and" fraction | {smaller unit}]])
//   value    = number | whole fraction | fraction ["of"] ["a"] | number word
class QuantityReader {
 public:
  QuantityReader(std::vector<Token> tokens, Dimension dimension) : tokens_(std::move(tokens)), dimension_(dimension) {}

  Result<Written> read();

 private:
  // One number with its unit: "2 1/2 in", "4k7", "1 lb 4 oz".
  struct Amount {
    double value = 0.0;
    const Unit* unit = nullptr;
    bool fraction = false;
    bool decimals = false;
  };
  using Problem = std::optional<Error>;

  [[nodiscard]] const Token& peek(std::size_t ahead = 0) const;
  [[nodiscard]] std::string rest() const;
  bool take_word(std::string_view word);
  bool take_sign(std::string_view sign);
  bool take_range_sign();
  void take_about();
  void take_ish();
  bool take_end();

  Result<Amount> amount();
  bool take_coded_value(Amount& found);
  std::optional<double> take_fraction();
  Problem take_value(Amount& found);
  void take_mixed(Amount& found);
  [[nodiscard]] Error no_number() const;
  Problem take_unit(Amount& found);
  void take_trailing_fraction(Amount& found);
  Problem take_smaller_units(Amount& found);
  [[nodiscard]] Result<Written> combine(Amount first, std::optional<Amount> last, bool tolerance) const;

  std::vector<Token> tokens_;
  Dimension dimension_;
  std::size_t at_ = 0;
  bool approximate_ = false;
  bool between_ = false;  // "and" joins the two ends of a range
};

}  // namespace loomkey::electrical
