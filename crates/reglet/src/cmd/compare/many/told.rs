//! What was found of many copies, as it is written down.

use super::Study;
use evidence::cautions;
use evidence::many::{OneSetting, Variant, group, shared_differences};
use publish::many::numbers;
use publish::record::{ManyRecord, PROGRAM, PairFound, Unplaced, VariantFound};

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
        let notices = self.notices();
        self.warnings.extend(notices);
        self.warnings.extend(self.copies.iter().flatten().flat_map(|copy| copy.doubts.clone()));
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
            cautions: cautions::of_comparisons(self.came_out.iter().copied()),
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

    /// What is to be known of the files, each said once with the copies it is true of.
    fn notices(&self) -> Vec<String> {
        let mut all: Vec<(&str, Vec<usize>)> = Vec::new();
        for (number, copy) in self.copies.iter().enumerate() {
            for notice in copy.iter().flat_map(|c| &c.about.notices) {
                match all.iter_mut().find(|(said, _)| said == notice) {
                    Some((_, copies)) => copies.push(number),
                    None => all.push((notice, vec![number])),
                }
            }
        }
        let whose = |copies: &[usize]| match copies {
            [one] => self.named[*one].short(),
            all if all.len() == self.named.len() => "All copies".to_owned(),
            several => format!("Copies {} (as named)", numbers(several)),
        };
        all.into_iter().map(|(notice, copies)| format!("{}: {notice}.", whose(&copies))).collect()
    }

    /// Why no verdict was reached on a copy: the last reason of its first pair says what stood in the way.
    fn why(&self, copy: usize) -> String {
        let pair = self.pairs.iter().find(|p| p.copies.contains(&copy));
        let reason = pair.and_then(|p| p.comparison.reasons.last());
        reason.cloned().unwrap_or_else(|| "No other photograph could be laid on it.".to_owned())
    }
}
