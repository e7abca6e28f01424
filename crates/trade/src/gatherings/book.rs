//! A book as its formula has it: every gathering, and every leaf with its fellow, its formes and its pages.

use super::formes::{Formes, Made};
use schemars::JsonSchema;
use serde::Serialize;

/// A gathering of the book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Gathering {
    /// Its signature as it is published.
    pub name: String,
    /// How many leaves were folded for it, before any alteration.
    pub folded_leaves: u16,
    /// The gathering it is laid in, counted from 0; null for most.
    pub laid_in: Option<usize>,
    /// How it is made of sheets; null where the format is not known.
    pub made: Option<Made>,
    /// Whether its leaves are unsigned by definition: pi, chi, inferred signatures.
    pub is_unsigned: bool,
}

/// How a leaf came to be where it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Standing {
    /// Folded with its gathering.
    Regular,
    /// In the place of a leaf that was cut away: a cancel.
    Replacing,
    /// Put in.
    Inserted,
}

/// The leaf on the same piece of paper.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case", tag = "is")]
pub enum Fellow {
    /// It is there.
    Leaf {
        /// Its name.
        name: String,
    },
    /// It was cut away, and may have left a stub.
    CutAway {
        /// Its name.
        name: String,
    },
    /// There is none: a single leaf.
    None,
}

/// A leaf of the book.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Leaf {
    /// Its name: B3.
    pub name: String,
    /// Its gathering, counted from 0.
    pub gathering: usize,
    /// Its number in the gathering as folded, from 1; null where it has none.
    pub number: Option<u16>,
    /// How it came to be there.
    pub standing: Standing,
    /// The leaf on the same piece of paper.
    pub fellow: Fellow,
    /// The formes of its pages; null where they cannot be told.
    pub formes: Option<Formes>,
    /// What is printed as the number of its front, by the statement of pagination; null without one.
    pub recto_page: Option<String>,
    /// And of its back; null where leaves are numbered.
    pub verso_page: Option<String>,
    /// Whether it carries its signature, by the statement of signing; null without one.
    pub is_signed: Option<bool>,
    /// Whether it is said to be blank.
    pub is_blank: bool,
}

/// A book as its formula has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, JsonSchema)]
pub struct Book {
    /// Its gatherings, in order; one that is laid in another comes after it.
    pub gatherings: Vec<Gathering>,
    /// Its leaves, in order.
    pub leaves: Vec<Leaf>,
}
