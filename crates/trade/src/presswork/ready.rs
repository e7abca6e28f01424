//! When copies of a run of the shop are there: how many are whole after so many hours, and when they are dry.

use super::shop::{Kind, Run, Shop};

impl Shop {
    /// How many copies have all their sheets printed after so many hours of work, in fractions.
    fn whole_copies(&self, work: f64, run: &Run) -> f64 {
        let mut least = [f64::INFINITY; super::MOST_SETTINGS as usize];
        for (at, forme) in self.formes.iter().enumerate() {
            let pulled = (work - run.began[at] - run.make_ready) * run.rate;
            let whole = match forme.kind {
                Kind::White => continue,
                Kind::Second | Kind::Only => pulled,
                // The first half of the pulls prints one side of the heap, each of the second two copies.
                Kind::Turned => 2.0 * pulled - forme.copies,
            };
            let of = &mut least[forme.setting as usize];
            *of = of.min(whole.clamp(0.0, forme.copies));
        }
        least.iter().take(self.settings as usize).sum()
    }

    /// The hour of work at which so many copies have all their sheets printed.
    pub(super) fn time_of(&self, copies: f64, run: &Run) -> f64 {
        if self.settings == 1 {
            let last = self.formes.iter().zip(&run.began).filter(|(f, _)| f.kind != Kind::White).map(
                |(forme, began)| {
                    let pulled =
                        if forme.kind == Kind::Turned { f64::midpoint(copies, forme.copies) } else { copies };
                    began + run.make_ready + pulled / run.rate
                },
            );
            return last.fold(0.0, f64::max).min(run.finished);
        }
        let (mut early, mut late) = (0.0, run.finished);
        // To the ten-thousandth of an hour, whatever the length.
        while late - early > 1e-4 {
            let middle = f64::midpoint(early, late);
            if middle <= early || middle >= late {
                break;
            }
            if self.whole_copies(middle, run) >= copies - 1e-6 {
                late = middle;
            } else {
                early = middle;
            }
        }
        late
    }

    /// The clock when sheets that came off after so many hours of work are dry.
    pub(super) fn dry(&self, work: f64, run: &Run) -> f64 {
        self.day.clock(work) + run.drying
    }

    /// The clock when all copies are printed and dry.
    pub(super) fn out(&self, run: &Run) -> f64 {
        self.dry(run.finished, run)
    }
}
