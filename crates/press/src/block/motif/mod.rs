//! Things that cuts show, each drawn from strokes.

pub(super) mod building;
pub(super) mod charge;
pub(super) mod figure;
pub(super) mod foliage;
pub(super) mod ground;
pub(super) mod letters;
pub(super) mod scroll;
pub(super) mod ship;
pub(super) mod tree;
