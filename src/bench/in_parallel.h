#pragma once

#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace loomkey::bench {

// Runs work(0) .. work(count - 1), each once; every result must go to a place of its own.
template <typename Work>
void in_parallel(std::size_t count, unsigned threads, const Work& work) {
  std::atomic<std::size_t> next = 0;
  const auto run = [&] {
    for (std::size_t i = next++; i < count; i = next++) work(i);
  };
  std::vector<std::jthread> others;
  for (unsigned i = 1; i < threads; ++i) others.emplace_back(run);
  run();
}

}  // namespace loomkey::bench
