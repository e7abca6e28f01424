//! A formula written again: as it is published, or plainly, for a keyboard.

use super::formula::{Added, Change, Formula, Item, NamedFormat, Run};
use super::signature::LeafName;
use std::fmt::{self, Write};

/// A number raised: ⁸, or `^8`.
pub(super) fn raised(number: u32, plainly: bool, out: &mut impl Write) -> fmt::Result {
    if plainly {
        return write!(out, "^{number}");
    }
    digits(number, "⁰¹²³⁴⁵⁶⁷⁸⁹", out)
}

/// A number lowered: ₆.
pub(super) fn lowered(number: u32, out: &mut impl Write) -> fmt::Result {
    digits(number, "₀₁₂₃₄₅₆₇₈₉", out)
}

fn digits(number: u32, shapes: &str, out: &mut impl Write) -> fmt::Result {
    for digit in number.to_string().bytes() {
        if let Some(shape) = shapes.chars().nth(usize::from(digit - b'0')) {
            out.write_char(shape)?;
        }
    }
    Ok(())
}

impl fmt::Display for Formula {
    /// In the published notation, with raised figures.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.write(false, f)
    }
}

impl Formula {
    /// As it can be typed on any keyboard: `^` before a raised figure, `pi` and `chi`, `-` and `+-`.
    pub fn plainly(&self) -> String {
        let mut out = String::new();
        // Writing to a string does not fail.
        self.write(true, &mut out).ok();
        out
    }

    fn write(&self, plainly: bool, out: &mut impl Write) -> fmt::Result {
        if let Some(said) = &self.title {
            write!(out, "Signatures ({said}): ")?;
        }
        if let Some(format) = &self.format {
            format.write(plainly, out)?;
            out.write_str(": ")?;
        }
        items(&self.items, plainly, out)?;
        let s = &self.statements;
        if let Some(leaves) = s.leaves {
            write!(out, "; {leaves} leaves")?;
        }
        if let Some(signing) = &s.signing {
            out.write_str("; ")?;
            signing.write(plainly, out)?;
        }
        if let Some(pagination) = &s.pagination {
            out.write_str("; ")?;
            write!(out, "{pagination}")?;
        }
        if !s.blank.is_empty() {
            out.write_str("; ")?;
            leaf_list(&s.blank, plainly, out)?;
            out.write_str(" blank")?;
        }
        if !s.also_signed.is_empty() {
            out.write_str("; also signed ")?;
            items(&s.also_signed, plainly, out)?;
        }
        s.remarks.iter().try_for_each(|r| write!(out, ". {r}"))
    }
}

impl NamedFormat {
    fn write(self, plainly: bool, out: &mut impl Write) -> fmt::Result {
        write!(out, "{}{}", self.number, if plainly { "o" } else { "°" })?;
        self.gathered_in.map_or(Ok(()), |n| write!(out, " in {n}s"))
    }
}

fn items(items: &[Item], plainly: bool, out: &mut impl Write) -> fmt::Result {
    for (i, item) in items.iter().enumerate() {
        if i > 0 {
            out.write_char(' ')?;
        }
        match item {
            Item::Run(run) => run.write(plainly, out)?,
            Item::SingleSheet => out.write_str("single sheet, unsigned")?,
            Item::Leaf { name, identical_to } => {
                name.write(plainly, out)?;
                if let Some(other) = identical_to {
                    out.write_str("[=")?;
                    other.write(plainly, out)?;
                    out.write_char(']')?;
                }
            }
        }
    }
    Ok(())
}

impl Run {
    fn write(&self, plainly: bool, out: &mut impl Write) -> fmt::Result {
        if self.is_enclosed {
            out.write_char('[')?;
        }
        self.write_range(plainly, out)?;
        raised(u32::from(self.leaves), plainly, out)?;
        if let Some(n) = self.alternately {
            out.write_char('/')?;
            raised(u32::from(n), plainly, out)?;
        }
        if self.is_enclosed {
            out.write_char(']')?;
        }
        if let Some(n) = self.stated {
            write!(out, "[={n}]")?;
        }
        if !self.changes.is_empty() {
            out.write_char('(')?;
            changes(&self.changes, plainly, out)?;
            out.write_char(')')?;
        }
        if !self.blank.is_empty() {
            out.write_str(" (")?;
            leaf_list(&self.blank, plainly, out)?;
            out.write_str(" blank)")?;
        }
        self.remarks.iter().try_for_each(|r| write!(out, " ({r})"))
    }

    /// Its signatures alone: A-C.
    pub(super) fn write_range(&self, plainly: bool, out: &mut impl Write) -> fmt::Result {
        self.first.write(plainly, out)?;
        if let Some(last) = &self.last {
            out.write_char('-')?;
            // The series is said once: ²A-M.
            let mut shown = last.clone();
            if shown.series == self.first.series {
                shown.series = super::signature::Series::Main;
            }
            shown.write(plainly, out)?;
        }
        Ok(())
    }
}

/// Leaves, the signature said once where it goes on: E7,8.
pub(super) fn leaf_list(leaves: &[LeafName], plainly: bool, out: &mut impl Write) -> fmt::Result {
    for (i, leaf) in leaves.iter().enumerate() {
        match i.checked_sub(1).map(|before| &leaves[before].signature) {
            None => leaf.write(plainly, out)?,
            Some(before) if *before == leaf.signature => {
                out.write_char(',')?;
                leaf.write_number(plainly, out)?;
            }
            Some(_) => {
                out.write_char(',')?;
                leaf.write(plainly, out)?;
            }
        }
    }
    Ok(())
}

fn changes(changes: &[Change], plainly: bool, out: &mut impl Write) -> fmt::Result {
    let (minus, plus_minus) = if plainly { ("-", "+-") } else { ("−", "±") };
    for (i, change) in changes.iter().enumerate() {
        if i > 0 {
            out.write_str(", ")?;
        }
        match change {
            Change::Missing(leaves) => {
                out.write_str(minus)?;
                leaf_list(leaves, plainly, out)?;
            }
            Change::Replaced(leaves) => {
                out.write_str(plus_minus)?;
                leaf_list(leaves, plainly, out)?;
            }
            Change::PairReplaced(a, b) => {
                out.write_str(plus_minus)?;
                a.write(plainly, out)?;
                out.write_char('.')?;
                b.write_number(plainly, out)?;
            }
            Change::GatheringReplaced(signature) => {
                out.write_str(plus_minus)?;
                signature.write(plainly, out)?;
            }
            Change::Substituted { leaves, by } => {
                out.write_str(minus)?;
                leaf_list(leaves, plainly, out)?;
                out.write_str(" +")?;
                added(by, plainly, out)?;
            }
            Change::Inserted { after, what } => {
                after.write(plainly, out)?;
                out.write_char('+')?;
                added(what, plainly, out)?;
            }
        }
    }
    Ok(())
}

fn added(what: &[Added], plainly: bool, out: &mut impl Write) -> fmt::Result {
    for (i, one) in what.iter().enumerate() {
        if i > 0 {
            out.write_char('+')?;
        }
        match one {
            Added::Leaf(name) => name.write(plainly, out)?,
            Added::Unnamed(n) => write!(out, "{n}")?,
            Added::Printed(text) => write!(out, "'{text}'")?,
            Added::Gathering { signature, leaves, changes: inner } => {
                signature.write(plainly, out)?;
                raised(u32::from(*leaves), plainly, out)?;
                if !inner.is_empty() {
                    out.write_char('(')?;
                    changes(inner, plainly, out)?;
                    out.write_char(')')?;
                }
            }
        }
    }
    Ok(())
}
