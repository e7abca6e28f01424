//! What kind of damage a place is, by its shape and where it lies.

use super::DamageClass;
use super::frame::OnFrame;
use super::lost::Lost;
use super::signs::Place;

/// Classes a place.
pub(super) fn class(place: &Place, frame: &OnFrame<'_>, lost: &Lost) -> DamageClass {
    let _ = (place, frame, lost);
    DamageClass::Break
}
