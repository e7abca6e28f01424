//! Lines of sheets on which more goes wrong than at any press, for `crates/xtask/fit/incidents.py` to fit a network to.

use std::io::Write as _;
use std::path::Path;

use anyhow::Context as _;
use evidence::measure::{STRIP_CELL, STRIP_ROWS, Side, Strip, strips};
use press::{Founts, IncidentKind, Truth};
use rayon::prelude::*;
use sheet::Rect;
use sheet::decode::{DecodeRequest, decode};

use super::incidents::{PRINTED, printed};
use super::plan::Planned;
use super::{make, real, scale_of};

/// What is told of every cell of a line, in this order.
const KINDS: [IncidentKind; 1] = [IncidentKind::RisenSpace];
/// A cell in which something is that cannot be seen.
const NOT_SEEN: u8 = 2;
/// The middle of what is on a line lies between these rows of its strip.
const ON_THE_LINE: [f64; 2] = [6.0, 26.0];
/// Share of a cell that is taken for all of it.
const TAKES: f64 = 0.5;

/// What is told of the cells of a line.
struct Cells {
    /// Of every cell, kind by kind, whether such an incident is there.
    there: Vec<u8>,
    /// Where it reaches: left, right, top and foot from the middle of the cell, in cells.
    reach: Vec<[f32; 4]>,
}

impl Cells {
    /// Of so many cells, nothing.
    fn none(cells: usize) -> Self {
        let count = cells * KINDS.len();
        Self { there: vec![0; count], reach: vec![[0.0; 4]; count] }
    }
}

/// Real books are numbered from here on, so that no sheet has the number of one.
const FIRST_REAL: usize = 1_000_000;

/// Writes `strips.csv` (sheet, width), `strips.u8` (samples, by rows), `cells.u8` (of every cell what is there) and `reach.f32` (how far
/// that reaches) into the folder.
pub(super) fn write(planned: &[Planned], founts: &Founts, folder: &Path) -> anyhow::Result<()> {
    let of_sheets = planned
        .par_iter()
        .map(|p| {
            let (photograph, truth) = make::made(p, founts, folder)?;
            let bytes = std::fs::read(&photograph)?;
            let luminance = decode(&bytes, &DecodeRequest::default())?.luminance;
            let side = Side::of(&luminance, Some(scale_of(&truth)));
            let strips = strips(&side);
            let cells: Vec<Cells> = strips.iter().map(|s| cells(s, &side, &truth)).collect();
            Ok((p.number, strips, cells))
        })
        .collect::<anyhow::Result<Vec<_>>>()?;
    // On real sheets next to nothing of the kind befell: what is there is type, ornament and dirt as the press does not know them.
    let of_real = real::pages(real::Part::Development)
        .par_iter()
        .map(|page| {
            let strips = strips(&Side::of(&page.luminance()?, None));
            let cells = strips.iter().map(|s| Cells::none(s.cells())).collect();
            Ok((FIRST_REAL + page.book, strips, cells))
        })
        .collect::<anyhow::Result<Vec<(usize, Vec<Strip>, Vec<Cells>)>>>()?;
    println!("{} real sheets", of_real.len());
    let file = |name: &str| {
        let path = folder.join(name);
        std::fs::File::create(&path)
            .map(std::io::BufWriter::new)
            .with_context(|| format!("cannot write {}", path.display()))
    };
    let (mut list, mut samples) = (file("strips.csv")?, file("strips.u8")?);
    let (mut told, mut reach) = (file("cells.u8")?, file("reach.f32")?);
    for (number, strips, cells) in of_sheets.iter().chain(&of_real) {
        for (strip, cells) in strips.iter().zip(cells) {
            writeln!(list, "{number},{}", strip.width)?;
            samples.write_all(&strip.samples)?;
            told.write_all(&cells.there)?;
            for v in cells.reach.as_flattened() {
                reach.write_all(&v.to_le_bytes())?;
            }
        }
    }
    println!("{} lines of {} sheets", of_sheets.iter().map(|s| s.1.len()).sum::<usize>(), of_sheets.len());
    Ok(())
}

fn cells(strip: &Strip, side: &Side, truth: &Truth) -> Cells {
    let mut out = Cells::none(strip.cells());
    for (k, kind) in KINDS.iter().enumerate() {
        for incident in truth.incidents.iter().filter(|i| i.kind == *kind) {
            let there = side.turned.upright_box(incident.box_px);
            let Some(on) = Rect::around(there.corners().map(|p| strip.on_strip(p))) else { continue };
            let middle = on.centre();
            if !(ON_THE_LINE[0]..ON_THE_LINE[1]).contains(&middle.y) {
                continue;
            }
            let says = if printed(side, incident.box_px) >= PRINTED { 1 } else { NOT_SEEN };
            for cell in 0..strip.cells() {
                let (from, to) = ((cell * STRIP_CELL) as f64, ((cell + 1) * STRIP_CELL) as f64);
                let takes = on.right().min(to) - on.x.max(from) >= TAKES * STRIP_CELL as f64;
                if takes || (from..to).contains(&middle.x) {
                    let at = cell * KINDS.len() + k;
                    out.there[at] = says;
                    let (x, y) = (f64::midpoint(from, to), STRIP_ROWS as f64 / 2.0);
                    out.reach[at] = [on.x - x, on.right() - x, on.y - y, on.bottom() - y]
                        .map(|v| (v / STRIP_CELL as f64) as f32);
                }
            }
        }
    }
    out
}
