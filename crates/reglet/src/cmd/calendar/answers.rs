//! What is asked of the calendar, answered as a record and in words.

use super::record::{AdoptionFound, CalendarRecord, DayFound, ReignFound, Stretch, StretchFound};
use super::words::{citations, day_words, english, republican, stretch_words, years_of};
use anyhow::{Context as _, Result, bail};
use publish::record::PROGRAM;
use trade::calendar::{
    ADOPTIONS, Adoption, Calendar, Date, Day, DayRange, FEASTS, Kind, Term, adoption, plain_date,
};
use trade::clause::{Element, Reckoning, YearStart, parse};
use trade::reigns::{Counting, JOINT_YEARS, REIGNS, Realm, Reign, Sovereign, year};

type Answer = (CalendarRecord, String);

/// A day that was typed: a date or a Julian day number.
fn day_of(text: &str, calendar: Calendar) -> Result<Day> {
    let text = text.trim();
    if !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit()) {
        let number = text.parse().ok().and_then(Day::from_number);
        return number.with_context(|| {
            format!(
                "{text} is no Julian day number that is counted here; expected 0 (1 January 4713 BC) to {}, or a date as '30 January {text}'",
                Day::LAST.number()
            )
        });
    }
    let date = plain_date(text)?;
    Ok(calendar.day(date.year, date.month, date.day)?)
}

fn plain(calendar: Calendar) -> Reckoning {
    Reckoning::plain(calendar, YearStart::January, "")
}

fn numbers(date: Date) -> String {
    format!("{:04}-{:02}-{:02}", date.year, date.month.number(), date.day)
}

fn found(name: Option<String>, day: Day) -> DayFound {
    DayFound {
        name,
        day_number: day.number(),
        weekday: day.weekday().name().to_owned(),
        old_style: numbers(Calendar::JULIAN.date(day)),
        new_style: numbers(Calendar::GREGORIAN.date(day)),
        legal_year_in_england: years_of(day).0,
        republican: republican(day),
        reigns: citations(day),
    }
}

fn record() -> CalendarRecord {
    CalendarRecord { program: PROGRAM.to_owned(), ..CalendarRecord::default() }
}

pub(super) fn convert(text: &str, calendar: Calendar) -> Result<Answer> {
    let day = day_of(text, calendar)?;
    let told = found(None, day);
    let mut lines = vec![
        format!("{} {}", told.weekday, calendar.date(day)),
        format!("  Old Style (Julian calendar):    {}", Calendar::JULIAN.date(day)),
        format!("  New Style (Gregorian calendar): {}", Calendar::GREGORIAN.date(day)),
    ];
    let (legal, historical) = years_of(day);
    if legal != historical && historical > 1100 {
        lines.push(format!(
            "  In England then written:        {} (its legal year {legal} ran to 24 March)",
            english(day)
        ));
    }
    if let Some(republican) = &told.republican {
        lines.push(format!("  French Republic:                {republican}"));
    }
    if !told.reigns.is_empty() {
        lines.push(format!("  Year of the reign:              {}", told.reigns.join("; ")));
    } else if Realm::England.is_without_king(day) {
        lines.push("  Year of the reign:              none; England had no king".to_owned());
    }
    lines.push(format!("  Julian day number:              {}", told.day_number));
    Ok((CalendarRecord { days: vec![told], ..record() }, lines.join("\n")))
}

pub(super) fn weekday(text: &str, calendar: Calendar) -> Result<Answer> {
    let day = day_of(text, calendar)?;
    let words = format!("{} was a {}.", calendar.date(day), day.weekday().name());
    Ok((CalendarRecord { days: vec![found(None, day)], ..record() }, words))
}

pub(super) fn feasts(year: i32, calendar: Calendar) -> Result<Answer> {
    let mut all: Vec<(Day, &str, Kind)> = Vec::new();
    for feast in FEASTS {
        // A feast in the days that the change of style left out was not kept that year.
        if let Ok(days) = feast.days(year, calendar) {
            all.extend(days.into_iter().flatten().map(|day| (day, feast.name, feast.kind)));
        }
    }
    if all.is_empty() {
        bail!("the year {year} is not counted here; give one from 1 to 2100");
    }
    all.sort_by_key(|(day, name, _)| (*day, *name));
    let style = if calendar.is_gregorian_on(all[all.len() / 2].0) { "New Style" } else { "Old Style" };
    let mut lines = vec![format!("Feasts of {year}, {style}, the year from 1 January:")];
    for (day, name, kind) in &all {
        let date = calendar.date(*day);
        let kind = match kind {
            Kind::QuarterDay => "  (quarter day)",
            Kind::ScottishTerm => "  (term day in Scotland)",
            Kind::Feast => "",
        };
        lines.push(format!(
            "  {:>2} {:<9} {:<9} {name}{kind}",
            date.day,
            date.month.name(),
            day.weekday().name()
        ));
    }
    let days = all.iter().map(|(day, name, _)| found(Some((*name).to_owned()), *day)).collect();
    Ok((CalendarRecord { days, ..record() }, lines.join("\n")))
}

pub(super) fn terms(year: i32) -> Result<Answer> {
    let mut lines = vec![format!("Law terms at Westminster in {year}, the year from 1 January:")];
    let mut stretches = Vec::new();
    for term in Term::ALL {
        let days = term.days(year)?;
        let words = format!("{} to {}", english(days.first), english(days.last));
        lines.push(format!("  {:<16} {words}", term.name()));
        let days = Stretch::of(DayRange { first: days.first, last: days.last }, words);
        stretches.push(StretchFound { name: term.name().to_owned(), days });
    }
    if year < 1641 {
        lines.push(
            "Before 1641 the beginning of Michaelmas term is not certain here: about 9 October.".to_owned(),
        );
    }
    Ok((CalendarRecord { stretches, ..record() }, lines.join("\n")))
}

