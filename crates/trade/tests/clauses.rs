//! Dating clauses: published ones with their answers, and every part in English and Latin.

#![allow(clippy::unwrap_used, reason = "a test that cannot go on has failed")]

use trade::calendar::{Calendar, Date};
use trade::clause::{Answer, ClauseError, Place, days, parse};

fn answer(text: &str, place: Place) -> Answer {
    days(&parse(text).unwrap_or_else(|e| panic!("{text}: {e}")), place)
}

/// The days of each reading as "19 Feb 1702" or "1 Jan 1701 - 5 Jan 1701", at most so many stretches.
fn told(text: &str, place: Place) -> Vec<String> {
    let calendar = match place {
        Place::NewStyle => Calendar::GREGORIAN,
        Place::France => Calendar::changing(trade::calendar::Day::from_number(2_299_227).unwrap()).unwrap(),
        Place::England | Place::Scotland => Calendar::british(),
        _ => Calendar::JULIAN,
    };
    let one = |d: Date| format!("{} {} {}", d.day, d.month.short_name(), d.year);
    let readings = answer(text, place).readings;
    let ranges = readings.iter().map(|r| {
        let ranges = r.days.ranges();
        let names = ranges.iter().map(|r| {
            let (a, b) = (calendar.date(r.first), calendar.date(r.last));
            if a == b { one(a) } else { format!("{} - {}", one(a), one(b)) }
        });
        names.collect::<Vec<_>>().join(", ")
    });
    ranges.collect()
}

/// Descriptive Cataloging of Rare Materials, 5.23.31, prints these with their dates.
#[test]
fn published_clauses() {
    let cases = [
        ("quarto idus Iulij M.D.XXI", Place::OldStyle, vec!["12 Jul 1521"]),
        ("Ipsis Calendis Januarii 1501", Place::OldStyle, vec!["1 Jan 1501"]),
        ("le XV jour de decembre MCCCCLXXXII", Place::OldStyle, vec!["15 Dec 1482"]),
        (
            "die vicesima prima mensis Februarii anno Domini millesimo quadringentesimo septuagesimosexto",
            Place::OldStyle,
            vec!["21 Feb 1476"],
        ),
        // The day of the second and third is there, the year worked out here.
        (
            "vicesima quarta Martij, anno Domini millesimo quingentesimo quadragesimo quinto",
            Place::OldStyle,
            vec!["24 Mar 1545"],
        ),
        (
            "anno millesimo quingentesimo decimoquarto die vero vicesima mensis Decembris",
            Place::OldStyle,
            vec!["20 Dec 1514"],
        ),
        // 1625 that is 1626; 1743 that is 1744; 1588 that is 1589; 1690/1 that is 1691.
        ("17 January 1625 1 Car. 1", Place::England, vec!["17 Jan 1626"]),
        ("20 February 1743, 17 Geo. 2", Place::England, vec!["20 Feb 1744"]),
        ("Februar. 8. anno 1588", Place::England, vec!["8 Feb 1589", "8 Feb 1588"]),
        ("3 February 1690/1", Place::England, vec!["3 Feb 1691"]),
        ("9 thermidor an II", Place::NewStyle, vec!["27 Jul 1794"]),
        ("an VII", Place::NewStyle, vec!["22 Sep 1798 - 22 Sep 1799"]),
    ];
    for (text, place, wanted) in cases {
        assert_eq!(told(text, place), wanted, "{text}");
    }
}

