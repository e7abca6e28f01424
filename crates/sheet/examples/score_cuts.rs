//! Scores the cuts that the layout finds against the zones of the real photographs' ground truth, page by page:
//! `score_cuts [dev|held|all] [PART OF A NAME] [boxes]`.
//!
//! A zone is found if a cut shares at least half of their united area with it. Zones of initials also hold large letters of
//! type, which are no cuts, and not every ornament has a zone: precision is a lower bound.
#![allow(
    clippy::disallowed_methods,
    clippy::print_stdout,
    clippy::unwrap_used,
    reason = "a tool for the people who build this"
)]

#[path = "../tests/support/mod.rs"]
mod support;

use sheet::{Point, Rect};
use std::collections::BTreeMap;
use std::fmt::Write as _;

/// Words in the names of zones that hold cuts, in ALTO and in PAGE.
const GRAPHIC: [&str; 4] = ["Graphic", "Figure", "Image", "Ornament"];
const INITIAL: [&str; 3] = ["DropCapital", "drop-capital", "Initial"];

struct Zone {
    is_initial: bool,
    place: Rect,
}

fn points(text: &str) -> Vec<Point> {
    let numbers: Vec<f64> = text.split([' ', ',']).filter_map(|n| n.parse().ok()).collect();
    numbers.chunks_exact(2).map(|p| Point::new(p[0], p[1])).collect()
}

fn zones(xml: &str) -> Vec<Zone> {
    let document = roxmltree::Document::parse(xml).unwrap();
    let labels: BTreeMap<&str, &str> =
        document.descendants().filter_map(|n| Some((n.attribute("ID")?, n.attribute("LABEL")?))).collect();
    let mut out = Vec::new();
    for node in document.descendants() {
        let name = node.tag_name().name();
        let kind = match name {
            "TextBlock" | "Illustration" | "GraphicalElement" | "ComposedBlock" => {
                let tags = node.attribute("TAGREFS").unwrap_or("");
                tags.split(' ').filter_map(|t| labels.get(t).copied()).collect::<Vec<_>>().join(" ") + name
            }
            "GraphicRegion" | "ImageRegion" => "Graphic".to_owned(),
            "TextRegion" => node.attribute("type").unwrap_or("").to_owned(),
            _ => continue,
        };
        let is_initial = INITIAL.iter().any(|w| kind.contains(w));
        if !is_initial && !GRAPHIC.iter().any(|w| kind.contains(w)) && name != "Illustration" {
            continue;
        }
        let of = |n: &str| node.attribute(n).and_then(|v| v.parse::<f64>().ok());
        let place = if let (Some(x), Some(y), Some(w), Some(h)) =
            (of("HPOS"), of("VPOS"), of("WIDTH"), of("HEIGHT"))
        {
            Some(Rect::new(x, y, w, h))
        } else {
            let coords = node.children().find(|c| c.tag_name().name() == "Coords");
            coords.and_then(|c| c.attribute("points")).and_then(|p| Rect::around(points(p)))
        };
        out.extend(place.filter(|p| p.area() > 100.0).map(|place| Zone { is_initial, place }));
    }
    out
}

fn alike(a: Rect, b: Rect) -> f64 {
    let shared = a.shared(b).map_or(0.0, Rect::area);
    shared / (a.area() + b.area() - shared)
}

fn main() {
    let args: Vec<String> = std::env::args().collect();
    let which = args.get(1).map_or("dev", String::as_str);
    let part = args.get(2).map_or("", String::as_str);
    let folder = support::real().unwrap();
    let list: Vec<serde_json::Value> =
        serde_json::from_slice(&std::fs::read(folder.join("pages.json")).unwrap()).unwrap();
    let (mut found, mut all, mut right, mut told) = ([0; 2], [0; 2], 0, 0);
    for page in list {
        let file = page["file"].as_str().unwrap();
        let held = support::is_held_out(file);
        if (which == "dev" && held) || (which == "held" && !held) || !file.contains(part) {
            continue;
        }
        let Some(truth) = page["ground_truth"][0].as_str() else { continue };
        let zones = zones(&std::fs::read_to_string(folder.join(truth)).unwrap());
        let Some(luminance) = support::luminance(&folder.join(file)) else { continue };
        let ink = sheet::ink(&luminance).darkness;
        let layout = if ink.width().max(ink.height()) > 2600 {
            sheet::layout(&ink.halved(), 2.0)
        } else {
            sheet::layout(&ink, 1.0)
        };
        let cuts = layout.cuts;
        let mut line = String::new();
        for zone in &zones {
            let best = cuts.iter().map(|c| alike(c.bounds, zone.place)).fold(0.0, f64::max);
            let kind = usize::from(zone.is_initial);
            all[kind] += 1;
            found[kind] += usize::from(best >= 0.5);
            if best < 0.5 {
                let r = zone.place;
                let (kind, [x, y, w, h]) = (["cut", "initial"][kind], [r.x, r.y, r.w, r.h]);
                write!(line, " missed {kind} {x:.0},{y:.0},{w:.0},{h:.0} ({best:.2})").unwrap();
            }
        }
        for cut in &cuts {
            let ok = zones.iter().any(|z| alike(cut.bounds, z.place) >= 0.5);
            told += 1;
            right += usize::from(ok);
            if !ok {
                let r = cut.bounds;
                write!(line, " extra {:?} {:.0},{:.0},{:.0},{:.0}", cut.kind, r.x, r.y, r.w, r.h).unwrap();
            }
        }
        if !line.is_empty() {
            println!("{file}:{line}");
        }
    }
    println!(
        "cuts {}/{}  initials {}/{}  told {told}, on a zone {right}",
        found[0], all[0], found[1], all[1]
    );
}
