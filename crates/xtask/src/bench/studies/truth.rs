//! What is true of a study.

use press::scenario::{State, Stock, can_be_judged};
use press::{Change, Truth};
use serde::{Deserialize, Serialize};
use sheet::Rect;

use crate::bench::printed::{moved_along, on_photograph, place};

/// What is true of a study.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
pub(super) struct StudyTruth {
    /// The copies.
    pub(super) copies: Vec<CopyTruth>,
    /// Where states of one setting differ.
    pub(super) places: Vec<PlaceTruth>,
}

/// Of which setting and state a copy is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub(super) struct CopyTruth {
    /// The setting, from 0.
    pub(super) setting: usize,
    /// The state of it, from 0.
    pub(super) state: usize,
}

/// A place at which states of one setting differ.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub(super) struct PlaceTruth {
    /// The setting.
    pub(super) setting: usize,
    /// The first state that has the later reading.
    pub(super) state: usize,
    /// What was done.
    pub(super) class: String,
    /// Whether it was done there, and the word did not just move along.
    pub(super) is_done: bool,
    /// By copy, the printed word on its photograph, pixels; `None` of copies of other settings and where it has none.
    pub(super) boxes: Vec<Option<[f64; 4]>>,
    /// By copy, whether the photograph shows enough to judge it.
    pub(super) is_shown: Vec<bool>,
}

impl StudyTruth {
    /// From what the press knows.
    pub(super) fn of(stock: &Stock, truths: &[Truth]) -> Self {
        let states: Vec<&State> = stock.of_copy.iter().map(|&i| &stock.states[i]).collect();
        let copies = states.iter().map(|s| CopyTruth { setting: s.setting, state: s.state }).collect();
        let places = stock
            .states
            .iter()
            .flat_map(|state| state.changes.iter().flat_map(|change| places(state, change, &states, truths)))
            .collect();
        Self { copies, places }
    }

    /// Whether two copies are of one setting.
    pub(super) fn of_one_setting(&self, a: usize, b: usize) -> bool {
        self.copies[a].setting == self.copies[b].setting
    }

    /// Whether two copies of one setting have two readings at a place that both show.
    pub(super) fn differ_visibly(&self, a: usize, b: usize) -> bool {
        self.places.iter().any(|place| {
            place.is_done
                && place.setting == self.copies[a].setting
                && place.is_shown[a]
                && place.is_shown[b]
                && place.reading(self.copies[a]) != place.reading(self.copies[b])
        })
    }
}

impl PlaceTruth {
    /// Which reading a copy has: the earlier, or the later.
    pub(super) fn reading(&self, copy: CopyTruth) -> bool {
        copy.state >= self.state
    }
}

/// The place of a change, and those of the words that moved along with it.
fn places(state: &State, change: &Change, states: &[&State], truths: &[Truth]) -> Vec<PlaceTruth> {
    let of_copies = |where_it_is: &dyn Fn(&Truth, bool) -> Option<Rect>| -> Vec<Option<[f64; 4]>> {
        let both = truths.iter().zip(states);
        both.map(|(truth, of)| {
            (of.setting == state.setting)
                .then(|| on_photograph(truth, where_it_is(truth, of.state >= state.state)))?
        })
        .collect()
    };
    let own = |truth: &Truth, is_later: bool| {
        place(&truth.setting, change, if is_later { change.after } else { change.before })
    };
    let is_shown = truths
        .iter()
        .zip(states)
        .map(|(truth, of)| of.setting == state.setting && can_be_judged(change, truth))
        .collect();
    let done = PlaceTruth {
        setting: state.setting,
        state: state.state,
        class: format!("{:?}", change.class),
        is_done: true,
        boxes: of_copies(&own),
        is_shown,
    };
    let moved = change.moved.iter().map(|moved| {
        let word = |truth: &Truth, _: bool| moved_along(&truth.setting, change, moved);
        PlaceTruth {
            class: "moved along".to_owned(),
            is_done: false,
            boxes: of_copies(&word),
            is_shown: vec![false; truths.len()],
            ..done.clone()
        }
    });
    let moved: Vec<PlaceTruth> = moved.collect();
    std::iter::once(done).chain(moved).collect()
}