#[test]
fn clauses_of_every_kind() {
    let cases = [
        ("8 Martii 1648/9", vec!["8 Mar 1649"]),
        ("8 Martii 1648[/9]", vec!["8 Mar 1649"]),
        ("March the 8th, 1648-9", vec!["8 Mar 1649"]),
        ("Tuesday 30 January 1648", vec!["30 Jan 1649"]),
        ("The Feast of St Michael the Archangel, 1701", vec!["29 Sep 1701"]),
        ("on the eve of All Saints, M. DC. LXXIX.", vec!["31 Oct 1679"]),
        ("Michaelmas Eve 1701", vec!["28 Sep 1701"]),
        ("in crastino Sancti Martini 1640", vec!["12 Nov 1640"]),
        ("Monday next after the feast of St Luke 1640", vec!["19 Oct 1640"]),
        ("Friday before Lady Day 1701", vec!["20 Mar 1702", "21 Mar 1701"]),
        ("Trinity term 1623", vec!["13 Jun 1623 - 2 Jul 1623"]),
        ("termino Sancti Michaelis 1680", vec!["23 Oct 1680 - 29 Nov 1680"]),
        ("Whitsunday 1666", vec!["3 Jun 1666"]),
        ("Good Friday 1714", vec!["26 Mar 1714"]),
        ("the last day of September 1680", vec!["30 Sep 1680"]),
        ("ultimo Martii 1680", vec!["31 Mar 1680"]),
        ("14 7bris 1665", vec!["14 Sep 1665"]),
        ("2 Xber 1665", vec!["2 Dec 1665"]),
        ("die Martis 14 Novembris 1665", vec!["14 Nov 1665"]),
        ("feria secunda, 13 November 1665", vec!["13 Nov 1665"]),
        ("June 1680", vec!["1 Jun 1680 - 30 Jun 1680"]),
        ("the fourteenth day of June one thousand six hundred and eighty", vec!["14 Jun 1680"]),
        ("14 June, CIↃ IↃ C LXXX", vec!["14 Jun 1680"]),
        ("14 June CI) I) C LXXX", vec!["14 Jun 1680"]),
        ("14 June 1680 O.S.", vec!["14 Jun 1680"]),
        ("7 Hen. 7", vec!["22 Aug 1491 - 21 Aug 1492"]),
        ("2 & 3 P. & M.", vec!["25 Jul 1555 - 5 Jul 1556"]),
        (
            "in the second and third years of the reign of King Philip and Queen Mary",
            vec!["25 Jul 1555 - 5 Jul 1556"],
        ),
        ("1 W. & M.", vec!["13 Feb 1689 - 12 Feb 1690"]),
        ("12 Car. 2", vec!["30 Jan 1660 - 29 Jan 1661", "29 May 1671 - 28 May 1672"]),
        ("Anno Regni Regis Georgii III. vicesimo primo", vec!["25 Oct 1780 - 24 Oct 1781"]),
        ("Anno vicesimo primo Georgii III", vec!["25 Oct 1780 - 24 Oct 1781"]),
        (
            "the fifth day of November in the third year of the reign of our sovereign lord James of England and of Scotland the 39th",
            vec!["5 Nov 1605"],
        ),
        ("1 Mar.", vec!["6 Jul 1553 - 5 Jul 1554", "19 Jul 1553 - 5 Jul 1554"]),
        ("1 Mar. 1680", vec!["1 Mar 1681", "1 Mar 1680"]),
        ("St Matthias 1704", vec!["24 Feb 1705", "24 Feb 1704 - 25 Feb 1704"]),
        ("MDC. X Martii", vec!["10 Mar 1601", "10 Mar 1600"]),
    ];
    for (text, wanted) in cases {
        assert_eq!(told(text, Place::England), wanted, "{text}");
    }
}

#[test]
fn the_year_of_our_reign_is_found_under_every_king_who_had_it() {
    let text = "Given at Our Court at Merrin the nineteenth day of February, in the five and twentieth year of Our Reign";
    let clause = parse(text).unwrap();
    assert_eq!(clause.elements.len(), 2);
    assert_eq!(
        clause.unread.iter().map(|(w, _)| w.as_str()).collect::<Vec<_>>(),
        ["Given at Our Court at Merrin"]
    );
    let all = told(text, Place::England).join("; ");
    for year in ["1534", "1583", "1673", "1752", "1785"] {
        assert!(all.contains(&format!("19 Feb {year}")), "{all}");
    }
}

#[test]
fn a_day_in_both_styles_is_one_day() {
    let cases = [
        ("10/20 June 1650", vec!["10 Jun 1650"]),
        ("10th/20th of June 1650", vec!["10 Jun 1650"]),
        ("June 10/20, 1650", vec!["10 Jun 1650"]),
        ("20/10 June 1650", vec!["10 Jun 1650"]),
        ("8/18 Martii 1648/9", vec!["8 Mar 1649"]),
        ("28 June/8 July 1650", vec!["28 Jun 1650"]),
        ("10/21 June 1710", vec!["10 Jun 1710"]),
        // The year may be that of either style.
        ("31 Dec./10 Jan. 1651", vec!["31 Dec 1651", "31 Dec 1650"]),
        ("31 December/10 January 1650/1", vec!["31 Dec 1650"]),
    ];
    for (text, wanted) in cases {
        assert_eq!(told(text, Place::England), wanted, "{text}");
    }
    assert!(answer("10/21 June 1650", Place::England).readings.is_empty());
    let wrong = parse("10/25 June 1650").unwrap_err().to_string();
    assert!(
        wrong.starts_with("\"10/25 June\" (characters 1 to 10) is never one day by both calendars"),
        "{wrong}"
    );
}

/// What is not understood is told, numbers above all.
#[test]
fn numbers_that_were_not_read_are_told() {
    let unread =
        |text: &str| parse(text).unwrap().unread.into_iter().map(|(words, _)| words).collect::<Vec<_>>();
    assert_eq!(unread("1/2/3 June 1650"), ["1/2/3"]);
    assert_eq!(unread("the 10 June 1650, in the year"), Vec::<String>::new());
}

/// J. J. Bond, *Handy-Book for Verifying Dates* (1889), preface: the seal of 1648, "in the first yeare of freedome".
#[test]
fn years_of_freedom_are_the_commonwealths() {
    let seal = "In the first yeare of freedome by God's blessing restored 1648";
    assert_eq!(told(seal, Place::England), ["30 Jan 1649 - 24 Mar 1649"]);
    assert_eq!(told("the third year of England's liberty", Place::England), ["30 Jan 1651 - 29 Jan 1652"]);
    let wrong = parse("the ninth year of freedom").unwrap_err().to_string();
    assert!(wrong.contains("(characters 1 to 25)") && wrong.contains("expected 1 to 5"), "{wrong}");
}

