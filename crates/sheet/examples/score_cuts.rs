//! Scores the cuts that the layout finds against the zones of the real photographs' ground truth, page by page:
//! `score_cuts [dev|held|all] [PART OF A NAME] [boxes]`.
//!
//! A zone is found if a cut shares at least half of their united area with it. Many zones are no cuts: letters without a
//! ground, bands of type ornaments, writing. Every zone was looked at, and these are listed in `tests/support/no_cuts.tsv`
//! (file, box, what is there); figures are given for all zones, and without the listed ones, which then count neither for
//! nor against. Not every ornament has a zone: precision is a lower bound.
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

/// Zones that are no cuts.
const NO_CUTS: &str = include_str!("../tests/support/no_cuts.tsv");

struct Zone {
    is_initial: bool,
    place: Rect,
    /// What is there, of one that is no cut.
    no_cut: Option<&'static str>,
}

/// What is at a zone that is listed as no cut.
fn no_cut(file: &str, place: Rect) -> Option<&'static str> {
    let place = [place.x, place.y, place.w, place.h].map(|v| format!("{v:.0}")).join(",");
    NO_CUTS.lines().find_map(|line| {
        let mut cells = line.split('\t');
        (cells.next() == Some(file) && cells.next() == Some(&place)).then(|| cells.next()).flatten()
    })
}

fn points(text: &str) -> Vec<Point> {
    let numbers: Vec<f64> = text.split([' ', ',']).filter_map(|n| n.parse().ok()).collect();
    numbers.chunks_exact(2).map(|p| Point::new(p[0], p[1])).collect()
}

fn zones(file: &str, xml: &str) -> Vec<Zone> {
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
        let place = place.filter(|p| p.area() > 100.0);
        out.extend(place.map(|place| Zone { is_initial, place, no_cut: no_cut(file, place) }));
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
    let mut of_all = Count::default();
    let mut of_cuts = Count::default();
    let mut seconds = 0.0;
    for page in list {
        let file = page["file"].as_str().unwrap();
        let held = support::is_held_out(file);
        if (which == "dev" && held) || (which == "held" && !held) || !file.contains(part) {
            continue;
        }
        let Some(truth) = page["ground_truth"][0].as_str() else { continue };
        let zones = zones(file, &std::fs::read_to_string(folder.join(truth)).unwrap());
        let Some(luminance) = support::luminance(&folder.join(file)) else { continue };
        let mut ink = sheet::ink(&luminance).darkness;
        let mut reduction = 1.0;
        // As in the program.
        while ink.width().max(ink.height()) > 2600 {
            (ink, reduction) = (ink.halved(), 2.0 * reduction);
        }
        let started = std::time::Instant::now();
        let cuts = sheet::layout(&ink, reduction).cuts;
        seconds += started.elapsed().as_secs_f64();
        let mut line = String::new();
        for zone in &zones {
            let best = cuts.iter().map(|c| alike(c.bounds, zone.place)).fold(0.0, f64::max);
            let kind = usize::from(zone.is_initial);
            of_all.zone(kind, best);
            if zone.no_cut.is_none() {
                of_cuts.zone(kind, best);
            }
            if best < 0.5 && zone.no_cut.is_none() {
                let r = zone.place;
                let (kind, [x, y, w, h]) = (["cut", "initial"][kind], [r.x, r.y, r.w, r.h]);
                write!(line, " missed {kind} {x:.0},{y:.0},{w:.0},{h:.0} ({best:.2})").unwrap();
            }
        }
        for cut in &cuts {
            let on = |z: &&Zone| alike(cut.bounds, z.place) >= 0.5;
            let zone = zones.iter().find(on);
            of_all.told(zone.is_some());
            if zone.is_none_or(|z| z.no_cut.is_none()) {
                of_cuts.told(zone.is_some());
            }
            if zone.is_none() {
                let r = cut.bounds;
                write!(line, " extra {:?} {:.0},{:.0},{:.0},{:.0}", cut.kind, r.x, r.y, r.w, r.h).unwrap();
            }
        }
        if !line.is_empty() {
            println!("{file}:{line}");
        }
    }
    println!("all zones: {of_all}");
    println!("without those that are no cuts: {of_cuts}");
    println!("{seconds:.2} s to lay out");
}

/// What was found of cuts and initials, and what was told.
#[derive(Default)]
struct Count {
    found: [usize; 2],
    well: [usize; 2],
    all: [usize; 2],
    told: usize,
    right: usize,
}

impl Count {
    fn zone(&mut self, kind: usize, best: f64) {
        self.all[kind] += 1;
        self.found[kind] += usize::from(best >= 0.5);
        self.well[kind] += usize::from(best >= 0.8);
    }

    fn told(&mut self, is_right: bool) {
        self.told += 1;
        self.right += usize::from(is_right);
    }
}

impl std::fmt::Display for Count {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let Self { found, well, all, told, right } = self;
        write!(
            f,
            "cuts {} of {} (well {}), initials {} of {} (well {}), told {told}, on a zone {right}",
            found[0], all[0], well[0], found[1], all[1], well[1]
        )
    }
}
