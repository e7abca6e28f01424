//! A scheme drawn: in characters for a terminal, and as SVG.

use super::{Extent, Forme, FormeName, Head, Imposition, LaidPage, Turn};
use crate::drawing::LOOK;
use crate::format::Side;
use std::fmt::Write as _;

/// Long side over short side of the sheet that is drawn: foolscap, 432 by 343 mm.
const SHEET: f64 = 432.0 / 343.0;

/// The letter that a gathering of the sheet is given where it is drawn.
fn letter(gathering: usize) -> char {
    // No sheet makes more than eight gatherings, so the letters J, U and W are not reached.
    b"ABCDEFGHIKLMNOPQRSTVXYZ".get(gathering).map_or('?', |b| char::from(*b))
}

/// The name of the leaf with its side: A1r.
fn leaf(laid: &LaidPage) -> String {
    format!("{}{}{}", letter(laid.gathering), laid.leaf, if laid.is_recto { 'r' } else { 'v' })
}

/// What a forme is called over its picture.
fn title(forme: &Forme) -> &'static str {
    match forme.name {
        FormeName::Outer => "Outer forme",
        FormeName::Inner => "Inner forme",
        FormeName::HalfSheet => "The one forme of the half-sheet",
        FormeName::HalfSheetMoved => "The same, with pages moved for the second side",
    }
}

/// What is done with the sheet, in a sentence.
pub fn turning(imposed: &Imposition) -> &'static str {
    match (imposed.extent, imposed.formes.len(), imposed.turn) {
        (Extent::Half, 1, Turn::Sideways) => {
            "The whole heap is printed, turned over sideways (left edge to the right), printed again from the same forme, and \
             each sheet cut in two."
        }
        (Extent::Half, 1, Turn::EndOverEnd) => {
            "The whole heap is printed, turned over end over end (the near edge to the far side), printed again from the same \
             forme, and each sheet cut in two."
        }
        (Extent::Half, ..) => {
            "The whole heap is printed; then the pages are moved in the forme as the second picture shows, the heap is turned over \
             sideways (left edge to the right), and printed again. Each sheet makes two copies."
        }
        (Extent::Whole, ..) => {
            "The sheet is printed from one forme, turned over sideways (left edge to the right), and printed from the other."
        }
    }
}

/// The formes in characters, as they lie on the stone before the reader.
pub fn in_characters(imposed: &Imposition) -> String {
    let mut out = String::new();
    for forme in &imposed.formes {
        let columns = forme.rows.first().map_or(0, Vec::len);
        let rule = format!("  {}+\n", "+-------".repeat(columns));
        // Writing to a string does not fail.
        writeln!(out, "{}", title(forme)).ok();
        out.push_str(&rule);
        for row in &forme.rows {
            let cell = |text: String| format!("| {text:^5} ");
            let pages = row.iter().map(|laid| {
                let mark = match laid.head {
                    Head::Up => '^',
                    Head::Down => 'v',
                };
                cell(format!("{:>2} {mark}", laid.page))
            });
            let pages: String = pages.collect();
            let leaves: String = row.iter().map(|laid| cell(leaf(laid))).collect();
            writeln!(out, "  {pages}|\n  {leaves}|").ok();
            out.push_str(&rule);
        }
        out.push('\n');
    }
    out
}

/// The width of the picture, and its margin, in its own units.
const WIDTH: f64 = 360.0;
const MARGIN: f64 = 12.0;
const LINE: f64 = 18.0;

/// The formes as an SVG picture, one below the other, light or dark as the reader's screen is.
pub fn svg(imposed: &Imposition) -> String {
    let (rows, columns) = imposed.way.rows_and_columns();
    let inside = WIDTH - 2.0 * MARGIN;
    let high = match imposed.way.upright() {
        Side::Short => inside / SHEET,
        Side::Long => inside * SHEET,
    };
    let (cell_wide, cell_high) = (inside / f64::from(columns), high / f64::from(rows));
    let block = high + 3.0 * LINE;
    let notes = notes(imposed);
    // Below the two lines of the title.
    let mut top = MARGIN + LINE * 3.0;
    let height = top + block * imposed.formes.len() as f64 + LINE * notes.len() as f64;
    let mut out = String::new();
    let (format, kind) = (&imposed.format, kind(imposed));
    // Writing to a string does not fail.
    writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height:.1}\" role=\"img\" aria-label=\"{format}, {kind}\">\n\
         <style>{LOOK}svg{{background:var(--ground);max-width:720px}}.t{{font-weight:600;font-size:15px}}\
         .p{{font-size:{page:.1}px;text-anchor:middle}}.l{{font-size:{leaf:.1}px;text-anchor:middle}}\
         rect,path{{fill:none;stroke:var(--ink)}}.h{{stroke-width:3}}</style>\n\
         <text class=\"t\" x=\"{MARGIN}\" y=\"{y:.1}\">{format}</text>\n<text x=\"{MARGIN}\" y=\"{below:.1}\">{kind}</text>",
        page = (cell_wide.min(cell_high) * 0.3).clamp(8.0, 26.0),
        leaf = (cell_wide.min(cell_high) * 0.2).clamp(7.0, 14.0),
        y = MARGIN + 12.0,
        below = MARGIN + 12.0 + LINE,
    )
    .ok();
    for forme in &imposed.formes {
        writeln!(out, "<text x=\"{MARGIN}\" y=\"{:.1}\">{}, on the stone</text>", top, title(forme)).ok();
        for (r, row) in forme.rows.iter().enumerate() {
            for (c, laid) in row.iter().enumerate() {
                let at = (MARGIN + cell_wide * c as f64, top + LINE / 2.0 + cell_high * r as f64);
                page(&mut out, laid, at, (cell_wide, cell_high));
            }
        }
        top += block;
    }
    for (i, note) in notes.iter().enumerate() {
        writeln!(out, "<text x=\"{MARGIN}\" y=\"{:.1}\">{note}</text>", top - LINE / 2.0 + LINE * i as f64)
            .ok();
    }
    out.push_str("</svg>\n");
    out
}

