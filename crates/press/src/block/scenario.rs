//! Pairs of impressions whose relation is known, and histories of one block.

use serde::{Deserialize, Serialize};
use sheet::{Mm, Ppi};

use super::Block;
use super::alteration::AlterationKind;
use super::conditions;
use super::design::BlockKind;
use super::judged::Presence;
use super::life::Life;
use super::print::{BlockPull, Standing, Surroundings, print_blocks};
use super::recut::CopyCare;
use crate::chance::Chance;
use crate::error::PressError;
use crate::fount::Founts;
use crate::pull::Conditions;

/// What kind of cut a pair shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "cut")]
pub enum CutOf {
    /// One block.
    One {
        /// Its kind.
        block: BlockKind,
    },
    /// Two or three pictures side by side, each its own block.
    Composite {
        /// How many.
        pieces: u8,
    },
}

/// What the block of the second impression is to that of the first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is")]
pub enum Relation {
    /// The same block, years later.
    SameBlock,
    /// The same block, plugged, cut down, or with lines entered again.
    SameBlockAltered {
        /// What was done to it.
        what: AlterationKind,
    },
    /// The design cut again.
    ReCut {
        /// How carefully.
        care: CopyCare,
    },
    /// Another design of the same kind and letter.
    OtherDesign,
    /// Another design of another kind.
    Unrelated,
    /// A cast of the block in metal.
    Cast,
}

impl Relation {
    /// The verdict that is right for it.
    pub fn verdict(self) -> &'static str {
        match self {
            Self::SameBlock | Self::Cast => "same-block",
            Self::SameBlockAltered { .. } => "same-block-altered",
            Self::ReCut { .. } => "re-cut",
            Self::OtherDesign | Self::Unrelated => "different-design",
        }
    }
}

/// A pair asked for.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct BlockPair {
    /// What the blocks are to each other. Of a composite, what one of its pieces is; the others are the same blocks.
    pub relation: Relation,
    /// What is shown.
    pub cut: CutOf,
    /// The larger side of the first block (of a composite, the height of its pieces): 15 to 150 mm.
    pub size: Mm,
    /// Years between the impressions, 0 to 80.
    pub years: f64,
    /// Difficulty of ink, paper and photograph: 0 to 4, as of a [`crate::scenario::Scenario`].
    pub level: u8,
    /// Resolution of the first photograph.
    pub ppi_a: Ppi,
    /// Resolution of the second photograph.
    pub ppi_b: Ppi,
    /// Whether the blocks stand alone or among type, in the first and the second.
    pub among: [Surroundings; 2],
    /// Everything else.
    pub seed: u64,
}

/// What is true of one piece of a pair.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct PieceTruth {
    /// What the second block is to the first.
    pub relation: Relation,
    /// The right verdict, as the program words it.
    pub verdict: String,
    /// Whether a copy was traced without being turned, so that it shows the design mirrored.
    pub mirrored: bool,
    /// Damage that one impression shows and the other does not, both judgeable: its number in the life of the first
    /// block, and whether the first has it.
    pub told_by: Vec<(u32, bool)>,
}

/// Two photographs with their truths.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintedBlocks {
    /// The earlier impression.
    pub a: BlockPull,
    /// The later impression.
    pub b: BlockPull,
    /// What each piece is to its fellow, from left to right.
    pub pieces: Vec<PieceTruth>,
    /// The lives behind the first.
    pub lives_a: Vec<Life>,
    /// The lives behind the second; those of the first but where another block was printed.
    pub lives_b: Vec<Life>,
}

/// Year in which the blocks of scenarios are cut.
const CUT: f64 = 1600.0;
/// Mean damages a year of a block of 60 by 60 mm: least and most. A free parameter: published rates (S. B. Hedges, *Proc.
/// R. Soc. A* 462 (2006), 3555-3573) are of whole books. Smaller blocks have fewer lines to break.
const RATE: [f64; 2] = [0.2, 1.0];

