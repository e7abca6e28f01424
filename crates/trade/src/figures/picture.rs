//! Figures drawn: sheets across, figures down, and where each is found.

use super::{Figured, FormeName};
use crate::drawing::{Anchor, Drawing, WIDTH};

const LEFT: f64 = 52.0;
const ROW: f64 = 22.0;
/// Sheets in one band; more go into bands below.
const ACROSS: usize = 24;
/// Figures that have rows, those of most formes first.
const MOST_FIGURES: usize = 30;
/// Sheets that are drawn.
const MOST_SHEETS: usize = 480;

/// The picture, as SVG.
pub fn picture(told: &Figured) -> String {
    let mut d = Drawing::new();
    d.text(8.0, 20.0, Anchor::Start, "title", "Press figures, sheet by sheet", WIDTH - 16.0);
    let mut y = d.paragraph(
        8.0,
        38.0,
        "small soft",
        &format!(
            "{} sheets, {} {}. What most copies show; a dot where copies differ.",
            told.formes.sheets,
            told.copies,
            if told.copies == 1 { "copy" } else { "copies" }
        ),
    );
    y = legend(&mut d, y + 2.0);
    let figures: Vec<&str> = told.work.iter().take(MOST_FIGURES).map(|w| w.figure.as_str()).collect();
    let sheets = &told.sheets[..told.sheets.len().min(MOST_SHEETS)];
    let cell = (WIDTH - LEFT - 8.0) / ACROSS as f64;
    for band in sheets.chunks(ACROSS) {
        y += 8.0;
        for (i, figure) in figures.iter().enumerate() {
            let top = y + i as f64 * ROW;
            d.line([8.0, top, LEFT + cell * band.len() as f64, top], "rule");
            d.text(LEFT - 6.0, top + 15.0, Anchor::End, "", figure, LEFT - 14.0);
        }
        let foot = y + figures.len() as f64 * ROW;
        d.line([8.0, foot, LEFT + cell * band.len() as f64, foot], "rule");
        for (j, sheet) in band.iter().enumerate() {
            let x = LEFT + j as f64 * cell;
            for (forme, shown, class, lower) in [
                (FormeName::Outer, &sheet.outer, "dark", 0.0),
                (FormeName::Inner, &sheet.inner, "light", 1.0),
            ] {
                for figure in shown.iter().flatten() {
                    let Some(row) = figures.iter().position(|f| f == figure) else { continue };
                    let top = y + row as f64 * ROW + 2.5 + lower * (ROW / 2.0 - 1.5);
                    let what = format!("sheet {}, {} forme: {figure}", sheet.sheet, forme.name());
                    d.rect([x + 1.5, top, cell - 3.0, ROW / 2.0 - 3.5], class, &what);
                }
            }
            if let Some(differs) = told.disagreements.iter().find(|x| x.sheet == sheet.sheet) {
                let what = format!("sheet {}, {} forme: copies differ", differs.sheet, differs.forme.name());
                d.dot(x + cell / 2.0, foot + 6.0, 2.2, "point", &what);
            }
            // Short names stand under each sheet, and longer ones under as many as there is room for.
            let every = (sheet.sheet.chars().count() + 1).div_ceil(2).max(1);
            if j % every == 0 {
                let most = cell * every as f64 + 2.0;
                d.text(x + cell / 2.0, foot + 19.0, Anchor::Middle, "small", &sheet.sheet, most.max(12.0));
            }
        }
        y = foot + 26.0;
    }
    if told.work.len() > figures.len() || told.sheets.len() > sheets.len() {
        let left = format!(
            "Drawn: {} of {} figures, {} of {} sheets.",
            figures.len(),
            told.work.len(),
            sheets.len(),
            told.sheets.len()
        );
        y = d.paragraph(8.0, y + 12.0, "small soft", &left);
    }
    y = d.paragraph(
        8.0,
        y + 14.0,
        "small soft",
        "What a figure stands for, a man, a crew or a press, differs from shop to shop.",
    );
    let shows = told
        .work
        .iter()
        .take(MOST_FIGURES)
        .map(|w| format!("figure {}: {} formes", w.figure, w.formes))
        .collect::<Vec<_>>()
        .join("; ");
    d.finish(y, "Press figures, sheet by sheet", &shows)
}

fn legend(d: &mut Drawing, y: f64) -> f64 {
    d.rect([8.0, y, 14.0, 9.0], "dark", "");
    d.text(27.0, y + 9.0, Anchor::Start, "small", "outer forme (above)", 130.0);
    d.rect([160.0, y, 14.0, 9.0], "light", "");
    d.text(179.0, y + 9.0, Anchor::Start, "small", "inner forme (below)", 130.0);
    y + 18.0
}
