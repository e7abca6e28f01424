//! Prints one page and writes its photograph, to be looked at:
//! `cargo run --release -p press --example show -- KIND SEED TROUBLE PPI FILE.png`

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    reason = "a program for looking: it reads the command line, writes files, says what it did"
)]

use std::time::Instant;

use press::{
    Camera, Commission, Conditions, Founts, Ink, Layout, PageKind, Paper, Spelling, Text, compose, pull,
};
use sheet::Ppi;

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [kind, seed, trouble, ppi, file] = arguments.as_slice() else {
        return Err("give KIND (0-4), SEED, TROUBLE (0-1), PPI and FILE.png".into());
    };
    let kind = *PageKind::ALL.get(kind.parse::<usize>()?).ok_or("KIND is a number from 0 to 4")?;
    let (seed, trouble, ppi) = (seed.parse::<u64>()?, trouble.parse::<f64>()?, Ppi(ppi.parse()?));

    let founts = Founts::open()?;
    let commission = |body| Commission { kind, spelling: Spelling::default(), words: 220, frame: seed, body };
    let (text, other) = (Text::invented(&commission(seed)), Text::invented(&commission(seed + 1)));
    let layout = Layout::drawn(kind, seed);
    let started = Instant::now();
    let setting = compose(&founts, &layout, &text, 0.3, seed)?;
    let back = compose(&founts, &layout, &other, 0.3, seed + 1)?;
    let composed = started.elapsed();
    let conditions = Conditions {
        ink: Ink::drawn(trouble, seed),
        paper: Paper::drawn(trouble, seed),
        camera: Camera::drawn(ppi, trouble, seed),
    };
    let pulled = pull(&founts, &setting, Some(&back), &conditions, seed)?;
    let done = started.elapsed();
    std::fs::write(file, pulled.picture.to_png()?)?;
    let truth = pulled.truth.to_json()?;
    eprintln!(
        "{} x {} px, {} sorts; composed twice in {composed:?}, pulled in {:?}; truth {} kB; {} incidents",
        pulled.picture.width(),
        pulled.picture.height(),
        setting.sorts().count(),
        done.saturating_sub(composed),
        truth.len() / 1000,
        pulled.truth.incidents.len()
    );
    eprintln!("{conditions:#?}");
    Ok(())
}
