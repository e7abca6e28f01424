"""Fits the regression that tells sorts which stand off their line or lean, and writes it as a table of the program.

    letters.py SET [FOLDER]

The folder SET holds pairs.json, and letters.jsonl of its pairs of one setting (cargo xtask bench fit
changes writes it). With
FOLDER the fit on all of them is written there.
"""

import sys

import numpy as np

from fitting import Weighed, read, report, write

SHIFTED = {"sort shifted"}
# Knees of the broken line by which a sign enters.
KNEES = {
    "itself": [-2.5, -1.5],
    "here": [-1.5, -0.7],
    "gain": [0.1, 0.3],
    "aside": [0.05, 0.12],
    "up_or_down": [0.05, 0.12, 0.2],
    "usual_aside": [],
    "usual_up_or_down": [],
    "aside_above": [0, 0.7],
    "up_or_down_above": [0, 0.7, 1.4],
    "others_off": [0.1, 0.2],
    "usual": [],
    "next": [-2, -1],
    "next_off": [0.1, 0.2],
    "letters": [2],
    "lean_gain": [0, 0.05, 0.1],
    "leant": [-2, -1],
    "lean": [0.5],
    "ink": [0],
    "greater": [0.15, 0.3],
    "lesser": [0.1, 0.2],
    "breadth": [-0.7, 0],
    "height": [0, 0.4],
    "word": [-0.2, 0],
    "lost_about": [0.1],
    "gained_about": [0.1],
    "over_and_under": [0, 0.1],
    "crease": [0.7, 1.5, 3],
    "fold": [0.7, 1.5, 3],
    "noise": [],
    "pixels": [3],
}
# A letter of a page without differences is said to be one on so many sides: half as many as of places, for both are
# said of one page.
SIDES_TO_A_FALSE_LETTER = 100


def main():
    folder = sys.argv[1]
    numbers, fold_of, told = read(folder, "letters")
    table = Weighed(told, KNEES, SHIFTED)
    table.cross_validate(fold_of)
    kinds = {"letter": np.ones(len(told), dtype=bool)}
    wanted = [SIDES_TO_A_FALSE_LETTER, 50, 20]
    even = report(told, table.score, table.y, SHIFTED, kinds, len(numbers), wanted)
    if len(sys.argv) < 3:
        return
    fit = table.fit()
    print(f"off_line: {len(fit[1])} of {len(table.terms)} terms")
    evens = {"EVEN": [even["letter", c] for c in (0, 1)]}
    write(sys.argv[2], "off_line", fit, "letters", ("letters", "LetterSigns"), len(numbers), evens)


main()
