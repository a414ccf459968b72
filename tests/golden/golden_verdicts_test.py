"""The comparison itself: a verdict that moved is told, and nothing else. Standard library only."""

import json
import unittest

import golden_verdicts


def verdict(part="p", called="c", probability=0.934, questions=7, status="settled", own="c"):
    return {"part": part, "class": own, "called_class": called, "called_part": part, "status": status,
            "probability": probability, "questions": questions}


def golden(*verdicts):
    return json.loads(golden_verdicts.updated({}, verdicts))


class Moves(unittest.TestCase):
    def moved(self, was, *now):
        return golden_verdicts.moves(golden(was), now)

    def test_nothing_moves_by_itself(self):
        self.assertEqual(self.moved(verdict(), verdict()), [])

    def test_a_last_digit_on_the_edge_moves_nothing(self):
        self.assertEqual(self.moved(verdict(probability=0.93501), verdict(probability=0.93499)), [])
        self.assertEqual(self.moved(verdict(probability=0.999999), verdict(probability=0.996)), [])

    def test_a_hundredth_moves(self):
        self.assertEqual(self.moved(verdict(probability=0.93), verdict(probability=0.94)),
                         ["p: was c (settled, 93 %, 7 questions); now c (settled, 94 %, 7 questions)"])

    def test_class_status_and_questions_move(self):
        for now in (verdict(called="d"), verdict(status="cannot_tell"), verdict(questions=8), verdict(called=None)):
            self.assertEqual(len(self.moved(verdict(), now)), 1)

    def test_right_and_wrong_are_called_so(self):
        self.assertTrue(self.moved(verdict(), verdict(called="d"))[0].endswith(", WRONG NOW"))
        self.assertTrue(self.moved(verdict(called="d"), verdict())[0].endswith(", right at last"))
        self.assertIn("now not in the catalogue (", self.moved(verdict(), verdict(called=None))[0])

    def test_what_is_called_something_else_comes_first(self):
        before = golden(verdict(part="a"), verdict(part="b"))
        lines = golden_verdicts.moves(before, [verdict(part="a", questions=9), verdict(part="b", called="d")])
        self.assertEqual([line[0] for line in lines], ["b", "a"])

    def test_parts_come_and_go(self):
        lines = self.moved(verdict(), verdict(part="q", questions=1))
        self.assertEqual(lines, ["p: was c (settled, 93 %, 7 questions); the part is gone",
                                 "q: a new part, called c (settled, 93 %, 1 question)"])
        self.assertTrue(self.moved(verdict(), verdict(), verdict(part="q", called="d"))[0].endswith(", WRONG"))

    def test_an_update_keeps_the_lines_that_did_not_move(self):
        before = golden(verdict(probability=0.93501))
        text = golden_verdicts.updated(before, [verdict(probability=0.93499), verdict(part="q")])
        self.assertEqual(json.loads(text)["p"], before["p"])
        self.assertEqual(golden_verdicts.moves(json.loads(text), [verdict(), verdict(part="q")]), [])


if __name__ == "__main__":
    unittest.main()
