//! A virtual hand press: invented matter composed sort by sort, pulled, and photographed, with the truth
//! beside every photograph.
//!
//! Start at [`compose()`], which makes a [`Setting`] of a [`Text`] and a [`Layout`]; [`pull()`] prints and
//! photographs it; the [`Truth`] beside the photograph holds the exact [`Warp`] from the forme to it.
//! Woodblocks have a room of their own, [`block`].
//! Everything is drawn from seeds: the same seed gives the same bytes.

pub mod block;
mod border;
mod camera;
mod chance;
mod compose;
mod cut;
mod error;
mod fount;
mod ink;
mod layout;
mod noise;
mod paper;
mod picture;
mod piece;
mod pull;
pub mod scenario;
mod setting;
mod skeleton;
mod text;
mod truth;
mod variant;
mod warp;

pub use camera::{Camera, Detail, Table, TwoTone};
pub use compose::{Care, ComposeError, compose};
pub use error::PressError;
pub use fount::{Cast, Face, FountError, Founts, Outline, reading, with_ligatures};
pub use ink::{Ink, OnWood, Slur};
pub use layout::{Layout, Opening};
pub use noise::Noise;
pub use paper::{CreaseWish, Paper};
pub use picture::{Picture, PictureError};
pub use pull::{Conditions, MOST_PIXELS, Pull, PullError, pull};
pub use setting::{Cut, CutKind, Fill, Line, Setting, Sort, Word};
pub use skeleton::Skeleton;
pub use text::{Commission, PageKind, Passage, Role, Spelling, Style, Text, Token};
pub use truth::{Incident, IncidentKind, Truth};
pub use variant::{Change, ChangeClass, Moved, Reset};
pub use warp::{Crease, Curl, Fold, Laying, Lens, Warp, Wave, Way};