/// One page: its outline, a stroke along its head, its number and leaf, turned as it lies.
fn page(out: &mut String, laid: &LaidPage, (x, y): (f64, f64), (wide, high): (f64, f64)) {
    let (centre_x, centre_y) = (x + wide / 2.0, y + high / 2.0);
    let turn = if laid.head == Head::Down {
        format!(" transform=\"rotate(180 {centre_x:.1} {centre_y:.1})\"")
    } else {
        String::new()
    };
    let inset = 4.0;
    writeln!(
        out,
        "<g{turn}><rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{wide:.1}\" height=\"{high:.1}\"/>\
         <path class=\"h\" d=\"M{:.1} {:.1}h{:.1}\"/>\
         <text class=\"p\" x=\"{centre_x:.1}\" y=\"{:.1}\">{}</text>\
         <text class=\"l\" x=\"{centre_x:.1}\" y=\"{:.1}\">{}</text></g>",
        x + inset,
        y + inset,
        wide - 2.0 * inset,
        centre_y,
        laid.page,
        centre_y + high * 0.25,
        leaf(laid),
    )
    .ok();
}

fn kind(imposed: &Imposition) -> String {
    let sheet = match imposed.extent {
        Extent::Half => "half-sheet",
        Extent::Whole => "whole sheet",
    };
    format!("{sheet}, {}", imposed.in_gatherings())
}

/// What is written below, in short lines.
fn notes(imposed: &Imposition) -> Vec<&'static str> {
    let turn = match (imposed.extent, imposed.formes.len(), imposed.turn) {
        (Extent::Half, 1, Turn::Sideways) => "Print, turn sideways, print again, cut in two.",
        (Extent::Half, 1, Turn::EndOverEnd) => "Print, turn end over end, print again, cut in two.",
        (Extent::Half, ..) => "Print, move pages, turn sideways, print again, cut.",
        (Extent::Whole, ..) => "Print, turn the sheet sideways, print the other side.",
    };
    vec!["Thick stroke: the head of the page. You stand below.", turn]
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::imposition::schemes;

    #[test]
    fn the_octavo_is_drawn_in_characters_as_it_lies() {
        let octavo = schemes().into_iter().find(|s| s.format == "8°").unwrap();
        let drawn = in_characters(&octavo);
        let expected = "\
Outer forme
  +-------+-------+-------+-------+
  |  8 v  |  9 v  | 12 v  |  5 v  |
  |  A4v  |  A5r  |  A6v  |  A3r  |
  +-------+-------+-------+-------+
  |  1 ^  | 16 ^  | 13 ^  |  4 ^  |
  |  A1r  |  A8v  |  A7r  |  A2v  |
  +-------+-------+-------+-------+
";
        assert!(drawn.starts_with(expected), "{drawn}");
    }

    #[test]
    fn gatherings_are_told_by_their_number_where_they_are_alike() {
        let told = |format: &str, first: u16| {
            let found = schemes().into_iter().find(|s| s.format == format && s.gatherings[0] == first);
            found.unwrap().in_gatherings()
        };
        assert_eq!(told("64°", 8), "8 gatherings of 8 leaves");
        assert_eq!(told("12° common", 12), "one gathering of 12 leaves");
        assert_eq!(told("12° common", 8), "gatherings of 8 and 4 leaves");
        assert_eq!(told("1° upright", 1), "one leaf");
    }

    #[test]
    fn every_scheme_is_drawn_with_every_page_once() {
        for s in schemes() {
            let svg = svg(&s);
            let tree = roxmltree::Document::parse(&svg).unwrap();
            let mut pages: Vec<u16> = tree
                .descendants()
                .filter(|n| n.attribute("class") == Some("p"))
                .map(|n| n.text().unwrap().parse().unwrap())
                .collect();
            pages.sort_unstable();
            // A forme in which pages were moved is drawn twice.
            let times =
                if s.formes.last().map(|f| f.name) == Some(FormeName::HalfSheetMoved) { 2 } else { 1 };
            let wanted: Vec<u16> = (1..=s.pages()).flat_map(|p| vec![p; times]).collect();
            assert_eq!(pages, wanted, "{}", s.format);
        }
    }
}
