use super::*;
use crate::compose::{Care, compose};
use crate::fount::Founts;
use crate::layout::Layout;
use crate::text::{Commission, PageKind, Spelling, Text};

fn setting(founts: &Founts, kind: PageKind, seed: u64) -> Setting {
    let text = Text::invented(&Commission {
        kind,
        spelling: Spelling::default(),
        words: 160,
        frame: seed,
        body: seed,
    });
    compose(founts, &Layout::drawn(kind, seed), &text, 0.3, seed).unwrap()
}

fn stands(setting: &Setting) -> Vec<(u32, u64, Point)> {
    setting.sorts().map(|(_, _, s)| (s.id, s.piece, s.at)).collect()
}

#[test]
fn every_line_is_as_long_as_its_measure() {
    let founts = Founts::open().unwrap();
    for kind in PageKind::ALL {
        for seed in 0..8 {
            for line in &setting(&founts, kind, seed).lines {
                let width = line.set_width().0;
                match line.fill {
                    crate::Fill::Justified => assert!((width - line.width.0).abs() < 1e-6),
                    _ => assert!(width <= line.width.0 + 1e-6, "{width} in {}", line.width.0),
                }
            }
        }
    }
}

#[test]
fn a_hundred_seeds_give_a_hundred_pages() {
    let founts = Founts::open().unwrap();
    let mut pages = std::collections::BTreeSet::new();
    for kind in PageKind::ALL {
        for seed in 100..120 {
            let page = setting(&founts, kind, seed);
            let place = |p: Point| ((p.x * 1000.0) as i64, (p.y * 1000.0) as i64);
            pages.insert(page.sorts().map(|(_, _, s)| (s.glyph, place(s.at))).collect::<Vec<_>>());
            assert!(
                page.page.w > 50.0 && page.page.h > 50.0 && page.page.h < 700.0,
                "{kind:?} {seed}: {:?}",
                page.page
            );
        }
    }
    assert_eq!(pages.len(), 100);
}

#[test]
fn each_correction_is_made_where_it_says_and_nowhere_else() {
    let founts = Founts::open().unwrap();
    let base = setting(&founts, PageKind::Order, 3);
    for class in ChangeClass::AT_PRESS {
        let (now, changes) = base.corrected(&founts, &[class], 11).unwrap();
        assert_eq!(changes.len(), 1, "{class:?}");
        let change = &changes[0];
        assert_eq!((change.class, now.id == base.id), (class, true));
        for (i, (was, is)) in base.lines.iter().zip(&now.lines).enumerate() {
            assert_eq!(was == is, i != change.line, "{class:?} line {i}");
        }
        let (was, is) = (&base.lines[change.line], &now.lines[change.line]);
        let ends = |l: &Line| {
            l.words.last().and_then(|w| w.sorts.last().map(|s| s.at.x - s.shift.x + s.width.0)).unwrap()
        };
        if was.fill == crate::Fill::Justified {
            assert!((ends(was) - ends(is)).abs() < 1e-6, "{class:?}: the line is still full");
        }
        assert!(change.before.is_some() || change.after.is_some());
    }
}

#[test]
fn corrected_throughout_each_change_is_where_it_says() {
    let founts = Founts::open().unwrap();
    for kind in [PageKind::Order, PageKind::Ballad] {
        let base = setting(&founts, kind, 4);
        let (now, changes) = base.corrected_throughout(&founts, &ChangeClass::OF_SORTS, 12).unwrap();
        assert!(changes.len() > 20, "{}", changes.len());
        for (i, (was, is)) in base.lines.iter().zip(&now.lines).enumerate() {
            for (w, (before, after)) in was.words.iter().zip(&is.words).enumerate() {
                let of_word: Vec<&Change> =
                    changes.iter().filter(|c| (c.line, c.word) == (i, Some(w))).collect();
                assert!(of_word.len() <= 1);
                let glyphs = |word: &crate::setting::Word| -> Vec<(char, bool)> {
                    word.sorts.iter().map(|s| (s.glyph, s.upside_down)).collect()
                };
                assert!(glyphs(before) == glyphs(after) || of_word.len() == 1, "line {i} word {w}");
                for change in of_word {
                    let inside = |r: Option<Rect>, l: &Line| {
                        r.is_none_or(|r| l.words[w].bounds().unwrap().grown(1.0).holds(r.centre()))
                    };
                    assert!(inside(change.before, was) && inside(change.after, is), "{change:?}");
                }
            }
        }
    }
}

