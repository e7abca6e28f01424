//! Writes the page of an invented comparison: `cargo run --release -p publish --example page -- FOLDER [PICTURES]`.
//!
//! The pictures are drawn here, letters as upright blocks, or read from PICTURES/first.jpg, second.jpg and
//! together.jpg. It is for working on the page and for its test in a browser; nothing in it is measured.

#![allow(clippy::print_stdout, reason = "an example says what it wrote")]
#![allow(clippy::disallowed_methods, reason = "an example reads and writes files")]

use std::path::{Path, PathBuf};

use anyhow::Context;
use evidence::Standing;
use publish::page::{
    ChangeModel, CrossingModel, DriftPoint, EdgeModel, FrameBox, LineModel, PageModel, SideModel,
    WeightModel, page,
};
use publish::pictures::{PatchStroke, PictureSet, ResidualMap, Strips, Tiled};
use sheet::Plane;
use sheet::decode::{DecodeRequest, decode_rgb};

/// The pictures are so many times as large as they are thought of below.
const TIMES: usize = 3;
const SIZE: (usize, usize) = (900, 1200);
const LINES: usize = 24;

fn main() -> anyhow::Result<()> {
    let mut arguments = std::env::args_os().skip(1).map(PathBuf::from);
    let folder = arguments.next().context("name the folder to write to")?;
    let pictures = match arguments.next() {
        Some(from) => read(&from)?,
        None => drawn()?,
    };
    std::fs::create_dir_all(&folder)?;
    let laid = model(Some(pictures.clone()));
    let apart = PageModel {
        verdict_words: "Different texts".into(),
        weight: None,
        changes: Vec::new(),
        lines: Vec::new(),
        pictures: Some(PictureSet { together: None, ..pictures }),
        ..laid.clone()
    };
    for (name, model) in [("page.html", laid), ("apart.html", apart), ("bare.html", model(None))] {
        std::fs::write(folder.join(name), page(&model))?;
        println!("{}", folder.join(name).display());
    }
    Ok(())
}

fn read(folder: &Path) -> anyhow::Result<PictureSet> {
    let one = |name: &str| -> anyhow::Result<Plane<[u8; 3]>> {
        let bytes = std::fs::read(folder.join(name)).with_context(|| format!("{name} cannot be read"))?;
        Ok(decode_rgb(&bytes, &DecodeRequest::default())?.rgb)
    };
    set(&[one("first.jpg")?, one("second.jpg")?, one("together.jpg")?])
}

fn set([first, second, together]: &[Plane<[u8; 3]>; 3]) -> anyhow::Result<PictureSet> {
    Ok(PictureSet {
        first: Tiled::of_photograph(first)?,
        second: Tiled::of_photograph(second)?,
        together: Some(Tiled::of_inks(together)?),
    })
}

/// A side of blocks for letters, in the first, the second, and both in two colours.
fn drawn() -> anyhow::Result<PictureSet> {
    let paper = [238, 231, 216];
    let mut sides = [0, 1, 2].map(|_| Plane::filled(SIZE.0 * TIMES, SIZE.1 * TIMES, paper));
    for line in 0..LINES {
        let mut seed = (line as u32).wrapping_mul(2_654_435_761) | 1;
        let mut x = 90;
        while x < 800 {
            seed = seed.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
            let (wide, high) = (5 + (seed >> 28) as usize, 14 + (seed >> 24) as usize % 10);
            let y = 90 + line * 42 + (24 - high);
            // The third line is set again: its spaces differ. One letter of the ninth is changed.
            let shift = if line == 2 { (x / 90) * 2 } else { 0 };
            let (first, second) = (x, x + shift);
            let changed = line == 8 && (400..412).contains(&x);
            block(&mut sides[0], [first, y, wide, high], [42, 38, 35]);
            if !changed {
                block(&mut sides[1], [second, y, wide, high], [52, 46, 40]);
            }
            block(&mut sides[2], [first, y, wide, high], [0xb4, 0x61, 0x0f]);
            if !changed {
                block(&mut sides[2], [second, y, wide, high], [0x0b, 0x64, 0x70]);
                if shift < wide {
                    block(&mut sides[2], [second, y, wide - shift, high], [0x2a, 0x26, 0x23]);
                }
            }
            x += wide + 4 + if seed >> 29 == 0 { 14 } else { 0 };
        }
    }
    set(&sides)
}

