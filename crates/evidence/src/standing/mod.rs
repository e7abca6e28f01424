//! Does a line of type stand as it stood, was it moved whole, or was it set again?
//!
//! Bodies and measure being equal, a line set again shares its height on the page with the first
//! setting; what betrays it is how far each word lies *along* the line (the straight-edge test of
//! the handbooks, common practice). So every word's place on the second photograph is compared with
//! where the paper's own motion puts it, and four explanations of the drifts are weighed
//! ([`weigh()`]):
//!
//! - **stands**: the drifts are error of placing;
//! - **moved**: one drift for the whole line, and error of placing;
//! - **respaced**: one place was put right, and the room it took or left was shared out evenly;
//! - **set again**: every space between words is another, so that the drifts walk along the line.
//!
//! A careful compositor may copy the spaces, but he takes other pieces of type, and each piece stands a little above or
//! below its line in its own way. So the sorts are asked too, whether they stand off their line as they did
//! ([`weigh_sorts()`]): only a line set again is of other pieces.
//!
//! How common each is, how careful the compositor was and how evenly his type was cast, the side itself tells
//! ([`together()`]).

mod page;
mod shares;
mod sorts;
mod weigh;

pub use page::MANNERS;
pub(crate) use page::{manner_share, together};
pub use sorts::Sorts;
pub(crate) use sorts::{BySorts, SortOff, weigh_sorts};
#[cfg(test)]
pub(crate) use weigh::CARES;
pub(crate) use weigh::{Likelihoods, Placing, WordDrift, weigh};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// What a line did.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Standing {
    /// It stands as it stood.
    Same,
    /// It was shifted whole.
    Moved,
    /// It was spaced out anew about one place, as when a word is put right at press.
    Respaced,
    /// It was set again: its words are spaced otherwise.
    Reset,
    /// Other words stand there.
    OtherWords,
    /// It cannot be judged: too little ink, too few words, or off the other photograph.
    Unjudged,
}

/// Correlation from which a word is the same word. Words set again from other pieces of the same
/// fount reach 0.75 and more, other words of the fount rarely 0.5; see docs/benchmarks.md.
pub(crate) const SAME_WORD: f32 = 0.6;
