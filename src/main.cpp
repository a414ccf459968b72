#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <clocale>
#include <string>
#include <vector>

#include "cli/program.h"

namespace {

// A standard stream that was closed from outside would lend its number to the next file that is opened, and what is
// printed would land there. Opened the wrong way round, it refuses reading or writing as a closed one does.
void hold_standard_streams() {
  for (const int descriptor : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    if (::fcntl(descriptor, F_GETFD) != -1) continue;
    const int held = ::open("/dev/null", descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY);
    if (held != descriptor) ::close(held);
  }
}

loomkey::cli::Variables environment() {
  loomkey::cli::Variables out;
  for (char** entry = environ; entry != nullptr && *entry != nullptr; ++entry) {
    const std::string text = *entry;
    if (const std::size_t equals = text.find('='); equals != std::string::npos) {
      out.emplace(text.substr(0, equals), text.substr(equals + 1));
    }
  }
  return out;
}

}  // namespace

int main(int argc, char** argv) {
  hold_standard_streams();
  // A closed pipe is then an error of writing like others.
  ::signal(SIGPIPE, SIG_IGN);
  // Letters beyond ASCII can be typed; figures stay as they are in the files.
  std::setlocale(LC_CTYPE, "");
  const loomkey::cli::Variables variables = environment();
  const loomkey::cli::Shell shell{variables, loomkey::cli::judge_terminal(loomkey::cli::look_at_streams(), variables)};
  return loomkey::cli::run(std::vector<std::string>(argv + (argc > 0 ? 1 : 0), argv + argc), shell);
}
