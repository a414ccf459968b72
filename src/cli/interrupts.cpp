#include "cli/interrupts.h"

#include <poll.h>
#include <signal.h>

#include <array>
#include <cerrno>

namespace loomkey::cli {
namespace {

// A signal handler can reach nothing but static storage.
volatile sig_atomic_t stop_wanted = 0;
volatile sig_atomic_t pause_wanted = 0;
volatile sig_atomic_t size_changed = 0;

void note(int number) {
  if (number == SIGTSTP) {
    pause_wanted = 1;
  } else if (number == SIGWINCH) {
    size_changed = 1;
  } else {
    stop_wanted = 1;
  }
}

constexpr std::array<int, 5> watched = {SIGINT, SIGTERM, SIGHUP, SIGTSTP, SIGWINCH};
std::array<struct sigaction, watched.size()> before{};
sigset_t mask_before;

}  // namespace

// The signals stay blocked except while waiting: one that arrives between the check and the wait is not missed.
Interrupts::Interrupts() {
  stop_wanted = 0;
  pause_wanted = 0;
  size_changed = 0;
  sigset_t blocked;
  sigemptyset(&blocked);
  for (std::size_t i = 0; i < watched.size(); ++i) {
    struct sigaction action {};
    action.sa_handler = note;
    sigaction(watched[i], &action, &before[i]);
    // One that was ignored from outside (nohup) stays ignored.
    if (before[i].sa_handler == SIG_IGN) sigaction(watched[i], &before[i], nullptr);
    sigaddset(&blocked, watched[i]);
  }
  sigprocmask(SIG_BLOCK, &blocked, &mask_before);
}

// In this order a signal that is still waiting is noted, and does not end the program on its last steps.
Interrupts::~Interrupts() {
  sigprocmask(SIG_SETMASK, &mask_before, nullptr);
  for (std::size_t i = 0; i < watched.size(); ++i) sigaction(watched[i], &before[i], nullptr);
}

bool Interrupts::interrupted() const {
  if (stop_wanted != 0) return true;
  sigset_t waiting;
  sigpending(&waiting);
  for (const int number : {SIGINT, SIGTERM, SIGHUP}) {
    if (sigismember(&waiting, number) == 1) return true;
  }
  return false;
}

Interrupts::Event Interrupts::wait_for(int descriptor) const {
  while (true) {
    pollfd source{descriptor, POLLIN, 0};
    const int ready = ppoll(&source, 1, nullptr, &mask_before);
    const int problem = errno;
    // A descriptor that is ready leaves the signal waiting.
    if (interrupted()) return Event::interrupted;
    if (pause_wanted != 0) {
      pause_wanted = 0;
      return Event::suspended;
    }
    if (size_changed != 0) {
      size_changed = 0;
      return Event::resized;
    }
    if (ready > 0 || (ready < 0 && problem != EINTR)) return Event::input;
  }
}

void Interrupts::suspend() const { raise(SIGSTOP); }

}  // namespace loomkey::cli
