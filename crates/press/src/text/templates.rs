//! Sentences as the period built them, with slots that the lexicon fills.

use std::collections::BTreeMap;

use super::{Commission, PageKind, Role, lexicon};
use crate::chance::Chance;

/// Clauses of an order.
const ORDER: [&str; 6] = [
    "And whereas {offender} {adv} {wrong} {place}, {reason}, to the {adj} {harm} of {harmed}; It is further Ordered, That every such Person shall {duty} {time}, upon pain of {penalty}, {use}.",
    "And for the {adj} Ordering hereof, {officer} are {adv} to view {place}, and to {duty} {time}.",
    "Item, That no Person whatsoever, being an Inhabitant of the said Town, shall {adv} harbour {offender}, but shall {duty} {time}, under the Penalty of {penalty}.",
    "And if {officer} shall be found {adj} or remiss therein, he or they shall forfeit {penalty}, {use}.",
    "Provided always, That {harmed} shall not be charged {reason}, so as they {duty} {time}.",
    "And that the {adj} {harm} of {harmed} {place} may be the better prevented, {officer} shall {duty}, and likewise {duty}, {time}.",
];

/// Sentences of a treatise.
const TREATISE: [&str; 7] = [
    "{link} {subject} {does}, that {thing} is {quality} {when}, {aside}.",
    "{link} if {thing} be {quality}, you must {act}, and after {act} {when}.",
    "{link} {thing} and {thing} are both {quality}, yet {subject} {does} that the one is {quality} {when}.",
    "Of {thing} there be two Kinds, the one {quality}, the other {quality}; and {subject} {does} it {when}.",
    "{link} let {subject} {act} {when}, {aside}, lest {thing} become {quality}.",
    "What is said of {thing}, {aside}, may be said of {thing} also: for {subject} {does} that it is {quality}.",
    "{link} in the Country about *{any-town}* they {act} {when}, and account {thing} {quality}.",
];

/// Sentences of a notice.
const NOTICE: [&str; 5] = [
    "Lost {when} {place}, {lost}, {mark}, and {mark}. Whoever brings the same to *{person},* at *{sign}* in {street}, shall have {penalty} Reward.",
    "{sell} by *{person},* at *{sign}* in {street}, {goods}, and {goods}, {time}.",
    "Strayed or Stolen from *{person}* of *{any-town},* {lost}, {mark}, {when}; if any one give Notice thereof, he shall be well Rewarded.",
    "These are to give Notice, That {goods} are {sell-low} {place} {time}, where Attendance will be given by *{person}.*",
    "All Persons indebted to the Estate of *{person},* late of *{any-town},* deceased, are desired to {duty} {time}.",
];

/// Two lines of a ballad; the rime goes on the second.
const BALLAD: [(&str, &str); 4] = [
    ("{ballad-open} {ballad-mid},", "There went {ballad-who} {rime};"),
    ("{ballad-who} {ballad-go} {ballad-where},", "{ballad-mid} {rime},"),
    ("{ballad-open} {ballad-who} {ballad-go},", "{ballad-where} {rime},"),
    ("For {ballad-mid} and {ballad-mid},", "Were heard {ballad-where} {rime}."),
];

/// Writes one text. `frame` and `body` are separate streams, so that the body can change alone.
pub(super) struct Writer {
    frame: Chance,
    body: Chance,
    words: usize,
    fixed: BTreeMap<&'static str, String>,
}

type Passages = Vec<(Role, String)>;

impl Writer {
    pub(super) fn new(commission: &Commission) -> Self {
        let mut frame = Chance::new(commission.frame, "frame of the text");
        let mut fixed = BTreeMap::new();
        fixed.insert("town", town(&mut frame));
        fixed.insert("printer", person(&mut frame));
        fixed.insert("author", person(&mut frame));
        let span = match commission.kind {
            PageKind::Ballad | PageKind::BookLeaf => (1610, 1720),
            _ => (1590, 1780),
        };
        fixed.insert("year", frame.whole(span.0, span.1).to_string());
        let words = commission.words.clamp(40, 900);
        Self { frame, body: Chance::new(commission.body, "body of the text"), words, fixed }
    }

