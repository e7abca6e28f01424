//! Every dependency may be used, changed and passed on with ours (MIT OR Apache-2.0).
//!
//! Security advisories are not looked up here: their database is fetched from the network, and the
//! checks must give the same answer on a machine without one.

use anyhow::ensure;
use spdx::{Expression, LicenseReq, ParseMode};

use super::cargo::{self, Package};

/// The licences we take, by their SPDX names: those that ask for no more than their notice.
///
/// Left out on purpose: the GPL family, which would bind the whole program, and MPL-2.0, which binds
/// the files it covers; no dependency needs it, and one that does deserves a thought first.
const TAKEN: &[&str] = &[
    "0BSD",
    "Apache-2.0",
    "BSD-2-Clause",
    "BSD-3-Clause",
    "BSL-1.0",
    "CC0-1.0",
    // Asks that what is built with it says so: crates/publish/README.md does.
    "IJG",
    "ISC",
    "MIT",
    "MIT-0",
    "Unicode-3.0",
    "Unlicense",
    "Zlib",
];

/// Fails with a line for every package whose licence is missing, unreadable or not on the list.
pub(crate) fn check() -> anyhow::Result<()> {
    let metadata = cargo::metadata()?;
    let foreign: Vec<_> = metadata.packages.iter().filter(|p| p.source.is_some()).collect();
    let faults: Vec<_> = foreign.iter().filter_map(|p| fault(p)).collect();
    ensure!(
        faults.is_empty(),
        "{} of {} dependencies have a licence that we do not take:\n{}\n\
         Do without the package, or add the licence to TAKEN in crates/xtask/src/check/licences.rs with a reason.",
        faults.len(),
        foreign.len(),
        faults.join("\n")
    );
    println!("-- licences: {} dependencies, all of them on the list", foreign.len());
    Ok(())
}

/// What is wrong with the licence of a package; `None` when nothing is.
fn fault(package: &Package) -> Option<String> {
    let name = format!("  {} {}", package.name, package.version);
    let Some(text) = &package.license else {
        return Some(format!("{name}: names no licence"));
    };
    // Old packages write MIT/Apache-2.0 where the standard has OR: the lax mode reads that.
    match Expression::parse_mode(text, ParseMode::LAX) {
        Err(e) => Some(format!("{name}: licence {text:?} cannot be read ({})", e.reason)),
        Ok(expression) if !expression.evaluate(taken) => Some(format!("{name}: licence {text}")),
        Ok(_) => None,
    }
}

/// Whether one licence of an expression is on the list. An addition such as the LLVM exception only
/// grants more, and does not matter.
fn taken(licence: &LicenseReq) -> bool {
    licence.license.id().is_some_and(|id| TAKEN.contains(&id.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn package(license: Option<&str>) -> Package {
        Package {
            name: "ink".into(),
            version: "1.0.0".into(),
            license: license.map(Into::into),
            source: Some("registry".into()),
            dependencies: Vec::new(),
        }
    }

    #[test]
    fn a_choice_needs_one_licence_of_the_list_and_a_sum_needs_all() {
        for good in ["MIT", "MIT/Apache-2.0", "GPL-3.0-only OR MIT", "(MIT OR Apache-2.0) AND Unicode-3.0"] {
            assert_eq!(fault(&package(Some(good))), None, "{good}");
        }
        assert_eq!(fault(&package(Some("Apache-2.0 WITH LLVM-exception"))), None);
        for bad in ["GPL-3.0-only", "MIT AND GPL-3.0-only", "LicenseRef-mine"] {
            assert_eq!(fault(&package(Some(bad))), Some(format!("  ink 1.0.0: licence {bad}")));
        }
    }

    #[test]
    fn no_licence_and_nonsense_are_faults() {
        assert_eq!(fault(&package(None)).as_deref(), Some("  ink 1.0.0: names no licence"));
        assert!(fault(&package(Some("do as you like"))).is_some());
    }
}
