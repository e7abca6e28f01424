//! Prints woodblocks and writes photographs with their truths, to be looked at:
//! `cargo run --release -p press --example blocks -- --out FOLDER --seed N [--level 0-4] [--ppi N] [--size MM] [--years N]`
//!
//! Into the folder go `designs/` (blocks of every kind), `pairs/` (a pair of every relation) and `history/` (ten
//! impressions of one block), each picture with a `.json` beside it.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    reason = "a program for looking: it reads the command line, writes files, says what it did"
)]

use std::collections::BTreeMap;
use std::path::Path;
use std::time::Instant;

use press::Founts;
use press::block::{
    AlterationKind, BlockHistory, BlockKind, BlockPair, BlockPull, CopyCare, CutOf, Presence, Relation,
    Surroundings,
};
use serde_json::json;
use sheet::{Mm, Ppi};

type Outcome = Result<(), Box<dyn std::error::Error>>;

fn main() -> Outcome {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let given: BTreeMap<&str, &str> = arguments
        .chunks(2)
        .filter_map(|pair| Some((pair.first()?.strip_prefix("--")?, pair.get(1)?.as_str())))
        .collect();
    let out = *given.get("out").ok_or("give --out FOLDER --seed N")?;
    let number = |name: &str, usual: f64| given.get(name).map_or(Ok(usual), |v| v.parse::<f64>());
    let seed = number("seed", 1.0)? as u64;
    let (level, ppi) = (number("level", 1.0)? as u8, Ppi(number("ppi", 300.0)?));
    let (size, years) = (Mm(number("size", 60.0)?), number("years", 30.0)?);
    let founts = Founts::open()?;
    let plan = BlockPair {
        relation: Relation::SameBlock,
        cut: CutOf::One { block: BlockKind::Pictorial },
        size,
        years,
        level,
        ppi_a: ppi,
        ppi_b: ppi,
        among: [Surroundings::Alone; 2],
        seed,
    };
    designs(&founts, out, plan)?;
    pairs(&founts, out, plan)?;
    history(&founts, out, plan)
}

fn written(folder: &Path, name: &str, pull: &BlockPull) -> Outcome {
    std::fs::create_dir_all(folder)?;
    let jpeg = pull.picture.to_jpeg(88, Some(pull.truth.sheet.ppi))?;
    std::fs::write(folder.join(format!("{name}.jpg")), jpeg)?;
    std::fs::write(folder.join(format!("{name}.json")), pull.truth.to_json()?)?;
    Ok(())
}

fn designs(founts: &Founts, out: &str, plan: BlockPair) -> Outcome {
    let folder = Path::new(out).join("designs");
    for (k, kind) in BlockKind::ALL.into_iter().enumerate() {
        for i in 0..6 {
            let seed = plan.seed * 1000 + i;
            let block = match kind {
                BlockKind::Initial { .. } => {
                    BlockKind::Initial { letter: char::from(b'A' + (seed % 26) as u8) }
                }
                other => other,
            };
            let size = Mm([30.0, 34.0, 95.0, 60.0, 75.0, 75.0, 90.0][k]);
            let among = if i == 5 { Surroundings::Type } else { Surroundings::Alone };
            let started = Instant::now();
            let pair =
                BlockPair { cut: CutOf::One { block }, size, seed, years: 10.0, among: [among; 2], ..plan };
            let printed = pair.print(founts)?;
            eprintln!(
                "{block:?} {seed}: {} strokes, {} damages, two impressions in {:?}",
                printed.lives_a[0].block.strokes.len(),
                printed.lives_a[0].damages.len(),
                started.elapsed()
            );
            written(&folder, &format!("{k}-{i}"), &printed.a)?;
        }
    }
    Ok(())
}

fn pairs(founts: &Founts, out: &str, plan: BlockPair) -> Outcome {
    let folder = Path::new(out).join("pairs");
    let mut relations = vec![
        ("same", Relation::SameBlock),
        ("plugged", Relation::SameBlockAltered { what: AlterationKind::Plug }),
        ("cut-down", Relation::SameBlockAltered { what: AlterationKind::CutDown }),
        ("re-entered", Relation::SameBlockAltered { what: AlterationKind::ReEntered }),
    ];
    let names = ["coarse", "usual", "close", "traced"];
    relations.extend(names.into_iter().zip(CopyCare::ALL).map(|(n, care)| (n, Relation::ReCut { care })));
    relations.extend([("other", Relation::OtherDesign), ("cast", Relation::Cast)]);
    let mut truth = Vec::new();
    for (name, relation) in relations {
        let printed = BlockPair { relation, ..plan }.print(founts)?;
        written(&folder, &format!("{name}-a"), &printed.a)?;
        written(&folder, &format!("{name}-b"), &printed.b)?;
        truth.push(json!({ "pair": name, "plan": BlockPair { relation, ..plan }, "pieces": printed.pieces }));
    }
    let composite = BlockPair { cut: CutOf::Composite { pieces: 3 }, ..plan };
    let printed = composite.print(founts)?;
    written(&folder, "composite-a", &printed.a)?;
    written(&folder, "composite-b", &printed.b)?;
    truth.push(json!({ "pair": "composite", "plan": composite, "pieces": printed.pieces }));
    std::fs::write(folder.join("truth.json"), serde_json::to_string_pretty(&truth)?)?;
    Ok(())
}

fn history(founts: &Founts, out: &str, plan: BlockPair) -> Outcome {
    let folder = Path::new(out).join("history");
    let history = BlockHistory {
        kind: BlockKind::Pictorial,
        size: plan.size,
        impressions: 10,
        years: 40.0,
        rate: 0.8,
        plugged: true,
        level: plan.level,
        ppi: [plan.ppi_a; 2],
        among: Surroundings::Alone,
        seed: plan.seed,
    };
    let printed = history.print(founts)?;
    for (i, pull) in printed.pulls.iter().enumerate() {
        written(&folder, &format!("{i:02}"), pull)?;
    }
    let table = printed.table();
    for (damage, row) in &table {
        let marks: String = row
            .iter()
            .map(|p| match p {
                Presence::Present => '1',
                Presence::Absent => '0',
                Presence::NotJudgeable(_) => '.',
            })
            .collect();
        eprintln!(
            "{damage:>4} {:?} {marks}",
            printed.life.damages.iter().find(|d| d.id == *damage).map(|d| d.class)
        );
    }
    let truth =
        json!({ "plan": history, "years": printed.years, "damages": printed.life.damages, "table": table });
    std::fs::write(folder.join("truth.json"), serde_json::to_string_pretty(&truth)?)?;
    Ok(())
}
