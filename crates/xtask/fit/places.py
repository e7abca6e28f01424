"""Fits the two regressions that weigh places which differ, and writes them as tables of the program.

    places.py SET [FOLDER]

The folder SET holds pairs.json, and places.jsonl of its pairs of one setting (cargo xtask bench fit
changes writes it). With
FOLDER the fit on all of them is written there.
"""

import sys

import numpy as np

from fitting import Weighed, read, report, write

# What is done to single sorts; whole lines and words that moved are told otherwise.
SORTS = {"letter changed", "letter turned", "word changed", "point added", "point removed", "sort lost", "sort shifted"}
# Knees of the broken line by which a sign enters.
KNEES = {
    "greater": [-3.5, -2.5, -1.5],
    "lesser": [-4, -3],
    "noise": [],
    "quiet": [],
    "above_noise": [1.5],
    "whole": [0.3, 0.6, 0.85, 0.95],
    "tone": [0.6, 0.7, 0.8],
    "beside": [0.05],
    "alike": [0.3, 0.6],
    "about": [0, 0.1],
    "about_other": [0, 0.1],
    "ink_about": [1],
    "over_and_under": [0, 0.1],
    "height": [-0.7, 0],
    "breadth": [-0.7, 0],
    "likeness": [-0.2, 0],
    "least_part": [-0.5, -0.2],
    "line": [-0.3, -0.1],
    "loose": [],
    "unplaced": [],
    "own_letter": [-3.4, -1.5],
    "own_letters": [1],
    "rather_there": [-0.5, 0, 0.5, 1],
    "rather_here": [-0.5, 0, 0.5, 1],
    "rather_there_by_own_box": [-0.5, 0, 0.5, 1],
    "rather_here_by_own_box": [-0.5, 0, 0.5, 1],
    "other_there": [1, 2],
    "other_here": [1, 2],
    "cross": [-2, -1],
    "turned": [1, 2],
    "turned_kin": [1, 2],
    "letter_greater": [0.2, 0.4],
    "letter_lesser": [0.1, 0.2],
    "gain": [0.1],
    "lean_gain": [0.05, 0.1],
    "aside": [0.1],
    "up_or_down": [0.1],
    "usual_letter": [],
    "next_letter": [-1.5],
    "next_letters": [-1.5],
    "neighbours": [],
    "like": [0.7, 0.9],
    "no_sign": [],
    "part_sign": [],
    "point": [0.6],
    "thin": [],
    "fill": [0.3, 0.5, 0.7],
    "foot": [-0.5, 0, 0.2],
    "top": [0.3, 0.9, 1.2],
    "gap": [0.1, 0.3],
    "in_line": [2, 4, 6],
    "in_line_above": [1, 3],
    "in_line_usual": [2, 3, 5],
    "crease": [0.7, 1.5, 3],
    "fold": [0.7, 1.5, 3],
    "pixels": [3],
    "by_view": [-6, -4, -2, 0, 2, 4],
}
# A place that is a point by itself at least so nearly is weighed as one: few are false.
POINTED = 0.6
# A place of a page without differences is said to be one on so many sides.
SIDES_TO_A_FALSE_PLACE = 50


def main():
    folder = sys.argv[1]
    numbers, fold_of, told = read(folder, "places")
    tables = {
        "exchanged": Weighed([t for t in told if t["signs"]["two_sided"]], KNEES, SORTS),
        "taken": Weighed([t for t in told if not t["signs"]["two_sided"]], KNEES, SORTS),
    }
    told = sum((table.told for table in tables.values()), [])
    for table in tables.values():
        table.cross_validate(fold_of)
    score, y = (np.concatenate([getattr(t, what) for t in tables.values()]) for what in ("score", "y"))
    signs = {s: np.array([t["signs"][s] for t in told]) for s in ("two_sided", "point")}
    kinds = {
        "exchanged": signs["two_sided"],
        "point": ~signs["two_sided"] & (signs["point"] > POINTED),
        "taken": ~signs["two_sided"] & (signs["point"] <= POINTED),
    }
    even = report(told, score, y, SORTS, kinds, len(numbers), [SIDES_TO_A_FALSE_PLACE, 20, 10])
    if len(sys.argv) < 3:
        return
    of_kind = {name: [even[name, c] for c in (0, 1)] for name in kinds}
    evens = {
        "exchanged": {"EVEN": of_kind["exchanged"]},
        "taken": {"EVEN": of_kind["taken"], "EVEN_OF_POINTS": of_kind["point"]},
    }
    for name, table in tables.items():
        fit = table.fit()
        print(f"{name}: {len(fit[1])} of {len(table.terms)} terms")
        write(sys.argv[2], name, fit, "places", ("signs", "Signs"), len(numbers), evens[name])


if __name__ == "__main__":
    main()
