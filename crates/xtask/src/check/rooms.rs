//! The plan of the house: which of our crates may use which, and what the computing crates may touch.

use std::collections::BTreeSet;
use std::fs;

use anyhow::{Context, ensure};

use super::cargo::{self, Package};

/// One crate of ours and its place in the plan.
struct Room {
    /// The crate.
    name: &'static str,
    /// Which of our crates it may use; always ones above it in the list.
    uses: &'static [&'static str],
    /// Whether it only computes: values in, values out, the same output for the same input.
    pure: bool,
}

/// The rooms in the order in which data flows through them (ARCHITECTURE.md).
const ROOMS: &[Room] = &[
    Room { name: "outside", uses: &[], pure: false },
    Room { name: "trade", uses: &[], pure: true },
    Room { name: "sheet", uses: &[], pure: true },
    Room { name: "register", uses: &["sheet"], pure: true },
    Room { name: "evidence", uses: &["trade", "sheet", "register"], pure: true },
    Room { name: "chronology", uses: &[], pure: true },
    Room { name: "press", uses: &["sheet"], pure: true },
    Room { name: "publish", uses: &["trade", "sheet", "register", "evidence", "chronology"], pure: true },
    Room {
        name: "reglet",
        uses: &["trade", "sheet", "register", "evidence", "chronology", "press", "publish"],
        pure: false,
    },
    Room {
        name: "xtask",
        uses: &[
            "outside",
            "trade",
            "sheet",
            "register",
            "evidence",
            "chronology",
            "press",
            "publish",
            "reglet",
        ],
        pure: false,
    },
];

/// Crates that speak to a person, a clock, a disk or a network, and errors without a type: not for a
/// computing crate.
const OUTSIDE: &[&str] = &["anyhow", "clap", "indicatif", "tempfile", "tokio", "ureq"];

/// Fails with a line for every arrow that bends the plan, every computing crate that reaches outside,
/// and every one whose `clippy.toml` does not hold the common list of forbidden calls.
pub(crate) fn check() -> anyhow::Result<()> {
    let metadata = cargo::metadata()?;
    let ours: Vec<_> = metadata.packages.iter().filter(|p| p.source.is_none()).collect();
    let mut faults = faults(&ours);
    let bans: BTreeSet<_> = ROOMS
        .iter()
        .filter(|room| room.pure)
        .map(|room| {
            let file = metadata.workspace_root.join("crates").join(room.name).join("clippy.toml");
            fs::read_to_string(&file).with_context(|| format!("{} cannot be read", file.display()))
        })
        .collect::<Result<_, _>>()?;
    if bans.len() > 1 {
        faults.push("  the clippy.toml of the computing crates differ: make them alike".into());
    }
    ensure!(
        faults.is_empty(),
        "the plan of the house is bent:\n{}\nThe plan is in crates/xtask/src/check/rooms.rs and ARCHITECTURE.md.",
        faults.join("\n")
    );
    println!("-- rooms: {} crates, every arrow as planned", ours.len());
    Ok(())
}

/// A line for every arrow between our crates, or out of a computing crate, that the plan does not have.
/// What only tests ask for ("dev") may point anywhere: it never reaches the program.
fn faults(ours: &[&Package]) -> Vec<String> {
    let mut faults = Vec::new();
    for package in ours {
        let Some(room) = ROOMS.iter().find(|room| room.name == package.name) else {
            faults.push(format!("  {} has no place in the plan: give it a row", package.name));
            continue;
        };
        for wanted in package.dependencies.iter().filter(|d| d.kind.as_deref() != Some("dev")) {
            let name = wanted.name.as_str();
            let is_ours = ROOMS.iter().any(|other| other.name == name);
            if is_ours && !room.uses.contains(&name) {
                faults.push(format!("  {} must not use {name}", room.name));
            }
            if room.pure && OUTSIDE.contains(&name) {
                faults.push(format!("  {} only computes and must not use {name}", room.name));
            }
        }
    }
    faults
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::check::cargo::Dependency;

    fn package(name: &str, uses: &[(&str, Option<&str>)]) -> Package {
        let dependencies = uses
            .iter()
            .map(|(name, kind)| Dependency { name: (*name).into(), kind: kind.map(Into::into) })
            .collect();
        Package { name: name.into(), version: "0.1.0".into(), license: None, source: None, dependencies }
    }

    #[test]
    fn a_room_uses_only_rooms_above_it() {
        for (i, room) in ROOMS.iter().enumerate() {
            for used in room.uses {
                assert!(ROOMS[..i].iter().any(|r| r.name == *used), "{} uses {used} below it", room.name);
            }
        }
    }

    #[test]
    fn a_bent_arrow_is_named_and_one_for_tests_is_not() {
        let fine = package("register", &[("sheet", None), ("press", Some("dev")), ("rayon", None)]);
        assert!(faults(&[&fine]).is_empty());
        let bent = package("register", &[("evidence", None), ("clap", None)]);
        assert_eq!(
            faults(&[&bent]),
            ["  register must not use evidence", "  register only computes and must not use clap"]
        );
        assert_eq!(faults(&[&package("attic", &[])]), ["  attic has no place in the plan: give it a row"]);
    }
}
