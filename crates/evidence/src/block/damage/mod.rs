//! What a block has lost, and which of its impressions show it.

mod record;

pub use record::{Damage, DamageClass, Seen, Shows, Untold};