impl BlockPair {
    /// Designs, cuts, prints and photographs the pair.
    ///
    /// # Errors
    /// [`PressError`] when a photograph would be too large for the resolution asked for.
    pub fn print(&self, founts: &Founts) -> Result<PrintedBlocks, PressError> {
        let mut chance = Chance::new(self.seed, "pair of blocks");
        let year_a = CUT + chance.between(1.0, 40.0);
        // What is altered is altered between the impressions: some days at least.
        let least = if matches!(self.relation, Relation::SameBlockAltered { .. }) { 0.02 } else { 0.0 };
        let year_b = year_a + self.years.clamp(least, 80.0);
        let rate = chance.between(RATE[0], RATE[1]);
        let kinds = self.kinds(&mut chance);
        let odd = chance.below(kinds.len());
        let (mut lives_a, mut lives_b, mut pieces) = (Vec::new(), Vec::new(), Vec::new());
        for (i, &(kind, size)) in kinds.iter().enumerate() {
            let block = Block::cut(founts, kind, size, chance.seed());
            let area = size.0.0 * size.1.0 / 3600.0;
            let rate = rate * area.powf(0.7);
            let mut life = Life::lived(block, CUT, year_b + 1.0, rate, chance.seed());
            let relation = if i == odd { self.relation } else { Relation::SameBlock };
            let mirrored =
                matches!(relation, Relation::ReCut { .. }) && may_be_mirrored(kind) && chance.happens(0.15);
            let later =
                self.later(founts, relation, &mut life, mirrored, (year_a, year_b, rate), &mut chance);
            let verdict = relation.verdict().to_owned();
            lives_b.push(later);
            lives_a.push(life);
            pieces.push(PieceTruth { relation, verdict, mirrored, told_by: Vec::new() });
        }
        let conditions = self.conditions(chance.seed());
        let [a, b] = [(&lives_a, year_a, 0), (&lives_b, year_b, 1)].map(|(lives, year, k)| {
            let standing: Vec<Standing<'_>> = lives.iter().map(|life| Standing { life, year }).collect();
            (standing, self.among[k], &conditions[k], chance.seed())
        });
        let a = print_blocks(founts, &a.0, a.1, a.2, a.3)?;
        let b = print_blocks(founts, &b.0, b.1, b.2, b.3)?;
        for (i, piece) in pieces.iter_mut().enumerate() {
            if matches!(piece.relation, Relation::SameBlock | Relation::SameBlockAltered { .. }) {
                piece.told_by = told(&a, &b, i);
            }
        }
        Ok(PrintedBlocks { a, b, pieces, lives_a, lives_b })
    }

    fn kinds(&self, chance: &mut Chance) -> Vec<(BlockKind, (Mm, Mm))> {
        let size = Mm(self.size.0.clamp(15.0, 150.0));
        match self.cut {
            CutOf::One { block } => vec![(block, block.size(size, chance.seed()))],
            CutOf::Composite { pieces } => (0..pieces.clamp(2, 3))
                .map(|_| (BlockKind::Pictorial, (Mm(size.0 * chance.between(0.4, 0.75)), size)))
                .collect(),
        }
    }

    /// The block of the second impression.
    fn later(
        &self,
        founts: &Founts,
        relation: Relation,
        life: &mut Life,
        mirrored: bool,
        (year_a, year_b, rate): (f64, f64, f64),
        chance: &mut Chance,
    ) -> Life {
        let (kind, size) = (life.block.kind, life.block.size);
        let since = year_a + 0.4 * (year_b - year_a);
        match relation {
            Relation::SameBlock => life.clone(),
            Relation::SameBlockAltered { what } => {
                life.altered(what, since, chance.seed());
                life.clone()
            }
            Relation::ReCut { care } => {
                let copy = life.block.recut(care, mirrored, chance.seed());
                Life::lived(copy, since, year_b + 1.0, rate, chance.seed())
            }
            Relation::OtherDesign => {
                let other = Block::cut(founts, kind, size, chance.seed());
                Life::lived(other, CUT, year_b + 1.0, rate, chance.seed())
            }
            Relation::Unrelated => {
                let kinds: Vec<BlockKind> = BlockKind::ALL
                    .into_iter()
                    .filter(|k| std::mem::discriminant(k) != std::mem::discriminant(&kind))
                    .collect();
                let kind = *chance.pick(&kinds);
                let other = Block::cut(founts, kind, kind.size(self.size, chance.seed()), chance.seed());
                Life::lived(other, CUT, year_b + 1.0, rate, chance.seed())
            }
            Relation::Cast => life.cast_off(since, year_b + 1.0, 0.6 * rate, chance.seed()),
        }
    }

