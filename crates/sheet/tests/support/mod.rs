//! Ground truth of the real photographs, and how a layout is scored against it.

#![allow(
    dead_code,
    unreachable_pub,
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "shared by tests and examples, each uses a part"
)]

use sheet::{Layout, Plane, Point};
use std::path::{Path, PathBuf};

/// A line of the ground truth, in pixels of the photograph.
#[derive(Debug, Clone)]
pub struct TrueLine {
    pub baseline: Vec<Point>,
    /// Height of the polygon drawn about the line.
    pub height: f64,
    pub text: String,
    /// Left and right edges of the words, where they were marked.
    pub words: Vec<(f64, f64)>,
    /// Measured on the letters, where they were marked.
    pub x_height: Option<f64>,
}

/// A page of the ground truth.
#[derive(Debug, Clone)]
pub struct TruePage {
    /// Relative to the folder of photographs.
    pub file: String,
    pub lines: Vec<TrueLine>,
}

/// The folder of real photographs, if there is one.
pub fn real() -> Option<PathBuf> {
    let given = std::env::var_os("REGLET_REAL").map(PathBuf::from);
    let folder = given.unwrap_or_else(|| {
        Path::new(concat!(env!("CARGO_MANIFEST_DIR"), "/../../../shared/real")).to_owned()
    });
    folder.join("pages.json").exists().then_some(folder)
}

/// All pages with ground truth.
pub fn pages(folder: &Path) -> Vec<TruePage> {
    let list: Vec<serde_json::Value> =
        serde_json::from_slice(&std::fs::read(folder.join("pages.json")).unwrap()).unwrap();
    let mut out = Vec::new();
    for page in list {
        let file = page["file"].as_str().unwrap().to_owned();
        if let Some(truth) = page["ground_truth"][0].as_str() {
            let text = std::fs::read_to_string(folder.join(truth)).unwrap();
            out.push(TruePage { file, lines: lines(&text) });
        }
    }
    out
}

/// Pages are parted by book: about one book in three is held out. The book is the folder of the file.
///
/// The two books on a dark table with a ruler (`cremma-16-17`) fell to the held-out part, but were looked
/// at while the work went on, and so count as development.
pub fn is_held_out(file: &str) -> bool {
    if file.starts_with("cremma") {
        return false;
    }
    let book = file.rsplit_once('/').map_or("", |p| p.0);
    book.bytes().fold(7u32, |h, b| h.wrapping_mul(31).wrapping_add(u32::from(b))) % 3 == 0
}

/// The luminance of a photograph; `None` when this decoder cannot read it.
pub fn luminance(path: &Path) -> Option<Plane<u8>> {
    let grey = image::open(path).ok()?.into_luma8();
    Plane::from_vec(grey.width() as usize, grey.height() as usize, grey.into_raw())
}

fn points(text: &str) -> Vec<Point> {
    let numbers: Vec<f64> = text.split([' ', ',']).filter_map(|n| n.parse().ok()).collect();
    numbers.chunks_exact(2).map(|p| Point::new(p[0], p[1])).collect()
}

/// The mean height of a polygon that runs along a line: area by width.
fn height(polygon: &[Point]) -> f64 {
    let n = polygon.len();
    let area: f64 =
        (0..n).map(|i| (polygon[i], polygon[(i + 1) % n])).map(|(p, q)| p.x * q.y - q.x * p.y).sum();
    let left = polygon.iter().map(|p| p.x).fold(f64::INFINITY, f64::min);
    let right = polygon.iter().map(|p| p.x).fold(f64::NEG_INFINITY, f64::max);
    area.abs() / 2.0 / (right - left).max(1.0)
}

