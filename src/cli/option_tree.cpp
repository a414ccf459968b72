#include "cli/option_tree.h"

#include <CLI/CLI.hpp>

namespace loomkey::cli {
namespace {

constexpr std::size_t most_shown = 50;
constexpr int most_cases = 1000000;
constexpr int most_decibans = 100000;

void runs(CLI::App* app, CommandLine& out, Command command) {
  app->callback([&out, command] { out.command = command; });
}

// Each use takes one value, so that what follows is never swallowed.
CLI::Option* repeatable(CLI::App* app, const std::string& name, std::vector<std::string>& into,
                        const std::string& value, const std::string& help) {
  return app->add_option(name, into, help)->type_name(value)->allow_extra_args(false);
}

CLI::Option* value(CLI::App* app, const std::string& name, std::string& into, const std::string& type,
                   const std::string& help) {
  return app->add_option(name, into, help)->type_name(type);
}

void flag(CLI::App* app, const std::string& name, bool& into, const std::string& help) {
  app->add_flag(name, into, help)->disable_flag_override();
}

void json_flag(CLI::App* app, CommandLine& out) { flag(app, "--json", out.json, "Write JSON instead of text"); }

void case_sources(CLI::App* app, CaseSources& sources) {
  repeatable(app, "--readings", sources.files, "FILE", "Take the readings of a file; - is standard input");
  repeatable(app, "--reading", sources.readings, "TRAIT=VALUE",
             "One reading, as in 'form=can' or 'mass=about 70 g (think so)'");
  repeatable(app, "--bike", sources.bike, "KEY=VALUE",
             "What is known of the bike, as in 'decade=1960' or 'earth_measured=positive'");
  value(app, "--guess", sources.guessed_name, "NAME", "What somebody takes the part to be");
  app->add_option("--tools", sources.tools, "Tools at hand, as in 'ruler, meter'; 'none' for none")->type_name("LIST");
  flag(app, "--meter-leads-zeroed", sources.leads_zeroed, "The ohms of the meter's own leads were taken off");
  value(app, "--sure", sources.certainty, "LEVEL", "How sure each --reading is that does not say so itself")
      ->check(CLI::IsMember({"sure", "think-so", "guess"}));
}

void add_identify(CLI::App& root, CommandLine& out) {
  CLI::App* app = root.add_subcommand("identify",
                                      "Find out what a part is: at a terminal by questions and answers, "
                                      "otherwise from readings that are given");
  runs(app, out, Command::identify);
  IdentifyOptions& identify = out.identify;
  case_sources(app, identify.sources);
  json_flag(app, out);
  value(app, "--save", identify.save, "FILE", "Keep the readings in a file");
  flag(app, "--force", identify.force, "Let --save write over a file that holds no readings");
  app->add_option("--resume", identify.resume_file, "Go on with a saved conversation; without FILE with the last one")
      ->type_name("FILE")
      ->expected(0, 1);
  flag(app, "--conversation", identify.conversation, "Ask, even without a terminal");
  flag(app, "--no-conversation", identify.one_shot, "Never ask");
  app->get_option("--no-conversation")->excludes("--conversation");
  app->add_option("--questions", identify.questions, "Show so many of the next best questions")
      ->type_name("N")
      ->check(CLI::Range(std::size_t{0}, most_shown));
  app->add_option("--candidates", identify.candidates, "Show so many candidates")
      ->type_name("N")
      ->check(CLI::Range(std::size_t{1}, most_shown));
  flag(app, "--exit-zero", identify.exit_zero, "Exit with 0 whatever the verdict");
}

void add_parts(CLI::App& root, CommandLine& out) {
  CLI::App* parts = root.add_subcommand("parts", "Look into the catalogue: list, search, show; alone, the list");
  parts->require_subcommand(0, 1);
  // Runs before the callback of a subcommand, which then has the last word.
  parts->preparse_callback([&out](std::size_t) { out.command = Command::parts_list; });

  CLI::App* list = parts->add_subcommand("list", "All parts, by family");
  runs(list, out, Command::parts_list);
  value(list, "--family", out.family, "FAMILY", "Only the parts of one family");
  json_flag(list, out);

  CLI::App* search = parts->add_subcommand("search", "Parts whose names, trade names or function hold the words");
  runs(search, out, Command::parts_search);
  search->add_option("WORDS", out.words, "What to look for")->type_name("")->required();
  json_flag(search, out);

  CLI::App* show = parts->add_subcommand("show", "Everything the catalogue says about one part");
  runs(show, out, Command::parts_show);
  show->add_option("PART", out.words, "Its id or name")->type_name("")->required()->expected(1);
  json_flag(show, out);
}

void add_questions_to_the_catalogue(CLI::App& root, CommandLine& out) {
  CLI::App* compare = root.add_subcommand("compare", "What separates two or three parts, the best observation first");
  runs(compare, out, Command::compare);
  for (const char* name : {"A", "B", "C"}) {
    compare->add_option_function<std::string>(name, [&out](const std::string& word) { out.words.push_back(word); })
        ->description(*name == 'C' ? "And a third one" : "A part, by id or name")
        ->type_name("")
        ->required(*name != 'C');
  }
  json_flag(compare, out);

  CLI::App* traits = root.add_subcommand("traits", "What can be read from a part, and how: all traits, or one");
  runs(traits, out, Command::traits);
  traits->add_option("TRAIT", out.words, "Its id")->type_name("")->expected(1);
  json_flag(traits, out);

  CLI::App* why = root.add_subcommand("why", "How far each reading speaks for or against one part");
  runs(why, out, Command::why);
  why->add_option("PART", out.words, "Its id or name")->type_name("")->required()->expected(1);
  case_sources(why, out.why);
}

void add_trial(CLI::App* catalogue, CommandLine& out) {
  CLI::App* trial = catalogue->add_subcommand("trial",
                                              "Let simulated people identify simulated parts, and count how "
                                              "often the verdict is right");
  runs(trial, out, Command::catalogue_trial);
  trial->add_option("--cases", out.trial.cases, "Conversations per kind of observer")
      ->type_name("N")
      ->check(CLI::Range(1, most_cases));
  trial->add_option("--seed", out.trial.seed, "The same seed gives the same trial")->type_name("N");
  trial->add_option("--wrong", out.trial.wrong, "Per cent of wrong answers; otherwise a set of standard observers")
      ->type_name("PERCENT")
      ->check(CLI::Range(0, 90))
      ->allow_extra_args(false);
  trial->add_option("--cannot-tell", out.trial.cannot_tell, "With --wrong: per cent of questions left open")
      ->type_name("PERCENT")
      ->check(CLI::Range(0, 90));
  flag(trial, "--no-meter", out.trial.without_meter, "With --wrong: the observers have no meter");
  value(trial, "--mistakes", out.trial.mistakes, "WHOSE",
        "How people go wrong: as the program expects (own), in ways it does not know of (other), or both in turn")
      ->check(CLI::IsMember({"own", "other", "both"}));
  flag(trial, "--every-part", out.trial.every_part, "Every part equally often, not as often as it is brought in");
  trial->add_option("--absent", out.trial.absent_classes, "So many classes are taken out of the catalogue in turn")
      ->type_name("N")
      ->check(CLI::Range(0, most_cases));
  value(trial, "--verdicts", out.trial.verdicts, "FILE",
        "Instead of the trial: write the verdict on the typical example of every part, told by somebody who makes no "
        "mistake; - prints them")
      ->excludes("--cases")
      ->excludes("--seed")
      ->excludes("--wrong")
      ->excludes("--every-part")
      ->excludes("--absent");
  json_flag(trial, out);
}

void add_separability(CLI::App* catalogue, CommandLine& out) {
  CLI::App* app = catalogue->add_subcommand(
      "separability", "Pairs of parts that need different advice, and that neither look nor ruler nor meter separates");
  runs(app, out, Command::catalogue_separability);
  app->add_option("--below", out.separability.below, "List pairs whose best single trait gives fewer decibans")
      ->type_name("N")
      ->check(CLI::Range(0, most_decibans));
  app->add_option("--together", out.separability.together, "Of these, pairs whose traits all together give fewer")
      ->type_name("N")
      ->check(CLI::Range(0, most_decibans));
  json_flag(app, out);
  value(app, "--csv", out.separability.csv, "FILE", "Write the pairs as a table for other programs; - prints it");
  value(app, "--svg", out.separability.svg, "FILE", "Write a picture of all families against each other; - prints it");
}

void add_diff(CLI::App* catalogue, CommandLine& out) {
  CLI::App* app = catalogue->add_subcommand(
      "diff", "What differs between two catalogues, in words; exits with 3 where anything does");
  runs(app, out, Command::catalogue_diff);
  for (const char* name : {"OLD", "NEW"}) {
    app->add_option_function<std::string>(name, [&out](const std::string& word) { out.words.push_back(word); })
        ->description("A catalogue file, a folder of sources, or an overlay folder (laid over the catalogue in use)")
        ->type_name("")
        ->required();
  }
  json_flag(app, out);
}

void add_catalogue(CLI::App& root, CommandLine& out) {
  CLI::App* catalogue = root.add_subcommand("catalogue", "Build, check and measure a catalogue");
  catalogue->require_subcommand(1);

  CLI::App* build = catalogue->add_subcommand("build", "Compile the TOML sources into one catalogue file");
  runs(build, out, Command::catalogue_build);
  value(build, "--from", out.from, "DIR", "The folder of the sources")->required();
  value(build, "--to", out.to, "FILE", "The catalogue to write")->required();

  CLI::App* check = catalogue->add_subcommand("check", "Read the sources and list everything that is wrong with them");
  runs(check, out, Command::catalogue_check);
  check->add_option("DIR", out.words, "The folder of the sources")->type_name("")->required()->expected(1);

  CLI::App* skeleton = catalogue->add_subcommand("template", "Print a commented skeleton for a new part");
  runs(skeleton, out, Command::catalogue_template);
  skeleton->add_option("FAMILY", out.words, "The family it belongs to")->type_name("")->required()->expected(1);

  add_trial(catalogue, out);
  add_separability(catalogue, out);
  add_diff(catalogue, out);

  runs(catalogue->add_subcommand("info", "Which catalogue is used, and how much is in it"), out,
       Command::catalogue_info);
}

void add_generate(CLI::App& root, CommandLine& out) {
  // An empty group hides a command from help.
  CLI::App* generate = root.add_subcommand("generate", "Print the man page, shell completions and lists of words");
  generate->group("");
  generate->require_subcommand(1);
  runs(generate->add_subcommand("man", "The man page"), out, Command::generate_man);
  CLI::App* completion = generate->add_subcommand("completion", "Completions for a shell");
  runs(completion, out, Command::generate_completion);
  completion->add_option("SHELL", out.words, "The shell")
      ->type_name("")
      ->required()
      ->expected(1)
      ->check(CLI::IsMember({"bash", "zsh", "fish"}));
  CLI::App* words = generate->add_subcommand("words", "Ids, one a line, for completions");
  runs(words, out, Command::generate_words);
  words->add_option("KIND", out.words, "Which ids")
      ->type_name("")
      ->required()
      ->expected(1)
      ->check(CLI::IsMember({"parts", "traits", "families"}));
}

}  // namespace

std::unique_ptr<CLI::App> option_tree(CommandLine& out) {
  auto root = std::make_unique<CLI::App>(
      "Identify unknown electrical parts of classic motorcycles, and learn what each "
      "does, whether it works and what replaces it.",
      "loomkey");
  root->set_help_flag("-h,--help", "Show this help");
  root->set_version_flag("--version", std::string("loomkey " LOOMKEY_VERSION), "Show the version");
  value(root.get(), "--catalogue", out.catalogue, "FILE", "Use this catalogue instead of the default one");
  value(root.get(), "--overlay", out.overlay, "DIR",
        "Lay the parts of this folder over the catalogue, instead of those in the user's data folder");
  flag(root.get(), "--no-overlay", out.without_overlay, "Use the catalogue as it ships");
  root->get_option("--no-overlay")->excludes("--overlay");
  // Lets these stand behind the command too.
  root->fallthrough();
  root->require_subcommand(1);
  add_identify(*root, out);
  add_parts(*root, out);
  add_questions_to_the_catalogue(*root, out);
  runs(root->add_subcommand("settings", "Every number of the engine that could be another"), out, Command::settings);
  add_catalogue(*root, out);
  add_generate(*root, out);
  return root;
}

}  // namespace loomkey::cli
