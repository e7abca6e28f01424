//! Which leaves carry their signature: "$4(−A3,4) signed".

use super::signature::LeafName;
use super::write::leaf_list;
use std::fmt::{self, Write};

/// A statement of signing. `$` stands for every gathering.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Signing {
    /// How many leaves of every gathering are signed, from its first; all of a gathering that has fewer.
    pub first: u16,
    /// Leaves that should be and are not.
    pub except: Vec<LeafName>,
    /// Leaves that are beyond those.
    pub also: Vec<LeafName>,
    /// Leaves with a wrong signature, and what is printed there.
    pub missigned: Vec<(LeafName, String)>,
}

impl Signing {
    pub(super) fn write(&self, plainly: bool, out: &mut impl Write) -> fmt::Result {
        write!(out, "${}", self.first)?;
        if !(self.except.is_empty() && self.also.is_empty()) {
            out.write_char('(')?;
            if !self.except.is_empty() {
                out.write_str(if plainly { "-" } else { "−" })?;
                leaf_list(&self.except, plainly, out)?;
            }
            if !self.also.is_empty() {
                out.write_str(if self.except.is_empty() { "+" } else { "; +" })?;
                leaf_list(&self.also, plainly, out)?;
            }
            out.write_char(')')?;
        }
        out.write_str(" signed")?;
        for (leaf, as_what) in &self.missigned {
            out.write_str("; missigning ")?;
            leaf.write(plainly, out)?;
            write!(out, " as {as_what}")?;
        }
        Ok(())
    }
}