fn block(side: &mut Plane<[u8; 3]>, [x, y, w, h]: [usize; 4], ink: [u8; 3]) {
    for py in y * TIMES..(y + h) * TIMES {
        let end = ((x + w) * TIMES).min(side.width());
        side.row_mut(py)[(x * TIMES).min(end)..end].fill(ink);
    }
}

fn model(pictures: Option<PictureSet>) -> PageModel {
    let strip = pictures.as_ref().and_then(|_| strip());
    let side = |file_name: &str, size_px, scale_words: &str| SideModel {
        file_name: file_name.into(),
        sha256: Some("9f2c4e17a05bd3886e1f7ac04d52b9e3310c8f66d7a94be25f0183ca6d7e4b12".into()),
        size_px,
        scale_words: scale_words.into(),
    };
    PageModel {
        title: "An order of the council of Aldermouth, two copies".into(),
        verdict_words: "Both impressions agree with one setting of type, with differences in places.".into(),
        verdict_reasons: vec![
            "Of 1,204 patches of print, 1,171 lie within 0.04 mm of where the smooth motion of the paper puts them."
                .into(),
            "23 of 24 lines stand as they were; line 3 was set again, its spaces drifting by up to 0.61 mm.".into(),
            "Four places differ in what was printed, two of them beyond doubt.".into(),
        ],
        cautions: vec![
            "Which state came first cannot be told from these differences alone.".into(),
            "Plates cast from one setting, and photographic facsimiles, lie together just as well.".into(),
            "The second photograph gives no scale of its own; it was taken from the first.".into(),
        ],
        weight: Some(WeightModel {
            log10: 3.2,
            words: "for one setting: some 1,600 times likelier than were it set twice. Calibrated on 412 simulated \
                    pairs, no real ones."
                .into(),
        }),
        residual_words: "median 0.021 mm, a hundredth of an x-height (0.25 px)".into(),
        sides: [
            side("aldermouth-order-1671 <copy & one>.jpg", [2480, 3307], "300 ppi by its JFIF header, unchecked"),
            side("Harrowgate_box-14_leaf-2_recto.tif", [3100, 4133], "scale unknown"),
        ],
        pictures,
        no_changes: "None was found.".to_owned(),
        changes: changes(),
        lines: (1..=LINES).map(line).collect(),
        drift_unit: "mm".into(),
        residuals: Some(residuals()),
        edges: vec![edge(1, 0.3, strip.as_ref()), edge(2, 0.7, strip.as_ref())],
        not_judged: vec![
            "Line 24: under a fold in the second photograph.".into(),
            "The foot of the left margin: out of focus in both.".into(),
        ],
        warnings: vec!["The two photographs differ in sharpness; differences under 0.2 mm were not looked for.".into()],
        program: "reglet 0.1.0".into(),
        command: "reglet compare 'aldermouth-order-1671 <copy & one>.jpg' Harrowgate_box-14_leaf-2_recto.tif".into(),
    }
}

fn changes() -> Vec<ChangeModel> {
    let one = |class: &str, score, doubtful, [x, y, w, h]: [f64; 4]| ChangeModel {
        class_words: class.into(),
        score,
        doubtful,
        frame: FrameBox { x, y, w, h },
        box_a_px: [x * 2480.0, y * 3307.0, w * 2480.0, h * 3307.0].map(|v| v as i64),
        box_b_px: [x * 3100.0, y * 4133.0, w * 3100.0, h * 4133.0].map(|v| v as i64),
        size_words: Some(format!("{:.1} × {:.1} mm", w * 210.0, h * 280.0)),
    };
    vec![
        one("line set again", 0.99, false, [0.1, 0.142, 0.8, 0.027]),
        one("sort lost", 0.97, false, [0.443, 0.353, 0.018, 0.024]),
        one("ink missing in the second", 0.41, true, [0.62, 0.563, 0.02, 0.022]),
        one("mark of the sheet: a stain", 0.36, true, [0.18, 0.81, 0.07, 0.05]),
    ]
}

