"""Shows that a wrong arrow, and each of the other faults, is found; and that a tidy tree is left in peace."""

import unittest

import house
import layering

TABLE = """
# Developers

| module in `src/` | a reader finds | may use | must not know |
|---|---|---|---|
| `base` | results | libraries only | the trade |
| `catalogue` | storage | base | screens |
| `bench` | use cases | all above | screens |
| `cli` | options | bench, `catalogue/open.h` | SQL |

| word | may use |
|---|---|
| other | nothing |
"""
CMAKE = """
add_module(base SOURCES text.cpp LINKS fmt::fmt)  # a comment (with brackets)
add_module(catalogue
  SOURCES open.cpp
  USES base
  LINKS SQLiteCpp)
add_module(bench SOURCES bench.cpp USES base catalogue)
add_module(cli SOURCES cli.cpp USES bench catalogue)
"""
SOURCES = {
    "base/text.cpp": '#include "base/text.h"\n\n#include <string>\n',
    "base/text.h": "#pragma once\n",
    "catalogue/open.cpp": '#include <SQLiteCpp/SQLiteCpp.h>\n#include "base/text.h"\n',
    "catalogue/open.h": "#pragma once\n",
    "bench/bench.cpp": '#include "base/text.h"\n#include "catalogue/open.h"\n',
    "cli/cli.cpp": '#include <CLI/CLI.hpp>\n#include "bench/bench.h"\n#include "catalogue/open.h"\n',
    "main.cpp": '#include "cli/cli.h"\n',
}


def findings(table=TABLE, cmake=CMAKE, **changes):
    """`changes` replaces files: base_text_cpp="..." stands for base/text.cpp."""
    sources = dict(SOURCES)
    for name, text in changes.items():
        path = name.replace("_", "/", 1).rpartition("_")
        sources[f"{path[0]}.{path[2]}"] = text  # the last underscore is the dot
    return layering.judge(table, cmake, sources)


class Layering(unittest.TestCase):
    def assert_one(self, found, *words):
        self.assertEqual(len(found), 1, found)
        for word in words:
            self.assertIn(word, found[0])

    def test_a_tidy_tree_is_left_in_peace(self):
        self.assertEqual(findings(), [])

    def test_an_arrow_upwards_is_found(self):
        found = findings(base_text_h='#pragma once\n#include "catalogue/open.h"\n')
        self.assertTrue(any(f.startswith("src/base/text.h:2: 'base' must not include") for f in found), found)

    def test_an_arrow_past_a_single_allowed_header_is_found(self):
        self.assert_one(findings(cli_cli_h='#include "catalogue/build.h"\n'), "src/cli/cli.h:1", "catalogue/open.h")

    def test_the_program_sees_only_the_command_line(self):
        self.assertTrue(any("src/main.cpp:2" in f for f in layering.judge(
            TABLE, CMAKE, SOURCES | {"main.cpp": '#include "cli/cli.h"\n#include "bench/bench.h"\n'})))

    def test_a_row_that_looks_down_the_table_is_found(self):
        found = findings(table=TABLE.replace("| base | screens |", "| base, bench | screens |"))
        self.assert_one(found, "DEVELOPERS.md:7", "'bench' in the row of 'catalogue'")

    def test_words_that_are_no_modules_are_found(self):
        found = findings(table=TABLE.replace("all above", "base, catalogue, result values"))
        self.assert_one(found, "'result values'")

    def test_a_module_without_a_row_is_found(self):
        found = findings(extra_thing_cpp="")
        self.assert_one(found, "src/extra: no row")

    def test_a_row_without_a_module_is_found(self):
        row = "| `cli` |"
        found = findings(table=TABLE.replace(row, "| `report` | texts | base | sockets |\n" + row))
        self.assert_one(found, "'report'", "holds no code")

    def test_a_missing_table_is_found(self):
        self.assertIn("DEVELOPERS.md: no table", findings(table="# Developers\n")[0])

    def test_a_library_in_the_wrong_module_is_found(self):
        for header in ("sqlite3.h", "CLI/App.hpp", "histedit.h", "nlohmann/json.hpp", "toml++/toml.h"):
            with self.subTest(header=header):
                found = findings(bench_bench_cpp=SOURCES["bench/bench.cpp"] + f"#  include <{header}>\n")
                self.assert_one(found, "src/bench/bench.cpp:3", header)

    def test_an_include_not_rooted_at_src_is_found(self):
        self.assert_one(findings(cli_cli_h='#include "prompt.h"\n'), '"prompt.h"')

    def test_uses_that_the_table_forbids_is_found(self):
        self.assert_one(findings(cmake=CMAKE.replace("fmt::fmt", "fmt::fmt USES bench")), "'base' USES 'bench'")

    def test_uses_without_an_include_is_found(self):
        found = findings(cli_cli_cpp='#include "bench/bench.h"\n')
        self.assert_one(found, "'cli' USES 'catalogue', but includes nothing of it")

    def test_an_include_without_uses_is_found(self):
        self.assert_one(findings(cmake=CMAKE.replace("  USES base\n", "")), "'catalogue' includes 'base'")

    def test_a_source_left_out_of_the_build_is_found(self):
        self.assert_one(findings(cli_prompt_cpp=""), "src/cli/prompt.cpp is not in the SOURCES")

    def test_a_module_left_out_of_the_build_is_found(self):
        gone = CMAKE.replace("add_module(bench SOURCES bench.cpp USES base catalogue)", "")
        self.assert_one(findings(cmake=gone), "no add_module(bench ...)")


class House(unittest.TestCase):
    def test_a_long_file_is_found_and_a_short_one_is_not(self):
        self.assertEqual(house.judge_length("a.cpp", "\n" * 599), [])
        self.assertEqual(len(house.judge_length("a.cpp", "\n" * 600)), 1)

    def test_a_loose_end_is_found_with_its_line(self):
        self.assertEqual(house.judge_words("a.cpp", "x\n// TO" "DO: later\n")[0].split(":")[:2], ["a.cpp", "2"])
        self.assertEqual(house.judge_words("a.cpp", "photodode\n"), [])

    def test_a_stray_file_at_the_top_is_found(self):
        self.assertEqual(house.judge_top_level(["src", ".git", "build", "build-sanitize", "README.md"]), [])
        self.assertEqual(len(house.judge_top_level(["src", "notes.txt"])), 1)


if __name__ == "__main__":
    unittest.main()