/// Where handbooks count a reign in two ways, both are tried, named or not; a historian's count only where the king is named.
#[test]
fn a_reign_that_is_counted_in_two_ways_is_read_in_both() {
    let text = "the fifteenth day of June in the eight and twentieth year of our reign, 1754";
    // By 22 June the 28th year of George II began after that day, by 11 June before it.
    assert_eq!(told(text, Place::England), ["15 Jun 1754"]);
    let found = answer(text, Place::England).readings;
    assert_eq!(found[0].countings, [trade::reigns::Counting::Other]);
    let usual = answer("15 June 1755 in the 28th year of our reign", Place::England).readings;
    assert_eq!(usual[0].countings, [trade::reigns::Counting::Usual]);
    assert!(answer("10 June 1674, in the fourteenth year of our reign", Place::England).readings.is_empty());
    assert_eq!(told("10 June 1673, 14 Car. 2", Place::England), ["10 Jun 1673"]);
}

#[test]
fn the_same_words_under_other_reckonings() {
    let text = "24 March 1500";
    let told = |place| told(text, place);
    assert_eq!(told(Place::England), ["24 Mar 1501", "24 Mar 1500"]);
    assert_eq!(told(Place::Florence), ["24 Mar 1501"]);
    assert_eq!(told(Place::Pisa), ["24 Mar 1500"]);
    assert_eq!(told(Place::Venice), ["24 Mar 1500"]);
    assert_eq!(told(Place::Christmas), ["24 Mar 1500"]);
    assert_eq!(self::told("26 December 1500", Place::Christmas), ["26 Dec 1499"]);
    assert_eq!(self::told("26 September 1500", Place::September), ["26 Sep 1499"]);
    // Easter 1550 was on 6 April, Easter 1551 on 29 March: the French year 1550 had 24 March 1551 only.
    assert_eq!(self::told("24 March 1550", Place::France), ["24 Mar 1551"]);
    assert_eq!(self::told("10 June 1640", Place::NewStyle), ["10 Jun 1640"]);
    assert_eq!(self::told("8 January 1599", Place::Scotland), Vec::<String>::new());
    assert_eq!(self::told("8 January 1600", Place::Scotland), ["8 Jan 1600"]);
}

#[test]
fn what_never_was_has_no_day() {
    // The legal year 1600 held no Easter; Easter 1601 was on 12 April.
    assert_eq!(told("Easter Day 1600", Place::England), ["23 Mar 1600"], "by 1 January only");
    assert_eq!(
        answer("Easter Day 1600", Place::England).readings[0].reckonings[0].name,
        "the year from 1 January"
    );
    // The days that the change of style left out, and a weekday that does not fit.
    assert!(answer("5 September 1752", Place::England).readings.is_empty());
    assert!(answer("Monday 30 January 1648/9", Place::England).readings.is_empty());
    assert!(answer("29 February 1701/2", Place::England).readings.is_empty());
}

#[test]
fn kalends_of_january_lie_in_the_year_before() {
    assert_eq!(told("pridie Kal. Ian. 1600", Place::OldStyle), ["31 Dec 1600", "31 Dec 1599"]);
    assert_eq!(told("XIX Kal. Ian. 1600", Place::OldStyle), ["14 Dec 1600", "14 Dec 1599"]);
    assert_eq!(told("VI Kal. Mart. 1700", Place::OldStyle), ["24 Feb 1700 - 25 Feb 1700"]);
}

#[test]
fn errors_say_what_was_wrong_and_where() {
    let told = |text: &str| parse(text).unwrap_err().to_string();
    assert_eq!(told("31 September 1680"), "September has no day 31 (characters 1 to 12); expected 1 to 30");
    assert_eq!(
        told("XX Kal. Ian."),
        "there is no such day as \"XX Kal. Ian\" (characters 1 to 11): expected at most 19 before it, counting both ends"
    );
    assert!(told("60 Eliz.").contains("Elizabeth had no year 60 (characters 1 to 7): the last was the 45"));
    assert!(told("3 & 3 P. & M.").contains("no double year 3 and 3"));
    assert!(told("1648/7").contains("is no double year"));
    assert!(told("31 brumaire an II").contains("was no day of the Republic"));
    assert!(told("ultimo Kalendis Decembris").contains("said of more than one day"));
    assert!(told("the 19").contains("\"19\" (characters 5 to 6) is a number that belongs to nothing"));
    assert!(
        told("printed for the author").contains("nothing in \"printed for the author\" (characters 1 to 22)")
    );
    assert_eq!(parse("  "), Err(ClauseError::Empty));
    assert!(matches!(parse(&"may ".repeat(900)), Err(ClauseError::TooLong { .. })));
}