#[test]
fn a_very_careful_resetting_drifts_within_the_line_and_comes_back() {
    let founts = Founts::open().unwrap();
    let base = setting(&founts, PageKind::Order, 5);
    let how = Reset { care: Care::VeryCareful, respelt: 0.0, new_skeleton: true };
    let now = base.reset(&founts, how, 99).unwrap();
    assert_ne!(now.id, base.id);
    let mut drifts = Vec::new();
    for (was, is) in base.lines.iter().zip(&now.lines).filter(|(l, _)| l.fill == crate::Fill::Justified) {
        assert_eq!(was.words.len(), is.words.len());
        let end = |l: &Line| l.words.last().unwrap().sorts.last().map(|s| s.at.x + s.width.0).unwrap();
        assert!((end(was) - end(is)).abs() < 1e-6);
        for (a, b) in was.words.iter().zip(&is.words) {
            assert_eq!(a.text, b.text);
            drifts.push((b.sorts[0].at.x - a.sorts[0].at.x).abs());
        }
    }
    drifts.sort_by(f64::total_cmp);
    let (median, most) = (drifts[drifts.len() / 2], drifts[drifts.len() - 1]);
    assert!(median > 0.03 && median < 0.4 && most > 0.1 && most < 1.5, "{median} {most}");
    let same_piece = stands(&base).iter().zip(stands(&now)).filter(|(a, b)| a.1 == b.1).count();
    assert!(same_piece < 10, "{same_piece} sorts are the same pieces");
}

#[test]
fn a_skeleton_that_is_kept_stands_and_the_text_does_not() {
    let founts = Founts::open().unwrap();
    let base = (1..40)
        .map(|seed| setting(&founts, PageKind::BookLeaf, seed))
        .find(|s| !s.skeleton().cuts.is_empty() && !s.skeleton().headlines.is_empty())
        .unwrap();
    for new_skeleton in [false, true] {
        let how = Reset { care: Care::Ordinary, respelt: 0.0, new_skeleton };
        let now = base.reset(&founts, how, 7).unwrap();
        assert_eq!(now.skeleton() == base.skeleton(), !new_skeleton);
        let stand = base.text_lines().into_iter().filter(|&i| base.lines[i] == now.lines[i]).count();
        assert_eq!(stand, 0);
        let mut ids: Vec<u32> = now.sorts().map(|(_, _, s)| s.id).collect();
        ids.sort_unstable();
        assert!(ids.windows(2).all(|w| w[0] < w[1]), "no two sorts share a number");
    }
    let [head, foot, left, right] = base.skeleton().furniture;
    assert_eq!((head.bottom(), foot.y), (base.page.y, base.page.bottom()));
    assert_eq!((left.right(), right.x), (base.page.x, base.page.right()));
}

#[test]
fn lines_not_set_again_stay_as_they_stood() {
    let founts = Founts::open().unwrap();
    let base = setting(&founts, PageKind::BookLeaf, 8);
    let lines: Vec<usize> = base.text_lines().into_iter().skip(4).take(3).collect();
    let how = Reset { care: Care::Careful, respelt: 0.0, new_skeleton: false };
    let (now, changes) = base.partly_reset(&founts, &lines, how, 4).unwrap();
    assert_eq!(changes.iter().map(|c| c.line).collect::<Vec<_>>(), lines);
    for (i, (was, is)) in base.lines.iter().zip(&now.lines).enumerate() {
        assert_eq!(was == is, !lines.contains(&i));
    }
}