fn line(number: usize) -> LineModel {
    let (standing, words, swing) = match number {
        3 => (Standing::Reset, "drifts to 0.61 mm at the seventh word", 0.61),
        18 => (Standing::OtherWords, "3 of 9 words found", 0.0),
        11 => (Standing::Moved, "0.12 mm to the right as a whole", 0.0),
        24 => (Standing::Unjudged, "under a fold", f64::NAN),
        _ => (Standing::Same, "0.03 mm at most", 0.0),
    };
    let drift = (0..18).map(|i| {
        let at = (f64::from(i) + 0.5) / 18.0;
        let noise = ((number * 31 + i as usize * 17) % 13) as f64 / 13.0 - 0.5;
        let shift = if number == 11 { 0.12 } else { 0.0 };
        DriftPoint { at, drift: swing * at + shift + noise * 0.05 }
    });
    let top = 90.0 + 42.0 * (number as f64 - 1.0);
    LineModel {
        number,
        frame: FrameBox { x: 0.1, y: top / 1200.0, w: 0.8, h: 26.0 / 1200.0 },
        standing,
        sorts_words: if number == 3 { "otherwise" } else { "as before" }.into(),
        drift_words: words.into(),
        drift: drift.collect(),
    }
}

fn residuals() -> ResidualMap {
    let at = |i: usize| [0.12 + 0.04 * (i % 20) as f64, (0.08 + 0.035 * (i / 20) as f64) * 4.0 / 3.0];
    let patches = (0..480).map(|i| PatchStroke {
        middle: at(i),
        // Those of the third line run along it; one in thirty could not be found.
        displacement: (i % 31 != 30).then(|| {
            let noise = ((i * 37) % 17) as f64 / 17.0 - 0.5;
            let along = if (40..60).contains(&i) { 0.00012 * (i - 40) as f64 } else { 0.0 };
            [along + 0.0003 * noise, 0.0003 * ((i * 53) % 19) as f64 / 19.0 - 0.00015]
        }),
    });
    ResidualMap {
        shape: 4.0 / 3.0,
        print: None,
        side: 0.03,
        patches: patches.collect(),
        drawn_times: 15.0,
        drawn_words: "it is drawn 15 times as long as it is, and nine in ten are shorter than 0.06 mm".into(),
    }
}

/// A strip down the page, a block for every line.
fn strip() -> Option<Tiled> {
    let mut strip = Plane::filled(240, 1900, [238, 231, 216]);
    for line in 0..LINES {
        block(&mut strip, [10 + 3 * (line % 5), 12 + line * 25, 40, 12], [42, 38, 35]);
    }
    Tiled::of_photograph(&strip).ok()
}

fn edge(number: usize, x: f64, strip: Option<&Tiled>) -> EdgeModel {
    let crossings = (1..LINES).map(|line| CrossingModel {
        line,
        down: (line as f64 - 0.5) / LINES as f64,
        off_words: if line == 3 { "0.44 mm" } else { "0.02 mm" }.into(),
        fails: line == 3,
    });
    EdgeModel {
        number,
        words:
            "In 1 of the 23 lines that it crosses the letters lie elsewhere in the second, by up to 0.44 mm."
                .into(),
        strips: strip.map(|strip| Strips {
            size_px: strip.whole_px,
            first: strip.whole.clone(),
            second: strip.whole.clone(),
        }),
        frame: FrameBox { x: x - 0.05, y: 0.06, w: 0.1, h: 0.85 },
        crossings: crossings.collect(),
    }
}
