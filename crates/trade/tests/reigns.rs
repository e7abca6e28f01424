//! Regnal years, each with its range as it is worked out from the beginnings of the reigns; those with a published example name it.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::calendar::{Calendar, DayRange};
use trade::reigns::{Counting, Sovereign as S, joint_year, reigns_on, year};

/// 22 August 1491, and 28 January 1546/7 where the legal year was not the historical one yet.
fn told(days: DayRange) -> String {
    let british = Calendar::british();
    let one = |day| {
        let date = british.date(day);
        let old = date.is_before_lady_day() && date.year <= 1751;
        let year = if old { format!("{}/{}", date.year - 1, date.year) } else { date.year.to_string() };
        format!("{} {} {year}", date.day, date.month.short_name())
    };
    format!("{} - {}", one(days.first), one(days.last))
}

#[test]
fn the_worked_years() {
    let cases = [
        (S::HenryVii, 7, "22 Aug 1491 - 21 Aug 1492"),
        (S::HenryVii, 24, "22 Aug 1508 - 21 Apr 1509"),
        (S::HenryViii, 21, "22 Apr 1529 - 21 Apr 1530"),
        (S::HenryViii, 38, "22 Apr 1546 - 28 Jan 1546/1547"),
        (S::EdwardVi, 2, "28 Jan 1547/1548 - 27 Jan 1548/1549"),
        (S::EdwardVi, 7, "28 Jan 1552/1553 - 6 Jul 1553"),
        (S::Mary, 1, "6 Jul 1553 - 5 Jul 1554"),
        (S::Elizabeth, 21, "17 Nov 1578 - 16 Nov 1579"),
        (S::Elizabeth, 30, "17 Nov 1587 - 16 Nov 1588"),
        (S::Elizabeth, 45, "17 Nov 1602 - 24 Mar 1602/1603"),
        (S::James, 1, "24 Mar 1602/1603 - 23 Mar 1603/1604"),
        (S::James, 21, "24 Mar 1622/1623 - 23 Mar 1623/1624"),
        (S::James, 23, "24 Mar 1624/1625 - 27 Mar 1625"),
        (S::Charles, 16, "27 Mar 1640 - 26 Mar 1641"),
        (S::Charles, 24, "27 Mar 1648 - 30 Jan 1648/1649"),
        // Select Essays in Anglo-American Legal History I: the year of the restoration "styled the twelfth".
        (S::CharlesIi, 12, "30 Jan 1659/1660 - 29 Jan 1660/1661"),
        (S::CharlesIi, 21, "30 Jan 1668/1669 - 29 Jan 1669/1670"),
        (S::CharlesIi, 37, "30 Jan 1684/1685 - 6 Feb 1684/1685"),
        (S::JamesIi, 4, "6 Feb 1687/1688 - 11 Dec 1688"),
        (S::WilliamAndMary, 1, "13 Feb 1688/1689 - 12 Feb 1689/1690"),
        (S::WilliamAndMary, 6, "13 Feb 1693/1694 - 27 Dec 1694"),
        (S::William, 6, "28 Dec 1694 - 12 Feb 1694/1695"),
        (S::William, 7, "13 Feb 1694/1695 - 12 Feb 1695/1696"),
        (S::William, 14, "13 Feb 1701/1702 - 8 Mar 1701/1702"),
        // 10 Ann. c. 6 is the act of 1711: encyclopaedia mirrors, Regnal years of English monarchs.
        (S::Anne, 10, "8 Mar 1710/1711 - 7 Mar 1711/1712"),
        (S::Anne, 13, "8 Mar 1713/1714 - 1 Aug 1714"),
        (S::George, 1, "1 Aug 1714 - 31 Jul 1715"),
        (S::GeorgeIi, 26, "11 Jun 1752 - 21 Jun 1753"),
        (S::GeorgeIii, 21, "25 Oct 1780 - 24 Oct 1781"),
        // A primer of the legal system, 41 Geo. 3.
        (S::GeorgeIii, 41, "25 Oct 1800 - 24 Oct 1801"),
        (S::GeorgeIii, 60, "25 Oct 1819 - 29 Jan 1820"),
        (S::GeorgeIv, 11, "29 Jan 1830 - 26 Jun 1830"),
        (S::WilliamIv, 7, "26 Jun 1836 - 20 Jun 1837"),
    ];
    for (sovereign, number, wanted) in cases {
        assert_eq!(told(year(sovereign, number, Counting::Usual).unwrap()), wanted, "{sovereign:?} {number}");
    }
}

#[test]
fn where_scholars_count_otherwise() {
    assert_eq!(told(year(S::Mary, 1, Counting::Other).unwrap()), "19 Jul 1553 - 5 Jul 1554");
    assert_eq!(told(year(S::GeorgeIi, 26, Counting::Other).unwrap()), "11 Jun 1752 - 10 Jun 1753");
    assert_eq!(told(year(S::CharlesIi, 1, Counting::Other).unwrap()), "29 May 1660 - 28 May 1661");
    assert_eq!(year(S::CharlesIi, 30, Counting::Other), None);
}

#[test]
fn philip_and_mary_and_two_crowns() {
    assert_eq!(told(joint_year(2, 3).unwrap()), "25 Jul 1555 - 5 Jul 1556");
    assert_eq!(joint_year(3, 3), None);
    // 4 Jac. 1 and 40 Jac. 6 of Scotland together.
    let english = year(S::James, 4, Counting::Usual).unwrap();
    let scots = year(S::JamesViScots, 40, Counting::Usual).unwrap();
    let both = DayRange::new(english.first.max(scots.first), english.last.min(scots.last)).unwrap();
    assert_eq!(told(both), "24 Jul 1606 - 23 Mar 1606/1607");
}

/// Years of a reign have no gap and do not overlap, in both ways of counting, and a day is found in its year.
#[test]
fn years_follow_each_other() {
    for reign in trade::reigns::REIGNS {
        if reign.sovereign == S::PhilipAndMary || reign.sovereign == S::Victoria {
            continue;
        }
        for counting in Counting::ALL {
            let all: Vec<_> = (1..=reign.last_year)
                .filter_map(|n| year(reign.sovereign, n, counting).map(|days| (n, days)))
                .collect();
            assert_eq!(all.last().unwrap().1.last, reign.last_day(), "{} {counting:?}", reign.name);
            for pair in all.windows(2) {
                assert_eq!(pair[0].1.last.plus(1), pair[1].1.first, "{} {counting:?}", reign.name);
            }
            let (number, days) = all[all.len() / 2];
            let held = reigns_on(days.first, counting);
            assert!(held.iter().any(|h| h.reign.sovereign == reign.sovereign && h.number == number));
        }
    }
}
