use super::*;
use sheet::{Degrees, Line, Plane, Point, Px, Rect, Word};

/// x-height of the pages drawn, in pixels.
const X: usize = 10;

/// A text of words of letters told by numbers; other seeds, other texts.
fn text(words: usize, seed: u32) -> Vec<Vec<u32>> {
    let mut state = seed;
    let mut draw = move |below: u32| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        (state >> 16) % below
    };
    (0..words).map(|_| (0..3 + draw(5)).map(|_| draw(24)).collect()).collect()
}

/// A page of a text in lines of at most `measure` letters, justified. Where `is_parted` says so of a word, it
/// is taken for two; where `is_joined` says so, it is taken together with the next.
fn page(
    text: &[Vec<u32>],
    measure: usize,
    is_parted: fn(usize) -> bool,
    is_joined: fn(usize) -> bool,
) -> (Plane<u8>, Layout) {
    let mut rows: Vec<Vec<usize>> = vec![Vec::new()];
    let mut length = 0;
    for (i, word) in text.iter().enumerate() {
        if length + word.len() + 1 > measure {
            rows.push(Vec::new());
            length = 0;
        }
        length += word.len() + 1;
        rows.last_mut().unwrap().push(i);
    }
    let mut ink = Plane::filled(60 + measure * X, 40 + rows.len() * 3 * X, 0u8);
    let mut lines = Vec::new();
    for (k, row) in rows.iter().enumerate() {
        let base = 40 + k * 3 * X;
        let letters: usize = row.iter().map(|&i| text[i].len()).sum();
        let space = (measure - letters) * X / row.len().max(2).saturating_sub(1).max(1);
        let mut x = 20;
        let mut words: Vec<Word> = Vec::new();
        let mut joins = false;
        for &i in row {
            let begin = x;
            for letter in &text[i] {
                draw(&mut ink, x, base, *letter);
                x += X;
            }
            let place = |from: usize, to: usize| {
                Rect::new(from as f64, (base - 2 * X) as f64, (to - from) as f64, 2.8 * X as f64)
            };
            match words.last_mut() {
                Some(before) if joins => before.bounds = before.bounds.united(place(begin, x)),
                _ if is_parted(i) => {
                    words.push(Word { bounds: place(begin, begin + X) });
                    words.push(Word { bounds: place(begin + X, x) });
                }
                _ => words.push(Word { bounds: place(begin, x) }),
            }
            joins = is_joined(i);
            x += space.min(2 * X);
        }
        let right = x as f64;
        lines.push(Line {
            baseline: vec![Point::new(20.0, base as f64), Point::new(right, base as f64)],
            x_height: Px(X as f64),
            contrast: 0.6,
            bounds: Rect::new(20.0, (base - 2 * X) as f64, right - 20.0, 2.8 * X as f64),
            words,
        });
    }
    let layout = Layout {
        skew: Degrees(0.0),
        lines,
        cuts: Vec::new(),
        not_type: Vec::new(),
        x_height: Some(Px(X as f64)),
        line_pitch: None,
    };
    (ink, layout)
}

/// A letter of three strokes, each of them at two of four heights.
fn draw(ink: &mut Plane<u8>, x: usize, base: usize, letter: u32) {
    let bits = (letter + 1).wrapping_mul(0x9E37_79B9) >> 12;
    for stroke in 0..3 {
        for height in 0..4 {
            if bits >> (stroke * 4 + height) & 1 == 1 {
                let top = base - 15 + height * 4;
                for y in top..top + 4 {
                    ink.row_mut(y)[x + stroke * 3..x + stroke * 3 + 2].fill(220);
                }
            }
        }
    }
}

fn never(_: usize) -> bool {
    false
}

fn sequence((ink, layout): (Plane<u8>, Layout)) -> WordSequence {
    WordSequence::new(&Pyramid::new(ink), &layout)
}

fn plain(text: &[Vec<u32>], measure: usize) -> WordSequence {
    sequence(page(text, measure, never, never))
}

fn share(a: &WordSequence, b: &WordSequence) -> f64 {
    align(a, b).matched_share()
}

#[test]
fn the_same_text_is_found_over_other_line_ends() {
    let words = text(120, 1);
    let found = share(&plain(&words, 50), &plain(&words, 41));
    assert!(found > 0.9, "{found}");
}

#[test]
fn lines_that_begin_with_the_same_words_are_told_from_others() {
    let words = text(240, 11);
    let alike = |measure| align(&plain(&words, 50), &plain(&words, measure)).lines_begin_alike().unwrap();
    assert!(alike(50) > 0.95, "{}", alike(50));
    assert!(alike(41) < 0.4, "{}", alike(41));
    // Of a text with holes as well, where what is left of a line after the hole begins none.
    let holed = align(&plain(&words, 50), &holed(&words, 50, 2..9)).lines_begin_alike().unwrap();
    assert!(holed > 0.8, "{holed}");
    assert_eq!(align(&plain(&text(240, 12), 50), &plain(&words, 50)).lines_begin_alike(), None);
}