/// The lines of an ALTO or PAGE file.
fn lines(xml: &str) -> Vec<TrueLine> {
    let document = roxmltree::Document::parse(xml).unwrap();
    let mut out = Vec::new();
    // Initials are marked as lines of their own; here they are not type.
    let initials: Vec<&str> = document
        .descendants()
        .filter(|n| n.attribute("LABEL").is_some_and(|l| l.contains("DropCapital")))
        .filter_map(|n| n.attribute("ID"))
        .collect();
    let is_initial = |n: &roxmltree::Node<'_, '_>| {
        let tags = |n: &roxmltree::Node<'_, '_>| {
            n.attribute("TAGREFS").is_some_and(|t| t.split(' ').any(|t| initials.contains(&t)))
        };
        tags(n) || n.parent().is_some_and(|p| tags(&p))
    };
    for node in document.descendants().filter(|n| n.tag_name().name() == "TextLine" && !is_initial(n)) {
        let child = |name: &str| node.children().find(|c| c.tag_name().name() == name);
        if let Some(baseline) = node.attribute("BASELINE") {
            let polygon = node
                .descendants()
                .find(|n| n.tag_name().name() == "Polygon")
                .and_then(|n| n.attribute("POINTS"));
            let text = child("String").and_then(|n| n.attribute("CONTENT")).unwrap_or("");
            out.push(TrueLine {
                baseline: points(baseline),
                height: polygon.map_or(0.0, |p| height(&points(p))),
                text: text.to_owned(),
                words: Vec::new(),
                x_height: None,
            });
        } else if let Some(baseline) = child("Baseline").and_then(|n| n.attribute("points")) {
            let polygon = child("Coords").and_then(|n| n.attribute("points")).unwrap_or("");
            let text = child("TextEquiv")
                .and_then(|n| n.descendants().find_map(|d| d.text().filter(|t| !t.trim().is_empty())));
            out.push(TrueLine {
                baseline: points(baseline),
                height: height(&points(polygon)),
                text: text.unwrap_or("").to_owned(),
                words: Vec::new(),
                x_height: None,
            });
        } else if let Some(line) = from_glyphs(&node) {
            out.push(line);
        }
    }
    out.retain(|l| l.baseline.len() > 1 && l.baseline[l.baseline.len() - 1].x > l.baseline[0].x);
    out
}

/// A line whose letters were marked one by one: the baseline is a line through the feet of those that
/// have no descender, by throwing away what lies far off three times.
fn from_glyphs(node: &roxmltree::Node<'_, '_>) -> Option<TrueLine> {
    let boxed = |n: &roxmltree::Node<'_, '_>| {
        let coords = n.children().find(|c| c.tag_name().name() == "Coords")?.attribute("points")?.to_owned();
        sheet::Rect::around(points(&coords))
    };
    let text = |n: &roxmltree::Node<'_, '_>| {
        let equiv = n.children().find(|c| c.tag_name().name() == "TextEquiv")?;
        equiv.children().find(|c| c.tag_name().name() == "Unicode")?.text().map(str::to_owned)
    };
    let words: Vec<_> = node.children().filter(|n| n.tag_name().name() == "Word").collect();
    let glyphs: Vec<_> =
        words.iter().flat_map(|w| w.children().filter(|n| n.tag_name().name() == "Glyph")).collect();
    let mut feet: Vec<Point> = Vec::new();
    let mut small: Vec<f64> = Vec::new();
    for glyph in &glyphs {
        let b = boxed(glyph)?;
        let letter = text(glyph).unwrap_or_default();
        if letter.chars().all(char::is_alphanumeric) && !letter.contains(['g', 'j', 'p', 'q', 'y', 'z', 'h'])
        {
            feet.push(Point::new(b.centre().x, b.bottom()));
        }
        if letter.len() == 1 && letter.contains(['a', 'c', 'e', 'm', 'n', 'o', 'r', 'u', 'v', 'w', 'x']) {
            small.push(b.h);
        }
    }
    let whole = Rect2::of(&words.iter().filter_map(boxed).collect::<Vec<_>>())?;
    if feet.is_empty() {
        return None;
    }
    let (mut slope, mut at) = (0.0, 0.0);
    for _ in 0..3 {
        let n = feet.len() as f64;
        let (mx, my) = (feet.iter().map(|p| p.x).sum::<f64>() / n, feet.iter().map(|p| p.y).sum::<f64>() / n);
        let sxx: f64 = feet.iter().map(|p| (p.x - mx).powi(2)).sum();
        let sxy: f64 = feet.iter().map(|p| (p.x - mx) * (p.y - my)).sum();
        slope = if sxx > 0.0 && feet.len() > 4 { sxy / sxx } else { 0.0 };
        at = my - slope * mx;
        let mut off: Vec<f64> = feet.iter().map(|p| (p.y - at - slope * p.x).abs()).collect();
        off.sort_by(f64::total_cmp);
        let bound = (2.5 * off[off.len() / 2]).max(1.0);
        feet.retain(|p| (p.y - at - slope * p.x).abs() <= bound);
    }
    small.sort_by(f64::total_cmp);
    let joined: Vec<String> = words.iter().filter_map(text).collect();
    Some(TrueLine {
        baseline: vec![Point::new(whole.0, at + slope * whole.0), Point::new(whole.1, at + slope * whole.1)],
        height: whole.2,
        text: joined.join(" "),
        words: words.iter().filter_map(boxed).map(|b| (b.x, b.right())).collect(),
        x_height: (small.len() > 4).then(|| small[small.len() / 2]),
    })
}

