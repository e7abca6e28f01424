//! All estimators of one set of counts, side by side.

use schemars::JsonSchema;
use serde::Serialize;

use super::laws::{Binomial, Fitted, Law, NegativeBinomial, Poisson, fitted};
use super::{
    CountOf, Counts, Coverage, EqualEditions, Estimate, Further, chao1, coverage, everyman, further,
    zelterman,
};

/// What a study is to tell beyond what it always tells.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Options {
    /// Copies printed of each edition, if that is known: for the binomial law.
    pub edition_size: Option<u32>,
    /// Further searches, as shares of all that was searched (0 < t ≤ 1); by default as much again.
    pub further: Vec<f64>,
}

/// What the counts say of what is lost.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Survival {
    /// Items with a copy.
    pub items: u64,
    /// Their copies.
    pub copies: u64,
    /// Items without a copy that are known from elsewhere. They are in no estimate: each estimate is to be at least as many.
    pub known_lost: u64,
    /// Items by their copies.
    pub counts: Vec<CountOf>,
    /// Which share of copies belongs to items that are known.
    pub coverage: Coverage,
    /// Chao's lower bound.
    pub chao1: Estimate,
    /// Zelterman's estimate; null without items in one copy and in two.
    pub zelterman: Option<Estimate>,
    /// What further searching would bring.
    pub further: Vec<Further>,
    /// Laws of how many copies are left, fitted and weighed.
    pub laws: Vec<Fitted>,
    /// What is told if all editions were equally likely to leave a copy.
    pub equal_editions: EqualEditions,
    /// What the user should know of these counts.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
}

/// Fewer items in two copies than this, and Chao's and Zelterman's numbers leap with each that is found (a proposal).
const FEW_PAIRS: u64 = 5;

/// Reckons everything.
pub fn study(counts: &Counts, options: &Options) -> Survival {
    let binomial = options.edition_size.and_then(|size| Binomial::new(size, counts));
    let mut laws: Vec<&dyn Law> = vec![&Poisson, &NegativeBinomial];
    if let Some(binomial) = &binomial {
        laws.push(binomial);
    }
    let shares = if options.further.is_empty() { &[1.0][..] } else { &options.further };
    let mut told = Survival {
        items: counts.items(),
        copies: counts.copies(),
        known_lost: counts.known_lost(),
        counts: counts.each().collect(),
        coverage: coverage(counts),
        chao1: chao1(counts),
        zelterman: zelterman(counts),
        further: shares.iter().filter_map(|&t| further(counts, t)).collect(),
        laws: fitted(&laws, counts),
        equal_editions: everyman(counts),
        warnings: Vec::new(),
        cautions: CAUTIONS.iter().map(|&c| c.to_owned()).collect(),
    };
    told.warnings = warnings(counts, options, binomial.is_some(), &told);
    told
}

const CAUTIONS: [&str; 5] = [
    "These are estimates of what the counts allow, not a finding of any lost edition.",
    "Editions were not printed in equal numbers nor kept alike: large folios in libraries outlive ballads on walls. Count \
     kinds that were kept alike by themselves, and compare.",
    "Copies are taken to survive one by one. A warehouse fire, a bound volume of pamphlets or one collector keeps or loses \
     many at once; then every interval here is too narrow.",
    "A copy counted twice, two editions taken for one, or one for two, moves the counts of one and two copies, and these \
     move everything.",
    "What is catalogued is not what survives: where libraries have not been searched alike, part of the unseen is only \
     unlooked for.",
];

fn warnings(counts: &Counts, options: &Options, is_binomial: bool, told: &Survival) -> Vec<String> {
    let mut out = Vec::new();
    let (f1, f2) = (counts.of(1), counts.of(2));
    if f1 == 0 {
        out.push(
            "No item is known in one copy alone: nothing speaks for lost ones, if the counts are whole."
                .to_owned(),
        );
    } else if f2 < FEW_PAIRS {
        out.push(format!(
            "Only {f2} {} known in two copies: Chao's and Zelterman's numbers leap with each that is found.",
            if f2 == 1 { "item is" } else { "items are" }
        ));
    }
    if let Some(size) = options.edition_size.filter(|_| !is_binomial) {
        out.push(format!(
            "An edition of {size} is smaller than the {} copies of one item: the binomial law was left out.",
            counts.most_copies()
        ));
    }
    for law in &told.laws {
        match (law.estimate.total, law.fit) {
            (None, _) => out.push(format!(
                "{}: the likelihood has no highest place, so it gives no number; only the lower bound of its interval means \
                 something.",
                law.law
            )),
            (_, Some(fit)) if fit.chance < 0.05 => out.push(format!(
                "{}: it does not fit (chance {:.3}); its number and its interval are not to be used.",
                law.law, fit.chance
            )),
            _ => {}
        }
        let odd = law.law == "Negative binomial" && law.parameters.first().is_some_and(|r| r.value > 1e4);
        if odd {
            out.push(
                "Negative binomial: it goes over into Poisson's law; nothing shows that chances were unlike."
                    .to_owned(),
            );
        }
    }
    let lost = told.chao1.total.map_or(0.0, |t| t - told.items as f64);
    if told.known_lost > 0 && told.known_lost as f64 > lost {
        out.push(format!(
            "{} items are known to be lost, more than Chao's lower bound tells ({lost:.0}): take the known number as the bound.",
            told.known_lost
        ));
    }
    out
}