pub(super) fn reigns(who: Option<&str>) -> Result<Answer> {
    let Some(who) = who else { return Ok(all_reigns()) };
    if let Ok(date) = plain_date(who) {
        let day = Calendar::british().day(date.year, date.month, date.day)?;
        return Ok(reigns_of_day(day));
    }
    // "Charles II" is read as the name of the first year of a reign.
    let element = parse(&format!("1 {who}")).ok().and_then(|c| c.elements.into_iter().next());
    let named = match element.map(|p| p.element) {
        Some(Element::Reign { sovereigns, .. }) => sovereigns,
        _ => REIGNS.iter().filter(|r| r.name.eq_ignore_ascii_case(who.trim())).map(|r| r.sovereign).collect(),
    };
    if named.is_empty() {
        bail!(
            "\"{who}\" is no king or queen from 1485 to 1837; expected a name as 'Charles II' or 'Car. 2', or a day as '29 May 1660'"
        );
    }
    let mut whole = record();
    let mut lines = Vec::new();
    for reign in named.into_iter().filter_map(Reign::of) {
        lines.push(line_of(reign));
        whole.reigns.push(reign_found(reign));
        whole.stretches.extend(years_of_reign(reign));
    }
    lines.extend(whole.stretches.iter().map(|s| format!("  {:<22} {}", s.name, s.days.words)));
    Ok((whole, lines.join("\n")))
}

fn years_of_reign(reign: &'static Reign) -> Vec<StretchFound> {
    let reckoning = plain(Calendar::british());
    let stretch = |name: String, days: DayRange| StretchFound {
        name,
        days: Stretch::of(days, stretch_words(days, &reckoning)),
    };
    if reign.sovereign == Sovereign::PhilipAndMary {
        let all = JOINT_YEARS.iter();
        return all
            .map(|y| stretch(format!("{} & {} {}", y.king, y.queen, reign.abbreviation), y.days()))
            .collect();
    }
    let mut all = Vec::new();
    for number in 1..=reign.last_year {
        let usual = year(reign.sovereign, number, Counting::Usual);
        let other = year(reign.sovereign, number, Counting::Other);
        let name = format!("{number} {}", reign.abbreviation);
        all.extend(usual.map(|days| stretch(name.clone(), days)));
        if other != usual {
            all.extend(other.map(|days| stretch(format!("  or {name}"), days)));
        }
    }
    all
}

fn line_of(reign: &Reign) -> String {
    let note = if reign.note.is_empty() { String::new() } else { format!("; {}", reign.note) };
    let first = english(reign.first_day());
    format!("{} ({}): {first} to {}{note}", reign.name, reign.abbreviation, english(reign.last_day()))
}

fn reign_found(reign: &Reign) -> ReignFound {
    ReignFound {
        name: reign.name.to_owned(),
        abbreviation: reign.abbreviation.to_owned(),
        is_of_scotland: reign.realm == Realm::Scotland,
        from_day_number: reign.first_day().number(),
        to_day_number: reign.last_day().number(),
        last_year: reign.last_year,
        note: reign.note.to_owned(),
    }
}

fn all_reigns() -> Answer {
    let lines: Vec<String> = REIGNS.iter().map(line_of).collect();
    (CalendarRecord { reigns: REIGNS.iter().map(reign_found).collect(), ..record() }, lines.join("\n"))
}

fn reigns_of_day(day: Day) -> Answer {
    let told = found(None, day);
    let words = if told.reigns.is_empty() {
        let why = if Realm::England.is_without_king(day) {
            "England had no king"
        } else {
            "it lies outside the table"
        };
        format!("{}: no year of a reign, because {why}.", english(day))
    } else {
        let without = if Realm::England.is_without_king(day) {
            "\nEngland had no king that day, and acts bore no year of a reign; it was counted so only afterwards."
        } else {
            ""
        };
        format!("{}{without}", day_words(day, &plain(Calendar::british())))
    };
    (CalendarRecord { days: vec![told], ..record() }, words)
}

pub(super) fn new_style(country: Option<&str>) -> Answer {
    let named: Vec<&Adoption> = match country {
        Some(name) => adoption(name).into_iter().collect(),
        None => ADOPTIONS.iter().collect(),
    };
    if named.is_empty() {
        let all: Vec<&str> = ADOPTIONS.iter().map(|a| a.place).collect();
        return (
            record(),
            format!("\"{}\" is not in the list. These are: {}.", country.unwrap_or_default(), all.join("; ")),
        );
    }
    let mut lines = Vec::new();
    let mut adoptions = Vec::new();
    for row in named {
        let (Some(old), Some(new)) = (row.last_old(), row.first_new()) else { continue };
        let (last, first) = (Calendar::JULIAN.date(old), Calendar::GREGORIAN.date(new));
        let weekdays = (old.weekday().name(), new.weekday().name());
        let note = if row.note.is_empty() { String::new() } else { format!("\n    {}", row.note) };
        lines.push(format!(
            "{}: {} {last} was followed by {} {first}{note}\n    Source: {}",
            row.place, weekdays.0, weekdays.1, row.source
        ));
        adoptions.push(AdoptionFound {
            place: row.place.to_owned(),
            last_old_style: numbers(last),
            first_new_style: numbers(first),
            note: row.note.to_owned(),
            source: row.source.to_owned(),
        });
    }
    (CalendarRecord { adoptions, ..record() }, lines.join("\n"))
}
