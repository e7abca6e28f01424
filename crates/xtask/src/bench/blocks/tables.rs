//! The tables of a run over simulated pairs of blocks.

use evidence::block::BlockVerdict;
use press::block::{AlterationKind, CopyCare, CutOf, Relation};

use super::Outcome;
use crate::bench::report::table::{Table, number};
use crate::bench::score::{Weighed, cllr, cllr_min, median, quantile};

/// Kinds of pairs, as they are counted.
const KINDS: [&str; 4] = ["same-block", "same-block-altered", "re-cut", "different-design"];
/// The same in words.
const WORDS: [&str; 4] = ["one block, or a cast of it", "altered", "cut again", "other design"];

/// Pixels to the inch and level of a sound photograph (DESIGN §5; levels stand for ink and blur).
const SOUND: (f64, u8) = (200.0, 2);

impl Outcome {
    fn is_sound(&self) -> bool {
        let p = &self.kept.planned.pair;
        p.ppi_a.0.min(p.ppi_b.0) >= SOUND.0 && p.level <= SOUND.1
    }

    /// Whether it may well be undetermined: a close or traced copy, or a cut under 20 mm (DESIGN §5).
    fn is_hard(&self) -> bool {
        let p = &self.kept.planned.pair;
        let close = matches!(p.relation, Relation::ReCut { care: CopyCare::Close | CopyCare::Traced });
        close || p.size.0 < 20.0
    }

    /// Whether what was said contradicts what is true. *Undetermined* never does.
    fn is_wrong(&self) -> bool {
        let said = self.said.verdict;
        said != BlockVerdict::Undetermined && said.code() != self.truth
    }

    /// Whether one block was told of two, or two of one: the mistake that matters most.
    fn is_gravely_wrong(&self) -> bool {
        let truly_one = self.truth.starts_with("same-block");
        self.said.verdict != BlockVerdict::Undetermined && self.said.verdict.is_one_block() != truly_one
    }
}

/// All tables.
pub(super) fn tables(outcomes: &[Outcome], title: &str, made_by: &str) -> String {
    let mut text = format!("### Blocks: {title}\n\n{} pairs; {made_by}.\n\n", outcomes.len());
    text += &confusion(outcomes, "all, down what is true", |_| true);
    text += &confusion(outcomes, "sound photographs, down what is true", Outcome::is_sound);
    text += &groups(outcomes);
    text += &weights(outcomes);
    text += &casts(outcomes);
    text += &super::yardstick::table(outcomes);
    text
}

/// How often it is said that the second may be of a cast in metal.
fn casts(outcomes: &[Outcome]) -> String {
    let mut table = Table::new(["told of one block", "pairs", "perhaps a cast"]);
    for (name, is_cast) in [("a cast in metal", true), ("the same wood", false)] {
        let of: Vec<&Outcome> = outcomes
            .iter()
            .filter(|o| o.said.verdict == BlockVerdict::SameBlock && o.truth == KINDS[0])
            .filter(|o| (o.kept.planned.pair.relation == Relation::Cast) == is_cast)
            .collect();
        let said = of.iter().filter(|o| o.said.perhaps_a_cast.is_some()).count();
        table.row([name.to_owned(), of.len().to_string(), said.to_string()]);
    }
    table.markdown()
}

fn confusion(outcomes: &[Outcome], name: &str, of: impl Fn(&Outcome) -> bool) -> String {
    let mut table = Table::new([name, "one block", "altered", "cut again", "other design", "undetermined"]);
    for (kind, words) in KINDS.iter().zip(WORDS) {
        let row: Vec<&Outcome> = outcomes.iter().filter(|o| of(o) && o.truth == *kind).collect();
        let told = |v: BlockVerdict| row.iter().filter(|o| o.said.verdict == v).count().to_string();
        table.row([format!("{words} ({})", row.len())].into_iter().chain(BlockVerdict::ALL.map(told)));
    }
    table.markdown()
}

