"""What general-purpose packages of Python say of numerals and calendars.

Usage: dates.py roman      the numbers 1 to 3999, one a line, by the package roman
       dates.py days       for every day from 1 January 1450 (Julian) to 31 December 1837 (Gregorian), by Julian day number, a line:
                           the number; the Julian date, by juliandate and by convertdate.julian (which must agree); the Gregorian
                           date, by convertdate.gregorian and juliandate (which must agree); the weekday, Monday 0
       dates.py easter     for every year from 1450 to 1837 a line: the year, Easter Julian as month and day, Easter Gregorian
       dates.py republic   for every day of the French Republic a line: the Julian day number, year, month, day, by
                           convertdate.french_republican, which numbers the complementary days as a thirteenth month
"""

import sys


def roman_numbers() -> None:
    import roman

    for number in range(1, 4000):
        print(roman.toRoman(number))


def days() -> None:
    import juliandate
    from convertdate import gregorian, julian
    from convertdate.utils import jwday

    first = round(julian.to_jd(1450, 1, 1) + 0.5)
    last = round(gregorian.to_jd(1837, 12, 31) + 0.5)
    for number in range(first, last + 1):
        old = julian.from_jd(number - 0.5)
        assert tuple(old) == juliandate.to_julian(number)[:3], (number, old)
        new = gregorian.from_jd(number - 0.5)
        assert tuple(new) == juliandate.to_gregorian(number)[:3], (number, new)
        print(number, *old, *new, jwday(number - 0.5))


def easters() -> None:
    from convertdate import gregorian, holidays, julian

    for year in range(1450, 1838):
        old = julian.from_jd(gregorian.to_jd(*holidays.easter(year, "orthodox")))
        new = holidays.easter(year, "western")
        print(year, *old[1:], *new[1:])


def republic() -> None:
    import functools

    from convertdate import french_republican, gregorian

    # The package computes two equinoxes for every day; there are fifteen in all.
    equinox = french_republican.Sun.get_equinox_solstice
    french_republican.Sun.get_equinox_solstice = staticmethod(functools.lru_cache(equinox))
    first = round(gregorian.to_jd(1792, 9, 22) + 0.5)
    last = round(gregorian.to_jd(1805, 12, 31) + 0.5)
    for number in range(first, last + 1):
        print(number, *french_republican.from_jd(number - 0.5))


if __name__ == "__main__":
    {"roman": roman_numbers, "days": days, "easter": easters, "republic": republic}[sys.argv[1]]()