    fn framed(&mut self, template: &str) -> String {
        filled(template, &self.fixed, &mut self.frame)
    }

    fn bodied(&mut self, template: &str) -> String {
        filled(template, &self.fixed, &mut self.body)
    }

    /// Sentences until there are words enough; no sentence twice running.
    fn prose(&mut self, templates: &[&str], words: usize) -> String {
        let (mut out, mut last) = (String::new(), usize::MAX);
        while out.split_whitespace().count() < words {
            let choice = self.body.below(templates.len());
            if choice != last {
                last = choice;
                let sentence = self.bodied(templates[choice]);
                out.push(' ');
                out.push_str(&raised(&sentence));
            }
        }
        out
    }

    fn imprint(&mut self) -> String {
        let template = if self.frame.happens(0.5) {
            "*{town}:* Printed by *{printer},* at *{sign}* in {street}, {year}."
        } else {
            "Printed for *{printer},* and are to be sold at *{sign}* in {street} in *{town}.* {year}."
        };
        self.framed(template)
    }

    pub(super) fn order(&mut self) -> Passages {
        let mut page = vec![
            (Role::Display(2), self.framed("By {office} of *{town}.*")),
            (Role::Display(0), "^AN ORDER^".to_owned()),
            (
                Role::Display(3),
                self.framed("*For the {matter} within the said Town and the Liberties thereof.*"),
            ),
        ];
        let opening = self.framed(
            "Whereas {adj} Complaint hath been made unto {office} of the Town of *{town},* at their {court} holden the {day} Day of *{month}* last past,",
        );
        let matter = self.bodied("that {offender} {adv} {wrong} {place}, to the {adj} {harm} of {harmed}; It is therefore Ordered, That {harmed} shall {duty} {time}.");
        let rest = self.prose(&ORDER, self.words);
        page.push((Role::Body, format!("{opening} {matter} {rest}")));
        let close = self.framed(
            "And to the end that none may pretend Ignorance hereof, {officer} are required to cause this Order to be fixed upon the Market-Cross, and upon the Doors of every Church and Chappel within the said Town.",
        );
        page.push((Role::Body, close));
        page.push((
            Role::Display(3),
            self.framed("*Given at the {court} the {day} Day of {month}, {year}.*"),
        ));
        page.push((Role::Imprint, self.imprint()));
        page
    }

    pub(super) fn ballad(&mut self) -> Passages {
        let mut page = vec![
            (Role::Display(1), self.framed("The Lamentation of {ballad-who} of *{town}.*")),
            (Role::Display(3), self.framed("*To the Tune of,* {tune}.")),
        ];
        let stanzas = (self.words / 24).clamp(2, 30);
        let mut rimes = ["rime-a", "rime-b", "rime-c", "rime-d"];
        for stanza in 0..stanzas {
            self.body.shuffle(&mut rimes);
            for half in 0..2 {
                let (first, second) = BALLAD[self.body.below(BALLAD.len())];
                let second = second.replace("{rime}", &format!("{{{}}}", rimes[stanza % 4]));
                for line in [first, &second] {
                    let verse = self.bodied(line);
                    let verse = if half == 1 && line == second { ended(&verse) } else { verse };
                    page.push((Role::Verse(stanza as u8), raised(&verse)));
                }
            }
        }
        page.push((Role::Imprint, self.imprint()));
        page
    }

    pub(super) fn title_page(&mut self) -> Passages {
        let body = self.prose(
            &[
                "wherein is shewed how {thing} is {quality} {when}, and how {thing} may be made {quality};",
                "with a true Account of {thing}, and of {thing}, {aside};",
            ],
            (self.words / 6).clamp(14, 40),
        );
        let body = ended(body.trim());
        vec![
            (Role::Display(2), "^THE^".to_owned()),
            (Role::Display(0), self.framed("^{book}:^")),
            (Role::Display(3), "^OR,^".to_owned()),
            (Role::Display(1), self.framed("A {adj} and {adj} Account of {thing} and {thing}.")),
            (Role::Body, body),
            (Role::Display(3), self.framed("*{virtue}.*")),
            (Role::Display(2), self.framed("By *{author},* of *{town}.*")),
            (Role::Imprint, self.imprint()),
        ]
    }