/// How many of each group are wrong or undetermined.
fn groups(outcomes: &[Outcome]) -> String {
    let mut table = Table::new([
        "pairs",
        "how many",
        "one told of two, or two of one",
        "wrong in all",
        "undetermined",
        "s, median",
    ]);
    let mut row = |name: String, of: &dyn Fn(&Outcome) -> bool| {
        let of: Vec<&Outcome> = outcomes.iter().filter(|o| of(o)).collect();
        let count = |is: &dyn Fn(&Outcome) -> bool| of.iter().filter(|o| is(o)).count().to_string();
        let seconds: Vec<f64> = of.iter().map(|o| o.seconds).collect();
        table.row([
            name,
            of.len().to_string(),
            count(&|o| o.is_gravely_wrong()),
            count(&|o| o.is_wrong()),
            count(&|o| o.said.verdict == BlockVerdict::Undetermined),
            number(median(&seconds), 2),
        ]);
    };
    row("sound, not hard".to_owned(), &|o| o.is_sound() && !o.is_hard());
    row("sound, close or traced copies and cuts under 20 mm".to_owned(), &|o| o.is_sound() && o.is_hard());
    for level in 0..5u8 {
        row(format!("level {level}"), &|o| o.kept.planned.pair.level == level);
    }
    for (name, sizes) in
        [("15 and 20 mm", 0.0..21.0), ("30 to 60 mm", 21.0..61.0), ("85 mm and more", 61.0..999.0)]
    {
        row(name.to_owned(), &|o| sizes.contains(&o.kept.planned.pair.size.0));
    }
    for (name, ppi) in
        [("150 to 199 ppi", 0.0..200.0), ("200 to 299 ppi", 200.0..300.0), ("300 ppi and more", 300.0..9e9)]
    {
        row(name.to_owned(), &|o| {
            let p = &o.kept.planned.pair;
            ppi.contains(&p.ppi_a.0.min(p.ppi_b.0))
        });
    }
    let cast = |o: &Outcome| o.kept.planned.pair.relation == Relation::Cast;
    row("casts in metal".to_owned(), &cast);
    row("composites".to_owned(), &|o| matches!(o.kept.planned.pair.cut, CutOf::Composite { .. }));
    for (name, what) in [
        ("plugged", AlterationKind::Plug),
        ("cut down", AlterationKind::CutDown),
        ("lines entered again", AlterationKind::ReEntered),
    ] {
        let wanted = Relation::SameBlockAltered { what };
        row(name.to_owned(), &|o| o.kept.planned.pair.relation == wanted);
    }
    for (name, care) in [
        ("cut again in haste", CopyCare::Coarse),
        ("cut again by eye", CopyCare::Usual),
        ("cut again by eye and compasses", CopyCare::Close),
        ("cut again, traced", CopyCare::Traced),
    ] {
        let wanted = Relation::ReCut { care };
        row(name.to_owned(), &|o| o.kept.planned.pair.relation == wanted);
    }
    row("all".to_owned(), &|_| true);
    let seconds: Vec<f64> = outcomes.iter().map(|o| o.seconds).collect();
    let slowest = format!(
        "Seconds a pair, without decoding: half {}, 95 of 100 {}, at most {}.\n\n",
        number(median(&seconds), 2),
        number(quantile(&seconds, 0.95), 2),
        number(seconds.iter().copied().reduce(f64::max), 2)
    );
    table.markdown() + &slowest
}

/// How well the weight is calibrated: of single cuts of one block, unaltered, and cut again.
fn weights(outcomes: &[Outcome]) -> String {
    let weighed = |of: &dyn Fn(&Outcome) -> bool| -> Vec<Weighed> {
        outcomes
            .iter()
            .filter(|o| of(o) && matches!(o.kept.planned.pair.cut, CutOf::One { .. }))
            .filter(|o| o.truth == KINDS[0] || o.truth == KINDS[2])
            .filter_map(|o| Some(Weighed { log10: o.said.weight_log10?, same: o.truth == KINDS[0] }))
            .collect()
    };
    let mut table =
        Table::new(["weight of single cuts", "pairs", "Cllr", "least that any scale would leave"]);
    for (name, of) in [("all", weighed(&|_| true)), ("sound", weighed(&Outcome::is_sound))] {
        table.row([name.to_owned(), of.len().to_string(), number(cllr(&of), 3), number(cllr_min(&of), 3)]);
    }
    table.markdown()
}