    fn conditions(&self, seed: u64) -> [Conditions; 2] {
        let mut chance = Chance::new(seed, "conditions of blocks");
        let ppi = [self.ppi_a, self.ppi_b];
        let mut both = ppi.map(|ppi| conditions::of_impression(ppi, self.level, &mut chance));
        if self.level >= 3 && chance.happens(0.3) {
            // Blocks are printed upside down, and photographs are taken from the side.
            let turn = &mut both[1].camera.turn;
            turn.0 += *chance.pick(&[180.0, 180.0, 90.0, 270.0]);
        }
        both
    }
}

/// Letters are set right by whoever copies a print on the wood; a picture or an ornament need not be.
fn may_be_mirrored(kind: BlockKind) -> bool {
    !matches!(kind, BlockKind::Initial { .. } | BlockKind::Arms | BlockKind::Device)
}

/// Damage that only one of two impressions of a block shows, where both can be judged.
fn told(a: &BlockPull, b: &BlockPull, piece: usize) -> Vec<(u32, bool)> {
    let shown = |p: &BlockPull| p.truth.cuts.get(piece).map(|c| c.damages.clone()).unwrap_or_default();
    let later = shown(b);
    shown(a)
        .iter()
        .filter_map(|d| {
            let other = later.iter().find(|o| o.damage == d.damage)?;
            match (d.presence, other.presence) {
                (Presence::Present, Presence::Absent) => Some((d.damage, true)),
                (Presence::Absent, Presence::Present) => Some((d.damage, false)),
                _ => None,
            }
        })
        .collect()
}

/// Many impressions of one block through the years.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct BlockHistory {
    /// What block.
    pub kind: BlockKind,
    /// Its larger side.
    pub size: Mm,
    /// How many impressions survive.
    pub impressions: usize,
    /// Years from its cutting to the last.
    pub years: f64,
    /// Mean damages in a year.
    pub rate: f64,
    /// Whether a plug was let in at some time.
    pub plugged: bool,
    /// Difficulty of ink, paper and photograph, 0 to 4.
    pub level: u8,
    /// Resolutions, in turn.
    pub ppi: [Ppi; 2],
    /// What it stands among.
    pub among: Surroundings,
    /// Everything else.
    pub seed: u64,
}

/// A history printed.
#[derive(Debug, Clone, PartialEq)]
pub struct PrintedHistory {
    /// The block and all that befell it.
    pub life: Life,
    /// Year of each impression, rising.
    pub years: Vec<f64>,
    /// The impressions, in the order of their years.
    pub pulls: Vec<BlockPull>,
}

impl PrintedHistory {
    /// For each damage, in the order of onset: what each impression says of it.
    pub fn table(&self) -> Vec<(u32, Vec<Presence>)> {
        self.life
            .damages
            .iter()
            .enumerate()
            .map(|(k, d)| {
                let row =
                    self.pulls.iter().filter_map(|p| Some(p.truth.cuts.first()?.damages.get(k)?.presence));
                (d.id, row.collect())
            })
            .collect()
    }
}

impl BlockHistory {
    /// Prints all impressions. Editions come every few years, several impressions of one edition in one year.
    ///
    /// # Errors
    /// [`PressError`] when a photograph would be too large for the resolution asked for.
    pub fn print(&self, founts: &Founts) -> Result<PrintedHistory, PressError> {
        let mut chance = Chance::new(self.seed, "history of a block");
        let block = Block::cut(founts, self.kind, self.kind.size(self.size, chance.seed()), chance.seed());
        let mut life = Life::lived(block, CUT, CUT + self.years + 1.0, self.rate, chance.seed());
        if self.plugged {
            life.altered(AlterationKind::Plug, CUT + self.years * chance.between(0.4, 0.8), chance.seed());
        }
        let editions = self.impressions.div_ceil(2).max(self.impressions.min(2)).max(1);
        let mut years: Vec<f64> = (0..self.impressions)
            .map(|i| CUT + (self.years * (i % editions) as f64 / (editions - 1).max(1) as f64).floor())
            .collect();
        years.sort_by(f64::total_cmp);
        let mut pulls = Vec::with_capacity(years.len());
        for (i, &year) in years.iter().enumerate() {
            let conditions = conditions::of_impression(self.ppi[i % 2], self.level, &mut chance);
            pulls.push(print_blocks(
                founts,
                &[Standing { life: &life, year }],
                self.among,
                &conditions,
                chance.seed(),
            )?);
        }
        Ok(PrintedHistory { life, years, pulls })
    }
}
