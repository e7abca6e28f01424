//! Prints one pair and writes both photographs with their truths, to be looked at:
//! `cargo run --release -p press --example pair -- KIND LEVEL SEED PPI_A PPI_B FOLDER`

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    reason = "a program for looking: it reads the command line, writes files, says what it did"
)]

use press::Founts;
use press::scenario::{Scenario, ScenarioKind};
use sheet::Ppi;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [kind, level, seed, ppi_a, ppi_b, folder] = arguments.as_slice() else {
        return Err("give KIND (0-6), LEVEL (0-4), SEED, PPI_A, PPI_B and FOLDER".into());
    };
    let kinds = [&ScenarioKind::JUDGEABLE[..], &[ScenarioKind::TooLittleShared]].concat();
    let kind = *kinds.get(kind.parse::<usize>()?).ok_or("KIND is a number from 0 to 6")?;
    let scenario = Scenario {
        kind,
        level: level.parse()?,
        ppi_a: Ppi(ppi_a.parse()?),
        ppi_b: Ppi(ppi_b.parse()?),
        seed: seed.parse()?,
    };
    let pair = scenario.print(&Founts::open()?)?;
    std::fs::create_dir_all(folder)?;
    for (name, pull) in [("a", &pair.a), ("b", &pair.b)] {
        std::fs::write(format!("{folder}/{name}.jpg"), pull.picture.to_jpeg(88, Some(pull.truth.ppi))?)?;
        std::fs::write(format!("{folder}/{name}.json"), pull.truth.to_json()?)?;
    }
    for (change, boxes) in pair.truth.changes.iter().zip(&pair.truth.boxes_px) {
        eprintln!(
            "{:?} judgeable {} furthest {:.2} mm {boxes:?}",
            change.class, change.judgeable, change.furthest.0
        );
    }
    eprintln!("{}", pair.truth.verdict);
    Ok(())
}