    pub(super) fn notice(&mut self) -> Passages {
        let mut page = vec![
            (Role::Display(0), "^ADVERTISEMENTS.^".to_owned()),
            (Role::Display(3), self.framed("*From the Office at {sign} in {street}, {town}.*")),
        ];
        let count = (self.words / 40).clamp(2, 14);
        for _ in 0..count {
            let notice = self.prose(&NOTICE, 30);
            page.push((Role::Body, notice));
        }
        page.push((Role::Imprint, self.imprint()));
        page
    }

    pub(super) fn book_leaf(&mut self) -> Passages {
        let number = self.frame.whole(2, 180);
        let mut page = vec![(Role::Headline, self.framed(&format!("*The {{book}}.* {number}")))];
        if self.frame.happens(0.6) {
            page.push((Role::Display(2), self.framed(&format!("^CHAP.^ {}.", 1 + number / 9))));
            page.push((Role::Display(3), self.framed("*Of {thing}, and of {thing}.*")));
        }
        let paragraphs = self.frame.whole(1, 3);
        for _ in 0..paragraphs {
            let body = self.prose(&TREATISE, self.words / paragraphs);
            page.push((Role::Body, body));
        }
        let letter = *self.frame.pick(&["A", "B", "C", "D", "E", "F", "G", "H", "K"]);
        let leaf = self.frame.whole(1, 4);
        let signature = if leaf == 1 { letter.to_owned() } else { format!("{letter}{leaf}") };
        page.push((Role::Signature, signature));
        page.push((Role::Catchword, self.bodied("{link}").split(' ').next().unwrap_or("and").to_owned()));
        page
    }
}

/// Fills the slots of a template, those of the names first, then those of the lexicon, then theirs.
fn filled(template: &str, fixed: &BTreeMap<&'static str, String>, chance: &mut Chance) -> String {
    let mut out = String::new();
    let mut rest = template;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        let (slot, tail) = after.split_once('}').unwrap_or((after, ""));
        rest = tail;
        let word = match slot {
            "person" => person(chance),
            "any-town" => town(chance),
            "day" => chance
                .pick(&["first", "third", "fifth", "eighth", "tenth", "twelfth", "fourteenth", "twentieth"])
                .to_string(),
            "month" => chance
                .pick(&[
                    "January",
                    "March",
                    "April",
                    "May",
                    "June",
                    "August",
                    "September",
                    "October",
                    "November",
                ])
                .to_string(),
            "sell-low" => {
                chance.pick(&["to be sold", "to be lett", "to be seen", "to be bought"]).to_string()
            }
            _ => match (fixed.get(slot), lexicon::choices(slot)) {
                (Some(name), _) => name.clone(),
                (None, Some(list)) => (*chance.pick(list)).to_owned(),
                (None, None) => String::new(),
            },
        };
        out.push_str(&word);
    }
    out + rest
}

fn town(chance: &mut Chance) -> String {
    joined(chance, "town-first", "town-last")
}

fn person(chance: &mut Chance) -> String {
    let first = lexicon::choices("christian").map_or("", |list| *chance.pick(list));
    format!("{first} {}", joined(chance, "sur-first", "sur-last"))
}

fn joined(chance: &mut Chance, first: &str, last: &str) -> String {
    let mut part = |slot| lexicon::choices(slot).map_or("", |list| *chance.pick(list));
    let (first, last) = (part(first), part(last));
    // No letter three times running where the halves meet.
    let doubled =
        first.ends_with(&last[..1]) && first.len() > 1 && first[..first.len() - 1].ends_with(&last[..1]);
    format!("{first}{}", if doubled { &last[1..] } else { last })
}

/// With a capital first letter.
fn raised(sentence: &str) -> String {
    let sentence = sentence.trim();
    let mut letters = sentence.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// With a full point in place of whatever point ends it.
fn ended(sentence: &str) -> String {
    format!("{}.", sentence.trim_end_matches([',', ';', '.', ':']))
}
