//! The record of sides that were measured.

use super::Photographed;
use evidence::measure::Measures;
use schemars::JsonSchema;
use serde::Serialize;

/// What `reglet measure` writes of one photograph.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MeasuresRecord {
    /// What was measured of it.
    #[serde(flatten)]
    pub side: MeasuredSide,
    /// The program and its version.
    pub program: String,
}

/// What `reglet measure` writes of two photographs or more.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct ManyMeasuresRecord {
    /// The sides, in the order they were named in, without those that could not be read.
    pub sides: Vec<MeasuredSide>,
    /// Photographs that could not be read, and why.
    pub unread: Vec<Unread>,
    /// The program and its version.
    pub program: String,
}

/// One side: its photograph, and what was measured of it.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct MeasuredSide {
    /// The photograph.
    #[serde(flatten)]
    pub photograph: Photographed,
    /// What was measured.
    #[serde(flatten)]
    pub measures: Measures,
    /// What the user should know.
    pub warnings: Vec<String>,
    /// Reasons for which all this could be wrong.
    pub cautions: Vec<String>,
}

/// A photograph that could not be read.
#[derive(Debug, Clone, Serialize, JsonSchema)]
pub struct Unread {
    /// Its name.
    pub file: String,
    /// Why.
    pub reason: String,
}