/// Left, right and height of all boxes together.
struct Rect2;
impl Rect2 {
    fn of(boxes: &[sheet::Rect]) -> Option<(f64, f64, f64)> {
        let all = boxes.iter().copied().reduce(sheet::Rect::united)?;
        Some((all.x, all.right(), all.h))
    }
}

/// y of a polyline at a column; `None` beyond its ends.
pub fn y_at(line: &[Point], x: f64) -> Option<f64> {
    line.windows(2).find(|p| x >= p[0].x && x <= p[1].x).map(|p| {
        let w = p[1].x - p[0].x;
        if w <= 0.0 { p[0].y } else { p[0].y + (p[1].y - p[0].y) * (x - p[0].x) / w }
    })
}

/// Share of `line` that runs within `tolerance` of `other`, and the mean distance there.
pub fn along(line: &[Point], other: &[Point], tolerance: f64) -> (f64, f64) {
    let (from, to) = (line[0].x, line[line.len() - 1].x);
    let n = 100;
    let (mut near, mut apart) = (0, 0.0);
    for i in 0..n {
        let x = from + (to - from) * (f64::from(i) + 0.5) / f64::from(n);
        if let (Some(a), Some(b)) = (y_at(line, x), y_at(other, x))
            && (a - b).abs() <= tolerance
        {
            near += 1;
            apart += (a - b).abs();
        }
    }
    (f64::from(near) / f64::from(n), apart / f64::from(near.max(1)))
}

/// The x-height that the truth suggests for each of its lines: measured on letters where marked,
/// else 0.45 of the usual distance of lines on the page, for lines of usual height; 0.38 of the
/// polygon's height for others.
pub fn x_heights(page: &TruePage) -> Vec<f64> {
    let middle = |l: &TrueLine| {
        (
            f64::midpoint(l.baseline[0].x, l.baseline[l.baseline.len() - 1].x),
            l.baseline.iter().map(|p| p.y).sum::<f64>() / l.baseline.len() as f64,
        )
    };
    let mut pitches: Vec<f64> = Vec::new();
    for l in &page.lines {
        let (x, y) = middle(l);
        let below = page
            .lines
            .iter()
            .filter(|o| o.baseline[0].x < x && o.baseline[o.baseline.len() - 1].x > x)
            .map(|o| middle(o).1 - y)
            .filter(|d| *d > 3.0);
        let next = below.fold(f64::INFINITY, f64::min);
        if next.is_finite() {
            pitches.push(next);
        }
    }
    pitches.sort_by(f64::total_cmp);
    let usual = pitches.get(pitches.len() / 2).map_or(0.0, |p| 0.45 * p);
    page.lines
        .iter()
        .map(|l| {
            let own = 0.38 * l.height;
            let guess = if usual > 0.0 { own.clamp(0.7 * usual, 3.0 * usual) } else { own };
            let typical = usual > 0.0 && own < 1.6 * usual;
            l.x_height.unwrap_or(if typical { usual } else { guess })
        })
        .collect()
}

