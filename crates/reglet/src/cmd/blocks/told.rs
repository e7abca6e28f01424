//! What was found of blocks, as it is written down: places on the photographs as a viewer shows them.

use super::impression::Impression;
use crate::files::Named;
use chronology::{Dated, DatesOptions, Sighting, Table, dates, order};
use evidence::block::{BlockComparison, Damage, OneBlock, Shows, Studied};
use evidence::cautions;
use publish::record::{
    BlockFound, BlocksRecord, CutFound, CutPairFound, DamageFound, DatesFound, OrderFound, PROGRAM, Unplaced,
};
use sheet::{Rect, Turned};

/// A photograph with its cut: its number among all that were named, the photograph, and which of its cuts.
pub(super) type Member<'i> = (usize, &'i Impression, usize);

/// All that is known when it is written down.
pub(super) struct Known<'k> {
    pub(super) named: &'k [Named],
    pub(super) members: &'k [Member<'k>],
    pub(super) studied: &'k Studied,
    pub(super) dated: &'k [Dated],
    pub(super) unplaced: Vec<Unplaced>,
    /// Whether years were asked for.
    pub(super) in_years: bool,
}

/// Seed of the chains of chance.
const SEED: u64 = 1;

impl Known<'_> {
    /// The record.
    pub(super) fn told(self) -> BlocksRecord {
        let mut damage = Vec::new();
        let (mut orders, mut years) = (Vec::new(), Vec::new());
        for (i, block) in self.studied.blocks.iter().enumerate() {
            let own = self.damages(block);
            if let Some(table) = self.table(block, &own) {
                let told = order(&table, SEED);
                if self.in_years {
                    let options = DatesOptions { seed: SEED, ..DatesOptions::default() };
                    years.push(DatesFound { block: i, told: dates(&table, &told, &options) });
                }
                orders.push(self.order(i, block, told));
            }
            damage.extend(own.into_iter().enumerate().map(|(n, damage)| DamageFound {
                number: n + 1,
                block: i,
                damage,
            }));
        }
        let count = self.named.len();
        let mut cuts: Vec<Option<CutFound>> = (0..count).map(|_| None).collect();
        let mut photographs = vec![None; count];
        for (at, &(number, impression, cut)) in self.members.iter().enumerate() {
            photographs[number] = Some(impression.about.clone());
            cuts[number] = Some(self.cut(at, impression, cut));
        }
        let pairs = self.studied.pairs.iter().map(|p| {
            let [a, b] = p.cuts.map(|at| self.members[at].0);
            CutPairFound { a, b, comparison: self.turned_back(p.cuts[0], p.comparison.clone()) }
        });
        let blocks = self.studied.blocks.iter().map(|b| BlockFound {
            impressions: b.impressions.iter().map(|&at| self.number(at)).collect(),
            frame: self.number(b.frame),
            contradicted: b.contradicted.iter().map(|c| c.map(|at| self.number(at))).collect(),
        });
        let scaled = self.members.iter().filter(|m| m.1.about.scale.is_some()).count();
        BlocksRecord {
            pairs: pairs.collect(),
            blocks: blocks.collect(),
            damage,
            order: orders,
            dates: self.in_years.then_some(years),
            warnings: self.warnings(),
            cautions: cautions::of_blocks(
                self.studied.pairs.iter().map(|p| p.comparison.verdict),
                scaled == self.members.len(),
            ),
            unplaced: self.unplaced,
            photographs,
            cuts,
            program: PROGRAM.to_owned(),
        }
    }

    /// A member's number among all photographs.
    fn number(&self, at: usize) -> usize {
        self.members[at].0
    }

    fn turned(&self, at: usize) -> Turned {
        self.members[at].1.turned
    }

    fn cut(&self, at: usize, impression: &Impression, cut: usize) -> CutFound {
        let turned = self.turned(at);
        let cut = &impression.cuts[cut].cut;
        let upright = |r: Rect| numbers(turned.box_on_photograph(r.moved(cut.corner)));
        CutFound {
            box_px: upright(cut.body),
            named: impression.is_named,
            size_mm: cut.scale.as_ref().map(|s| {
                let k = s.ppi.px_per_mm();
                [cut.body.w / k, cut.body.h / k].map(|v| (v * 100.0).round() / 100.0)
            }),
            hole_px: cut.hole.map(upright),
            dated: self.dated[self.number(at)],
        }
    }

    /// The damage of a block, impressions told by their numbers and places on their photographs as a viewer shows them.
    fn damages(&self, block: &OneBlock) -> Vec<Damage> {
        let mut own: Vec<Damage> = block.damages.iter().flat_map(|d| d.damages.clone()).collect();
        for d in &mut own {
            d.box_px = back(self.turned(block.frame), d.box_px);
            for list in [&mut d.present, &mut d.absent, &mut d.unclear] {
                for at in list.iter_mut() {
                    *at = self.members[*at].0;
                }
                list.sort_unstable();
            }
            for seen in &mut d.seen {
                seen.box_px = seen.box_px.map(|b| back(self.members[seen.impression].1.turned, b));
                seen.impression = self.members[seen.impression].0;
            }
            d.seen.sort_by_key(|s| s.impression);
        }
        own
    }

    /// The table of a block's damage; `None` where there is nothing to order.
    fn table(&self, block: &OneBlock, damages: &[Damage]) -> Option<Table> {
        let impressions = block.impressions.iter().map(|&at| {
            let number = self.number(at);
            // Two files of one name are told apart by their numbers.
            let name = format!("{} ({})", self.named[number].short(), number + 1);
            chronology::Impression { name, dated: self.dated[number] }
        });
        let rows = damages.iter().enumerate().map(|(i, d)| {
            let cell = |&at: &usize| {
                let number = self.number(at);
                match d.seen.iter().find(|s| s.impression == number).map(|s| s.shows) {
                    Some(Shows::Present) => Sighting::Present,
                    Some(Shows::Absent) => Sighting::Absent,
                    Some(Shows::Unclear) | None => Sighting::Unclear,
                }
            };
            chronology::Damage {
                name: format!("damage {}", i + 1),
                seen: block.impressions.iter().map(cell).collect(),
            }
        });
        Table::new(impressions.collect(), rows.collect()).ok()
    }

    fn order(&self, number: usize, block: &OneBlock, told: chronology::Order) -> OrderFound {
        let mut ranks: Vec<(usize, Vec<usize>)> = Vec::new();
        for placed in &told.arrangement.impressions {
            let impression = self.number(block.impressions[placed.impression]);
            match ranks.last_mut() {
                Some((rank, together)) if *rank == placed.rank => together.push(impression),
                _ => ranks.push((placed.rank, vec![impression])),
            }
        }
        OrderFound { block: number, earliest_first: ranks.into_iter().map(|r| r.1).collect(), told }
    }

    /// A comparison whose places are those of the first's photograph as a viewer shows it.
    fn turned_back(&self, first: usize, mut comparison: BlockComparison) -> BlockComparison {
        let turned = self.turned(first);
        for piece in &mut comparison.pieces {
            piece.box_a_px = back(turned, piece.box_a_px);
        }
        for part in &mut comparison.altered {
            part.box_a_px = back(turned, part.box_a_px);
        }
        comparison
    }

    fn warnings(&self) -> Vec<String> {
        let mut out = Vec::new();
        for (i, &(number, impression, _)) in self.members.iter().enumerate() {
            let name = self.named[number].short();
            out.extend(impression.about.notices.iter().map(|n| format!("{name}: {n}.")));
            let twin = self.members[..i].iter().find(|m| m.1.about.sha256 == impression.about.sha256);
            if let Some(&(other, ..)) = twin {
                out.push(format!(
                    "{name} and {} are one file, byte for byte: a photograph compared with itself.",
                    self.named[other].short()
                ));
            }
            if !impression.is_named && impression.cuts.len() > 1 {
                out.push(format!(
                    "{name}: {} cuts were found; that most like the others' was taken. Name another with --region.",
                    impression.cuts.len()
                ));
            }
        }
        out
    }
}

fn back(turned: Turned, [x, y, w, h]: [f64; 4]) -> [f64; 4] {
    numbers(turned.box_on_photograph(Rect::new(x, y, w, h)))
}

/// To a tenth of a pixel.
fn numbers(r: Rect) -> [f64; 4] {
    [r.x, r.y, r.w, r.h].map(|v| (v * 10.0).round() / 10.0)
}
