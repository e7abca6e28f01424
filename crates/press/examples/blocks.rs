//! Prints woodblocks and writes them, to be looked at.

#![allow(
    clippy::disallowed_methods,
    clippy::print_stderr,
    reason = "a program for looking: it reads the command line, writes files, says what it did"
)]

use std::sync::Arc;
use std::time::Instant;

use press::block::{Block, BlockKind};
use press::{Camera, Conditions, Cut, CutKind, Founts, Ink, Layout, PageKind, Paper, Setting, pull};
use sheet::{Mm, Point, Ppi, Rect};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let founts = Founts::open()?;
    let folder = &arguments[0];
    std::fs::create_dir_all(folder)?;
    let first: u64 = arguments[1].parse()?;
    let ppi: f64 = arguments[2].parse()?;
    for (k, kind) in BlockKind::ALL.into_iter().enumerate() {
        for seed in first..first + 6 {
            let kind = match kind {
                BlockKind::Initial { .. } => BlockKind::Initial { letter: char::from(b'A' + (seed % 26) as u8) },
                k => k,
            };
            let larger = [30.0, 34.0, 95.0, 60.0, 75.0, 75.0, 90.0][k];
            let started = Instant::now();
            let size = kind.size(Mm(larger), seed);
            let block = Block::cut(&founts, kind, size, seed);
            let cut = started.elapsed();
            let face = block.face();
            let lie = press::block::Lie::plain(block.bounds(), Point::new(0.0, 0.0));
            let mut layout = Layout::drawn(PageKind::Notice, seed);
            layout.margin = Mm(5.0);
            let setting = Setting {
                id: "x".into(),
                layout,
                page: block.bounds(),
                lines: vec![],
                cuts: vec![Cut {
                    kind: CutKind::Block,
                    place: block.bounds(),
                    turn: 0.0,
                    piece: 0,
                    height: Mm(0.0),
                    face: Some(Arc::new(face.lying(lie))),
                }],
                age: 0.0,
                seed,
            };
            let mut camera = Camera::good(Ppi(ppi));
            camera.surround = Mm(-2.0);
            let conditions = Conditions { ink: Ink::drawn(0.3, seed), paper: Paper::good(), camera };
            let pulled = pull(&founts, &setting, None, &conditions, seed)?;
            eprintln!("{kind:?} {seed} {} strokes cut {cut:?} all {:?}", block.strokes.len(), started.elapsed());
            std::fs::write(format!("{folder}/{k}-{seed}.png"), pulled.picture.to_png()?)?;
        }
    }
    let _ = Rect::new(0.0, 0.0, 1.0, 1.0);
    Ok(())
}
