//! What can go wrong between commission and photograph.

use thiserror::Error;

use crate::compose::ComposeError;
use crate::fount::FountError;
use crate::pull::PullError;

/// Any failure of the press.
#[derive(Debug, Error)]
pub enum PressError {
    /// The founts could not be opened.
    #[error(transparent)]
    Fount(#[from] FountError),
    /// The text could not be composed.
    #[error(transparent)]
    Compose(#[from] ComposeError),
    /// The copy could not be photographed.
    #[error(transparent)]
    Pull(#[from] PullError),
}