/// Counts over one or many pages.
#[derive(Debug, Clone, Default)]
pub struct Score {
    pub true_lines: usize,
    pub found_lines: usize,
    pub given_lines: usize,
    pub right_lines: usize,
    /// Distances of baselines, in x-heights, over found lines.
    pub apart: Vec<f64>,
    /// log of the x-height over the true one, where that was measured.
    pub size: Vec<f64>,
    /// Words: number in the truth and in the layout, over lines found one to one.
    pub true_words: usize,
    pub given_words: usize,
    /// Sum of the differences of the numbers of words, line by line.
    pub word_count_off: usize,
    /// Spaces between marked words: in the truth, found, given.
    pub true_spaces: usize,
    pub found_spaces: usize,
    pub given_spaces: usize,
}

impl Score {
    pub fn recall(&self) -> f64 {
        self.found_lines as f64 / self.true_lines.max(1) as f64
    }

    pub fn precision(&self) -> f64 {
        self.right_lines as f64 / self.given_lines.max(1) as f64
    }

    pub fn add(&mut self, o: &Score) {
        self.true_lines += o.true_lines;
        self.found_lines += o.found_lines;
        self.given_lines += o.given_lines;
        self.right_lines += o.right_lines;
        self.apart.extend(&o.apart);
        self.size.extend(&o.size);
        self.true_words += o.true_words;
        self.given_words += o.given_words;
        self.word_count_off += o.word_count_off;
        self.true_spaces += o.true_spaces;
        self.found_spaces += o.found_spaces;
        self.given_spaces += o.given_spaces;
    }
}

/// Which true lines were found, which given lines are right, and the counts.
///
/// A true line is found when at least 70 percent of its length lies within 0.4 x-heights of one given
/// baseline; a given line is right when at least 70 percent of *its* length lies so near one true line.
pub fn score(page: &TruePage, layout: &Layout) -> (Score, Vec<bool>, Vec<bool>) {
    let sizes = x_heights(page);
    let mut s = Score { true_lines: page.lines.len(), given_lines: layout.lines.len(), ..Score::default() };
    let mut found = Vec::new();
    for (l, &h) in page.lines.iter().zip(&sizes) {
        let best = layout
            .lines
            .iter()
            .map(|g| (along(&l.baseline, &g.baseline, 0.4 * h), g))
            .max_by(|a, b| a.0.0.total_cmp(&b.0.0));
        let hit = best.filter(|b| b.0.0 >= 0.7);
        found.push(hit.is_some());
        if let Some(((_, apart), g)) = hit {
            s.found_lines += 1;
            s.apart.push(apart / h);
            if let Some(true_size) = l.x_height {
                s.size.push((g.x_height.0 / true_size).ln());
            }
            if along(&g.baseline, &l.baseline, 0.4 * h).0 >= 0.7 {
                let n = l.text.split_whitespace().count();
                if n > 0 {
                    s.true_words += n;
                    s.given_words += g.words.len();
                    s.word_count_off += n.abs_diff(g.words.len());
                }
                spaces(l, g, &mut s);
            }
        }
    }
    let mut right = Vec::new();
    for g in &layout.lines {
        let ok =
            page.lines.iter().zip(&sizes).any(|(l, &h)| along(&g.baseline, &l.baseline, 0.4 * h).0 >= 0.7);
        right.push(ok);
        s.right_lines += usize::from(ok);
    }
    (s, found, right)
}

/// Counts the spaces between marked words that a space of the layout meets.
fn spaces(l: &TrueLine, g: &sheet::Line, s: &mut Score) {
    if l.words.len() < 2 {
        return;
    }
    let given: Vec<(f64, f64)> = g.words.windows(2).map(|p| (p[0].bounds.right(), p[1].bounds.x)).collect();
    let truth: Vec<(f64, f64)> = l.words.windows(2).map(|p| (p[0].1, p[1].0)).collect();
    let meets = |a: &(f64, f64), b: &(f64, f64)| {
        let m = f64::midpoint(b.0, b.1);
        let slack = 0.25 * g.x_height.0;
        m > a.0 - slack && m < a.1 + slack
    };
    s.true_spaces += truth.len();
    s.given_spaces += given.len();
    s.found_spaces += truth.iter().filter(|t| given.iter().any(|g| meets(g, t))).count();
}