#[test]
fn the_same_text_is_found_however_its_words_are_parted() {
    let words = text(120, 2);
    let other = sequence(page(&words, 43, |i| i % 3 == 0, |i| i % 4 == 1));
    let found = share(&plain(&words, 50), &other);
    assert!(found > 0.9, "{found}");
}

/// As a page, but a patch of it, as high as `rows` lines and as wide as four tenths of them, took no ink.
fn holed(words: &[Vec<u32>], measure: usize, rows: std::ops::Range<usize>) -> WordSequence {
    let (mut ink, mut layout) = page(words, measure, never, never);
    let lost = |x: f64| x > 0.3 * ink_width(measure) && x < 0.7 * ink_width(measure);
    for (k, line) in layout.lines.iter_mut().enumerate().filter(|(k, _)| rows.contains(k)) {
        line.words.retain(|w| !lost(w.bounds.centre().x));
        for y in 20 + k * 3 * X..45 + k * 3 * X {
            for (x, v) in ink.row_mut(y).iter_mut().enumerate() {
                if lost(x as f64) {
                    *v = 0;
                }
            }
        }
    }
    sequence((ink, layout))
}

fn ink_width(measure: usize) -> f64 {
    (60 + measure * X) as f64
}

#[test]
fn what_took_no_ink_is_no_other_text() {
    let words = text(160, 9);
    let whole = plain(&words, 50);
    let found = share(&whole, &holed(&words, 43, 2..16));
    assert!(found > 0.75, "{found}");
    // Half of the text left out, and no hole there; windows at the ends of what is left reach a little beyond.
    let shorter: Vec<Vec<u32>> =
        words.iter().enumerate().filter(|(i, _)| i % 16 < 8).map(|(_, w)| w.clone()).collect();
    let found = share(&whole, &plain(&shorter, 43));
    assert!(found < 0.65, "{found}");
    let found = share(&plain(&text(160, 109), 50), &holed(&words, 43, 2..16));
    assert!(found < 0.2, "{found}");
}

#[test]
fn a_part_of_the_text_is_found_in_the_whole() {
    let words = text(160, 3);
    let found = share(&plain(&words, 50), &plain(&words[50..100], 44));
    assert!(found > 0.9, "{found}");
}

#[test]
fn another_text_is_not_found() {
    for seed in 10..20 {
        let found = share(&plain(&text(120, seed), 50), &plain(&text(120, seed + 100), 50));
        assert!(found < 0.2, "{found}");
    }
}

#[test]
fn formulas_in_another_text_are_no_text() {
    let (one, formula) = (text(120, 4), text(4, 6));
    let with_formulas = |words: Vec<Vec<u32>>| -> Vec<Vec<u32>> {
        words.chunks(12).flat_map(|c| c.iter().chain(&formula).cloned().collect::<Vec<_>>()).collect()
    };
    let (one, other) = (with_formulas(one), with_formulas(text(120, 5)));
    let found = share(&plain(&one, 50), &plain(&other, 50));
    assert!(found < 0.3, "{found}");
}

#[test]
fn a_side_is_found_upside_down() {
    let words = text(120, 7);
    let (ink, mut layout) = page(&words, 45, never, never);
    let (w, h) = (ink.width() as f64, ink.height() as f64);
    layout.lines.reverse();
    for line in &mut layout.lines {
        // Upside down, the x-line is taken for the baseline.
        let base = h - (line.baseline[0].y - X as f64);
        line.baseline = line.baseline.iter().rev().map(|p| Point::new(w - p.x, base)).collect();
        line.words.reverse();
        for word in &mut line.words {
            let b = word.bounds;
            word.bounds = Rect::new(w - b.right(), h - b.bottom(), b.w, b.h);
        }
    }
    let (upright, turned) = (plain(&words, 50), sequence((ink.turned(2), layout)));
    let found = share(&upright, &turned);
    assert!(found > 0.9, "{found}");
    assert!(align(&plain(&words, 45), &turned).lines_begin_alike().unwrap() > 0.9);
}

#[test]
fn nothing_is_found_in_nothing() {
    let (a, b) = (plain(&text(60, 8), 50), plain(&[], 50));
    assert!(b.is_empty());
    assert!(share(&a, &b).abs() < f64::EPSILON);
    assert!(share(&b, &a).abs() < f64::EPSILON);
}
