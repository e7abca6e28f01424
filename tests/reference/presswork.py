"""A printing shop in SimPy: formes through composing, correcting, presses and the wait between their sides.

The plan comes as JSON on standard input; the answer is a list of [sheet, setting, place in the sheet, begun, ended], sheets and
settings from 1, times in hours of work. Presses and compositors are priority resources: who corrects goes before who composes, a
heap to be perfected before white paper; then the earlier sheet, then the lower setting.
"""

import json
import math
import sys

import simpy

plan = json.load(sys.stdin)
hours, begins, week = plan["day"]


def clock(work: float) -> float:
    """The clock after so many hours of work, counted off day by day."""
    day, left = 0, work
    while True:
        if day % 7 < week:
            if left <= hours:
                return 24 * day + begins + left
            left -= hours
        day += 1


def work(at: float) -> float:
    """The hours of work up to a time by the clock."""
    passed = 0.0
    for day in range(math.floor(at / 24) + 1):
        if day % 7 < week:
            passed += min(max(at - 24 * day - begins, 0.0), hours)
    return passed


env = simpy.Environment()
men = simpy.PriorityResource(env, plan["compositors"])
presses = simpy.PriorityResource(env, plan["presses"])
told = []


def press(rank, sheet, setting, place, copies, ready, printed):
    """Prints a forme once all that it waits for has happened."""
    yield env.all_of(ready)
    asked = presses.request(priority=(1 - place, rank, place))
    yield asked
    begun = env.now
    yield env.timeout(plan["ready"] + copies / plan["rate"])
    told.append([sheet + 1, setting + 1, place, begun, env.now])
    if printed is None:
        presses.release(asked)
        return
    # Who waits no time for the other side asks for it before the press is free.
    wait = max(work(clock(env.now) + plan["between"]) - env.now, 0.0) if plan["between"] > 0 else 0.0
    presses.release(asked)
    yield env.timeout(wait)
    printed.succeed()


def compose(rank, share, done):
    asked = men.request(priority=(1, rank))
    yield asked
    yield env.timeout(share * plan["compose"])
    again = men.request(priority=(0, rank))
    men.release(asked)
    yield again
    yield env.timeout(share * plan["compose"] * plan["correct"])
    for event in done:
        event.succeed()
    men.release(again)


rank = 0
for sheet in range(plan["sheets"] + plan["half_sheets"]):
    whole = sheet < plan["sheets"]
    for setting in range(plan["settings"]):
        copies = plan["copies"] // plan["settings"] + (setting < plan["copies"] % plan["settings"])
        sides = 2 if whole else 1
        composed = [env.event() for _ in range(sides)]
        share = 1.0 if whole else 0.5
        if plan["by_formes"] and whole:
            for place in range(sides):
                env.process(compose(rank + place, share / sides, [composed[place]]))
        else:
            env.process(compose(rank, share, composed))
        printed = env.event() if whole else None
        env.process(press(rank, sheet, setting, 0, copies, [composed[0]], printed))
        if whole:
            env.process(press(rank, sheet, setting, 1, copies, [composed[1], printed], None))
        rank += 2

env.run()
json.dump(sorted(told), sys.stdout)
