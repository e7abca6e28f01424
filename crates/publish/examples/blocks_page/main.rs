//! Writes the page of an invented block and its plates: `cargo run --release -p publish --example blocks_page -- FOLDER`.
//!
//! Six impressions of one block that is drawn here, one of another, and a photograph without a cut. What is seen of each
//! damage is set down by hand; its order and its years are computed from that. It is for working on the page and for its test
//! in a browser.

#![allow(clippy::print_stdout, reason = "an example says what it wrote")]
#![allow(clippy::disallowed_methods, reason = "an example reads and writes files")]

mod drawn;
mod told;

use std::path::PathBuf;

use anyhow::Context;
use drawn::{Pull, SIZE};
use publish::blocks::{BlocksPictures, ImpressionOnFrame, OneBlockPictures, blocks_model, date_plot_svg};
use publish::page::blocks::page;
use publish::plates::{list, of_blocks};
use sheet::{Plane, Point};
use told::{CORNER, SEEN, UNPLACED};

fn main() -> anyhow::Result<()> {
    let folder = std::env::args_os().nth(1).map(PathBuf::from).context("name the folder to write to")?;
    std::fs::create_dir_all(&folder)?;
    let record = told::record()?;
    let pictures = pictures();
    let command = "reglet blocks --page blocks.html --dates years.csv 'tower <1651> & sea.jpg' …".to_owned();
    let model = blocks_model(&record, &pictures, command)?;
    write(&folder.join("blocks.html"), page(&model).as_bytes())?;
    if let Some(svg) = model.blocks[0].dates.as_ref().and_then(|d| date_plot_svg(d, "The years of block 1")) {
        write(&folder.join("years.svg"), svg.as_bytes())?;
    }
    let plates = folder.join("plates");
    std::fs::create_dir_all(&plates)?;
    let mut listed = Vec::new();
    of_blocks(&record, &pictures, &model, |plate| -> anyhow::Result<()> {
        write(&plates.join(&plate.name), &plate.png)?;
        listed.push((plate.name, plate.shows));
        Ok(())
    })?;
    write(&plates.join("plates.txt"), list(&record.program, &model.command, &listed, &[]).as_bytes())
}

fn write(path: &std::path::Path, bytes: &[u8]) -> anyhow::Result<()> {
    std::fs::write(path, bytes).with_context(|| format!("{} cannot be written", path.display()))?;
    println!("{} ({} kB)", path.display(), bytes.len() / 1000);
    Ok(())
}

/// How each impression was pulled.
fn pulls() -> [Pull; 6] {
    let one = |gain, dark, paper, seed| Pull { gain, dark, paper, seed };
    [
        one(0.3, 0.95, [233.0, 224.0, 205.0], 11),
        one(0.0, 0.90, [226.0, 214.0, 190.0], 23),
        one(-0.5, 0.97, [238.0, 232.0, 220.0], 37),
        one(0.8, 0.99, [218.0, 203.0, 176.0], 41),
        one(-0.9, 0.72, [236.0, 228.0, 211.0], 59),
        one(1.8, 1.0, [229.0, 217.0, 194.0], 67),
    ]
}

fn pictures() -> BlocksPictures {
    let mut impressions = Vec::new();
    let mut cuts = Vec::new();
    for (i, pull) in pulls().iter().enumerate() {
        let lost: Vec<usize> = (0..SEEN.len()).filter(|&d| told::is_lost(d, i)).collect();
        let ink = drawn::ink(&lost, pull);
        let photograph = drawn::photograph(&ink, pull);
        cuts.push(Some(drawn::on_sheet(&photograph, pull)));
        impressions.push(ImpressionOnFrame { impression: i, photograph, ink });
    }
    cuts.push(Some(Plane::filled(300, 220, [222, 210, 186])));
    cuts.resize(UNPLACED + 1, None);
    let best = Pull { gain: 0.0, dark: 1.0, paper: [255.0; 3], seed: 3 };
    let of_block = OneBlockPictures {
        composite: drawn::ink(&[], &best),
        impressions,
        origin: Point::new(CORNER[0], CORNER[1]),
        scale: 1.0,
    };
    debug_assert_eq!((of_block.composite.width(), of_block.composite.height()), SIZE);
    BlocksPictures { blocks: vec![Some(of_block), None], cuts }
}
