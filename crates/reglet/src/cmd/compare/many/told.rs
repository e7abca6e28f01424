//! What was found of many copies, as it is written down.

use super::Study;
use evidence::Comparison;
use evidence::many::{OneSetting, Variant, group, shared_differences};
use publish::record::{ManyRecord, PROGRAM, PairFound, Unplaced, VariantFound};
use std::collections::BTreeSet;

impl Study<'_> {
    /// All that was found out.
    pub(super) fn told(&mut self) -> ManyRecord {
        let grouped = group(self.named.len(), &self.pairs);
        let differences: Vec<_> = grouped
            .settings
            .iter()
            .map(|setting| {
                let frame = self.frame(setting);
                shared_differences(&OneSetting {
                    frame,
                    copies: setting,
                    pairs: &self.pairs,
                    ink: &|copy, place| self.ink_at(frame, copy, place),
                    on_frame: &|copy, place| self.on_frame(frame, copy, place),
                })
            })
            .collect();
        let read = |copy: &usize| self.copies[*copy].is_some();
        let mut unplaced: Vec<Unplaced> =
            grouped.unplaced.iter().copied().filter(read).map(|c| self.unplaced(c, self.why(c))).collect();
        unplaced.append(&mut self.unread);
        unplaced.sort_by_key(|u| u.copy);
        for (copy, named) in self.copies.iter().zip(self.named) {
            let notices = copy.iter().flat_map(|c| &c.about.notices);
            self.warnings.extend(notices.map(|n| format!("{}: {n}.", named.short())));
        }
        let belied = self.belied_scales();
        self.warnings.extend(belied);
        ManyRecord {
            groups_within: differences.iter().map(|d| d.groups.clone()).collect(),
            variants: grouped
                .settings
                .iter()
                .zip(differences)
                .flat_map(|(s, d)| self.found(s, d.variants))
                .collect(),
            settings: grouped.settings,
            contradictions: grouped.contradictions,
            unplaced,
            cautions: cautions(self.pairs.iter().map(|p| &p.comparison)),
            pairs: self.pairs.iter().map(|p| PairFound::of(p.copies, &p.comparison)).collect(),
            warnings: std::mem::take(&mut self.warnings),
            photographs: self.copies.iter().map(|c| c.as_ref().map(|c| c.about.clone())).collect(),
            program: PROGRAM.to_owned(),
        }
    }

    /// The variants of a setting, with where each copy has them.
    fn found(&self, setting: &[usize], variants: Vec<Variant>) -> Vec<VariantFound> {
        let found = variants.into_iter().map(|variant| {
            let on_copies = self.on_copies(variant.frame, setting, variant.box_px);
            VariantFound { variant, on_copies }
        });
        found.collect()
    }

    /// Copies whose scale their type belies, as their pairs say, each once.
    fn belied_scales(&self) -> BTreeSet<String> {
        let mut out = BTreeSet::new();
        for pair in &self.pairs {
            for (rank, copy) in ["first", "second"].into_iter().zip(pair.copies) {
                let said = format!("The scale of the {rank} photograph");
                let of_this = pair.comparison.cautions.iter().filter_map(|c| c.strip_prefix(&said));
                out.extend(of_this.map(|rest| format!("{}: its scale{rest}", self.named[copy].short())));
            }
        }
        out
    }

    /// Why no verdict was reached on a copy: the last reason of its first pair says what stood in the way.
    fn why(&self, copy: usize) -> String {
        let pair = self.pairs.iter().find(|p| p.copies.contains(&copy));
        let reason = pair.and_then(|p| p.comparison.reasons.last());
        reason.cloned().unwrap_or_else(|| "No other photograph could be laid on it.".to_owned())
    }
}

/// What is to be heeded, each said once.
fn cautions<'c>(all: impl Iterator<Item = &'c Comparison>) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for caution in all.flat_map(|c| &c.cautions) {
        // Of single pairs: how like those behind the weight they are, and which of the two is too small.
        let is_of_one_pair = caution.starts_with("The weight was")
            || caution.starts_with("The scale of the")
            || caution.contains("photograph the letters");
        if !is_of_one_pair && !out.contains(caution) {
            out.push(caution.clone());
        }
    }
    out
}
