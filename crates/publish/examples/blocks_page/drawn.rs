//! An invented block, drawn: a tower on a hill over the sea, strokes and hatching, with what it lost.

use publish::pictures::black;
use sheet::Plane;
use tiny_skia::{Color, LineCap, Paint, PathBuilder, Pixmap, Stroke, Transform};

/// Width and height of the block, pixels; at 300 ppi some 76 by 64 mm.
pub(crate) const SIZE: (usize, usize) = (900, 760);

/// A damage: where it is, and the white strokes that it leaves, each with its width.
pub(crate) struct Loss {
    pub(crate) place: [f64; 4],
    pub(crate) strokes: Vec<(Vec<[f32; 2]>, f32)>,
}

/// The seven things that the block loses, in the order in which they are numbered.
pub(crate) fn losses() -> Vec<Loss> {
    let one = |place, strokes| Loss { place, strokes };
    vec![
        one([702.0, 8.0, 26.0, 24.0], vec![(vec![[715.0, 4.0], [715.0, 34.0]], 22.0)]),
        one([402.0, 498.0, 20.0, 20.0], vec![(vec![[412.0, 508.0], [412.1, 508.0]], 19.0)]),
        one(
            [498.0, 36.0, 26.0, 330.0],
            vec![(vec![[504.0, 36.0], [512.0, 160.0], [508.0, 250.0], [518.0, 364.0]], 7.0)],
        ),
        one([262.0, 92.0, 22.0, 20.0], vec![(vec![[273.0, 96.0], [273.0, 108.0]], 18.0)]),
        one([560.0, 650.0, 150.0, 16.0], vec![(vec![[560.0, 658.0], [710.0, 658.0]], 13.0)]),
        one([6.0, 700.0, 62.0, 56.0], vec![(vec![[0.0, 696.0], [70.0, 770.0]], 52.0)]),
        one([646.0, 300.0, 22.0, 22.0], vec![(vec![[657.0, 311.0], [657.1, 311.0]], 20.0)]),
    ]
}

/// How an impression was inked and photographed.
pub(crate) struct Pull {
    /// How much wider strokes print than they are cut, pixels.
    pub(crate) gain: f32,
    /// How dark the ink is, 0 to 1.
    pub(crate) dark: f32,
    /// The paper.
    pub(crate) paper: [f32; 3],
    pub(crate) seed: u32,
}

/// The ink of the block with these of its losses.
pub(crate) fn ink(lost: &[usize], pull: &Pull) -> Plane<u8> {
    let (w, h) = SIZE;
    let Some(mut map) = Pixmap::new(w as u32, h as u32) else { return Plane::filled(w, h, 0) };
    map.fill(Color::BLACK);
    for (points, width) in strokes() {
        draw(&mut map, &points, width + pull.gain, 255);
    }
    let all = losses();
    for &i in lost {
        for (points, width) in &all[i].strokes {
            draw(&mut map, points, (width - pull.gain).max(1.0), 0);
        }
    }
    let mut noise = Noise(pull.seed | 1);
    // The grain of the paper takes ink unevenly.
    let uneven: Vec<f32> = (0..w * h / 9 + w).map(|_| 0.82 + 0.18 * noise.next()).collect();
    let pixels = map.data().chunks_exact(4).enumerate().map(|(i, p)| {
        let (x, y) = (i % w, i / w);
        let share = uneven[(y / 3) * (w / 3) + x / 3] * pull.dark;
        (f32::from(p[0]) * share) as u8
    });
    Plane::from_vec(w, h, pixels.collect()).unwrap_or_else(|| Plane::filled(w, h, 0))
}

/// The photograph of an impression.
pub(crate) fn photograph(ink: &Plane<u8>, pull: &Pull) -> Plane<[u8; 3]> {
    let mut noise = Noise(pull.seed.wrapping_mul(7919) | 1);
    let mut out = black(ink);
    for pixel in out.data_mut() {
        let grain = 7.0 * (noise.next() - 0.5);
        for (v, paper) in pixel.iter_mut().zip(pull.paper) {
            *v = (f32::from(*v) / 252.0 * paper + grain).clamp(0.0, 255.0) as u8;
        }
    }
    out
}

/// A cut with a margin of paper, as it stands on its sheet.
pub(crate) fn on_sheet(photograph: &Plane<[u8; 3]>, pull: &Pull) -> Plane<[u8; 3]> {
    let margin = 40;
    let paper = pull.paper.map(|v| v as u8);
    let mut out = Plane::filled(photograph.width() + 2 * margin, photograph.height() + 2 * margin, paper);
    for y in 0..photograph.height() {
        out.row_mut(y + margin)[margin..margin + photograph.width()].copy_from_slice(photograph.row(y));
    }
    out
}

fn draw(map: &mut Pixmap, points: &[[f32; 2]], width: f32, light: u8) {
    let mut path = PathBuilder::new();
    for (i, [x, y]) in points.iter().enumerate() {
        if i == 0 { path.move_to(*x, *y) } else { path.line_to(*x, *y) }
    }
    let Some(path) = path.finish() else { return };
    let mut paint = Paint::default();
    paint.set_color_rgba8(light, light, light, 255);
    paint.anti_alias = true;
    let stroke = Stroke { width, line_cap: LineCap::Round, ..Stroke::default() };
    map.stroke_path(&path, &paint, &stroke, Transform::identity(), None);
}

/// Every stroke of the block, with its width.
fn strokes() -> Vec<(Vec<[f32; 2]>, f32)> {
    let mut out = Vec::new();
    for (inset, width) in [(14.0, 11.0), (30.0, 3.5)] {
        let (right, foot) = (SIZE.0 as f32 - inset, SIZE.1 as f32 - inset);
        out.push((vec![[inset, inset], [right, inset], [right, foot], [inset, foot], [inset, inset]], width));
    }
    sun(&mut out);
    sky(&mut out);
    hill(&mut out);
    tower(&mut out);
    sea(&mut out);
    out
}

type Strokes = Vec<(Vec<[f32; 2]>, f32)>;

fn curve(from: f32, to: f32, of: impl Fn(f32) -> [f32; 2]) -> Vec<[f32; 2]> {
    (0..=40).map(|i| of(from + (to - from) * i as f32 / 40.0)).collect()
}

fn sun(out: &mut Strokes) {
    let at = [200.0, 160.0];
    out.push((curve(0.0, std::f32::consts::TAU, |t| [at[0] + 46.0 * t.cos(), at[1] + 46.0 * t.sin()]), 5.0));
    for i in 0..16 {
        let t = i as f32 * std::f32::consts::TAU / 16.0 + 0.2;
        let long = if i % 2 == 0 { 104.0 } else { 82.0 };
        let to = |r: f32| [at[0] + r * t.cos(), at[1] + r * t.sin()];
        out.push((vec![to(58.0), to(long)], 4.5));
    }
    // A face.
    for (x, y) in [(184.0, 150.0), (216.0, 150.0)] {
        out.push((curve(0.0, 6.3, |t| [x + 4.0 * t.cos(), y + 3.0 * t.sin()]), 3.0));
    }
    out.push((curve(0.3, 2.8, |t| [at[0] + 20.0 * t.cos(), at[1] + 4.0 + 16.0 * t.sin()]), 3.5));
}

fn sky(out: &mut Strokes) {
    for i in 0..15 {
        let y = 52.0 + 17.0 * i as f32;
        let left = 340.0 + 26.0 * ((i * 7) % 5) as f32;
        out.push((curve(left, 560.0 - 9.0 * ((i * 3) % 4) as f32, |x| [x, y + 3.0 * (x / 40.0).sin()]), 3.2));
        out.push((
            curve(742.0 + 11.0 * ((i * 5) % 3) as f32, 846.0, |x| [x, y + 3.0 * (x / 33.0).sin()]),
            3.2,
        ));
    }
}

fn hill(out: &mut Strokes) {
    let top = |x: f32| 590.0 - 190.0 * (-((x - 600.0) / 240.0).powi(2)).exp();
    out.push((curve(44.0, 856.0, |x| [x, top(x)]), 6.0));
    for i in 0..54 {
        let x = 60.0 + 15.0 * i as f32;
        let long = 26.0 + 70.0 * (-((x - 640.0) / 200.0).powi(2)).exp();
        out.push((vec![[x, top(x) + 9.0], [x - 13.0, top(x) + long]], 3.4));
    }
    for i in 0..22 {
        let x = 240.0 + 15.0 * i as f32;
        out.push((vec![[x, top(x) + 46.0], [x + 26.0, top(x + 20.0) + 74.0]], 3.0));
    }
}

fn tower(out: &mut Strokes) {
    out.push((vec![[570.0, 408.0], [576.0, 170.0], [700.0, 170.0], [706.0, 428.0]], 6.0));
    out.push((vec![[556.0, 170.0], [720.0, 170.0], [720.0, 146.0], [556.0, 146.0], [556.0, 170.0]], 5.0));
    for i in 0..6 {
        let x = 562.0 + 28.0 * i as f32;
        out.push((vec![[x, 146.0], [x, 128.0], [x + 15.0, 128.0], [x + 15.0, 146.0]], 4.5));
    }
    for i in 0..27 {
        let y = 184.0 + 8.6 * i as f32;
        out.push((vec![[652.0, y], [700.0, y + 4.0]], 3.0));
        if i % 3 == 0 {
            out.push((vec![[580.0, y], [600.0 + (i % 2) as f32 * 18.0, y]], 3.0));
        }
    }
    out.push((vec![[622.0, 250.0], [622.0, 214.0], [642.0, 214.0], [642.0, 250.0], [622.0, 250.0]], 4.0));
    out.push((vec![[618.0, 400.0], [618.0, 350.0], [646.0, 350.0], [646.0, 404.0]], 4.5));
}

fn sea(out: &mut Strokes) {
    for i in 0..9 {
        let y = 622.0 + 12.0 * i as f32;
        let (left, right) = (44.0 + 4.0 * (i % 3) as f32, 856.0 - 5.0 * (i % 4) as f32);
        let shift = 11.0 * i as f32;
        out.push((curve(left, right, |x| [x, y + 3.2 * ((x + shift) / 17.0).sin()]), 3.0 + 0.15 * i as f32));
    }
}

/// Numbers that look like chance and are the same every time (a linear congruence, Numerical Recipes).
struct Noise(u32);

impl Noise {
    fn next(&mut self) -> f32 {
        self.0 = self.0.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (self.0 >> 8) as f32 / (1u32 << 24) as f32
    }
}
