use sheet::{Mm, Plane, Point, Ppi, Rect};

use super::*;
use crate::camera::Camera;
use crate::ink::Ink;
use crate::paper::Paper;
use crate::pull::Conditions;

fn clean(ppi: f64) -> Conditions {
    Conditions { ink: Ink::good(), paper: Paper::good(), camera: Camera::good(Ppi(ppi)) }
}

fn life(founts: &Founts, kind: BlockKind, larger: f64, seed: u64) -> Life {
    let block = Block::cut(founts, kind, kind.size(Mm(larger), seed), seed);
    Life::lived(block, 1600.0, 1650.0, 0.6, seed)
}

fn alone(founts: &Founts, life: &Life, year: f64, conditions: &Conditions, seed: u64) -> BlockPull {
    print_blocks(founts, &[Standing { life, year }], Surroundings::Alone, conditions, seed).unwrap()
}

/// Darkness of a photograph on a grid of the block, `step` mm apart, smoothed by reading four places a knot.
fn on_block(pull: &BlockPull, bounds: Rect, step: f64) -> Plane<f32> {
    let grey = pull.picture.luminance();
    let mut out = Plane::filled((bounds.w / step) as usize, (bounds.h / step) as usize, 0.0f32);
    for y in 0..out.height() {
        for x in 0..out.width() {
            let at = Point::new((x as f64 + 0.5) * step, (y as f64 + 0.5) * step);
            let p = pull.truth.to_photograph(0, at).unwrap();
            let (px, py) = (p.x - 0.5, p.y - 0.5);
            let (x0, y0) = (px.floor().max(0.0) as usize, py.floor().max(0.0) as usize);
            let (u, v) = ((px - px.floor()) as f32, (py - py.floor()) as f32);
            let level = |dx: usize, dy: usize| {
                f32::from(grey.at((x0 + dx).min(grey.width() - 1), (y0 + dy).min(grey.height() - 1)))
            };
            let top = level(0, 0) * (1.0 - u) + level(1, 0) * u;
            let low = level(0, 1) * (1.0 - u) + level(1, 1) * u;
            out.row_mut(y)[x] = 255.0 - (top * (1.0 - v) + low * v);
        }
    }
    out
}

/// For patches of 4 mm that hold lines: how far each must be moved to lie best on the first, against the patches within
/// 14 mm of it; the median of that, in mm.
fn unrest(a: &Plane<f32>, b: &Plane<f32>, step: f64) -> f64 {
    let (side, reach) = ((4.0 / step) as usize, (1.4 / step) as isize);
    let mut pairs = Vec::new();
    let (wide, high) = (a.width().min(b.width()), a.height().min(b.height()));
    for top in (reach as usize..high.saturating_sub(side + reach as usize)).step_by(side) {
        for left in (reach as usize..wide.saturating_sub(side + reach as usize)).step_by(side) {
            let score = |dx: isize, dy: isize| {
                let (mut n, mut sa, mut sb, mut saa, mut sbb, mut sab) = (0.0f64, 0.0, 0.0, 0.0, 0.0, 0.0);
                for y in top..top + side {
                    let (ra, rb) = (a.row(y), b.row((y as isize + dy) as usize));
                    for x in left..left + side {
                        let (p, q) = (f64::from(ra[x]), f64::from(rb[(x as isize + dx) as usize]));
                        n += 1.0;
                        sa += p;
                        sb += q;
                        saa += p * p;
                        sbb += q * q;
                        sab += p * q;
                    }
                }
                let (va, vb) = (saa - sa * sa / n, sbb - sb * sb / n);
                if va < 900.0 * n || vb < 900.0 * n {
                    return None;
                }
                Some((sab - sa * sb / n) / (va * vb).sqrt())
            };
            let best = (-reach..=reach)
                .flat_map(|dy| (-reach..=reach).map(move |dx| (dx, dy)))
                .filter_map(|(dx, dy)| Some((score(dx, dy)?, dx, dy)))
                .max_by(|p, q| p.0.total_cmp(&q.0));
            if let Some((_, dx, dy)) = best {
                let at = Point::new(left as f64, top as f64) * step;
                pairs.push((at, at + Point::new(dx as f64, dy as f64) * step));
            }
        }
    }
    assert!(pairs.len() > 20, "too few patches: {}", pairs.len());
    let middle = |mut v: Vec<f64>| {
        v.sort_by(f64::total_cmp);
        v[v.len() / 2]
    };
    let rest = |&(at, to): &(Point, Point)| {
        let near: Vec<Point> =
            pairs.iter().filter(|(p, _)| p.distance(at) < 14.0).map(|(p, q)| *q - *p).collect();
        let usual = Point::new(
            middle(near.iter().map(|d| d.x).collect()),
            middle(near.iter().map(|d| d.y).collect()),
        );
        (to - at - usual).length()
    };
    middle(pairs.iter().map(rest).collect())
}

#[test]
fn the_same_seed_gives_the_same_block_life_and_photograph() {
    let founts = Founts::open().unwrap();
    let kind = BlockKind::Device;
    assert_eq!(life(&founts, kind, 45.0, 7), life(&founts, kind, 45.0, 7));
    assert_ne!(life(&founts, kind, 45.0, 7).block.strokes, life(&founts, kind, 45.0, 8).block.strokes);
    let one = life(&founts, kind, 45.0, 7);
    let print = || alone(&founts, &one, 1640.0, &clean(200.0), 3);
    assert_eq!(print(), print());
}

#[test]
fn every_kind_of_block_has_strokes_enough_within_its_bounds() {
    let founts = Founts::open().unwrap();
    for kind in BlockKind::ALL {
        for seed in 0..8 {
            let block = Block::cut(&founts, kind, kind.size(Mm(60.0), seed), seed);
            assert!(block.strokes.len() > 100, "{kind:?} {seed}: {}", block.strokes.len());
            let room = block.bounds().grown(2.5);
            let stray = block
                .strokes
                .iter()
                .filter(|s| s.bounds().is_some_and(|b| !b.corners().iter().all(|&c| room.holds(c))))
                .count();
            assert_eq!(stray, 0, "{kind:?} {seed}");
            assert_eq!(block.hole.is_some(), kind == BlockKind::Factotum);
        }
    }
}

#[test]
fn one_block_lies_on_itself_after_the_map_and_a_copy_wanders_by_its_care() {
    let founts = Founts::open().unwrap();
    let first = life(&founts, BlockKind::Pictorial, 60.0, 11);
    let step = 0.08;
    let bounds = first.block.bounds();
    let mut heavy = clean(300.0);
    heavy.ink.strength = 0.85;
    heavy.ink.squash = Mm(0.06);
    heavy.paper.shrinkage = [2.0, 0.4];
    let a = on_block(&alone(&founts, &first, 1610.0, &clean(300.0), 1), bounds, step);
    let b = on_block(&alone(&founts, &first, 1649.0, &heavy, 2), bounds, step);
    let same = unrest(&a, &b, step);
    assert!(same < step, "{same} mm");
    // What is found on the photographs is what the care says, within one step of the grid either way.
    for care in CopyCare::ALL {
        let copy = Life::lived(first.block.recut(care, false, 4), 1600.0, 1650.0, 0.6, 5);
        let c = on_block(&alone(&founts, &copy, 1649.0, &clean(300.0), 3), bounds, step);
        let other = unrest(&a, &c, step);
        let [least, most] = care.wander();
        assert!(other > 0.7 * least.0 && other < most.0 + step, "{care:?}: {other} mm");
    }
}

#[test]
fn the_box_of_a_damage_covers_what_it_changes_in_the_print_and_nothing_else_changes() {
    let founts = Founts::open().unwrap();
    let life = life(&founts, BlockKind::Pictorial, 60.0, 21);
    let year = 1650.0;
    let conditions = clean(400.0);
    let with = alone(&founts, &life, year, &conditions, 9);
    let (mut seen, mut asked) = (0, 0);
    for (k, damage) in life.damages.iter().enumerate().take(14) {
        let mut whole = life.clone();
        whole.damages.remove(k);
        let without = alone(&founts, &whole, year, &conditions, 9);
        let place = with.truth.cuts[0].damages[k].box_px.grown(6.0);
        let (p, q) = (with.picture.luminance(), without.picture.luminance());
        let (mut inside, mut outside) = (0, 0);
        for y in 0..p.height() {
            for x in 0..p.width() {
                // Noise and grain are the same in both: what differs is ink.
                if p.at(x, y).abs_diff(q.at(x, y)) > 40 {
                    let here = place.holds(Point::new(x as f64 + 0.5, y as f64 + 0.5));
                    *(if here { &mut inside } else { &mut outside }) += 1;
                }
            }
        }
        assert_eq!(outside, 0, "{damage:?}");
        if with.truth.cuts[0].damages[k].presence == Presence::Present {
            asked += 1;
            seen += usize::from(inside > 3);
        }
    }
    assert!(asked >= 8 && seen == asked, "{seen} of {asked}");
}

#[test]
fn an_impression_shows_what_the_block_had_and_feigned_gaps_are_not_asked_for() {
    let founts = Founts::open().unwrap();
    let life = life(&founts, BlockKind::TailPiece, 60.0, 5);
    let early = alone(&founts, &life, 1600.0, &clean(400.0), 1);
    assert!(early.truth.cuts[0].damages.iter().all(|d| !d.stands));
    let told = |p: &BlockPull, wanted: Presence| {
        p.truth.cuts[0].damages.iter().filter(|d| d.presence == wanted).count()
    };
    let late = alone(&founts, &life, 1650.0, &clean(400.0), 2);
    let n = life.damages.len();
    assert!(told(&early, Presence::Absent) * 10 >= n * 7, "{} of {n}", told(&early, Presence::Absent));
    assert!(told(&late, Presence::Present) * 10 >= n * 7, "{} of {n}", told(&late, Presence::Present));
    // Where the balls brought no ink, nothing can be told.
    let mut dry = clean(400.0);
    dry.ink.strength = 0.3;
    let faint = alone(&founts, &life, 1650.0, &dry, 2);
    assert_eq!(told(&faint, Presence::Present) + told(&faint, Presence::Absent), 0);
}

#[test]
fn the_hole_of_a_factotum_takes_other_letters() {
    let founts = Founts::open().unwrap();
    let life = life(&founts, BlockKind::Factotum, 34.0, 5);
    let letters: std::collections::BTreeSet<char> = (0..8)
        .map(|seed| {
            let pull = alone(&founts, &life, 1620.0, &clean(200.0), seed);
            let cut = &pull.truth.cuts[0];
            let letter = cut.letter.unwrap();
            let hole = life.block.hole.unwrap();
            let there =
                Rect::around(hole.corners().map(|c| pull.truth.to_photograph(0, c).unwrap())).unwrap();
            assert!(
                there
                    .grown(3.0)
                    .shared(letter.box_px)
                    .is_some_and(|s| s.area() > 0.95 * letter.box_px.area())
            );
            letter.letter
        })
        .collect();
    assert!(letters.len() > 3, "{letters:?}");
}

#[test]
fn the_map_of_a_cut_goes_there_and_back_among_type() {
    let founts = Founts::open().unwrap();
    for kind in BlockKind::ALL {
        let life = life(&founts, kind, 40.0, 3);
        let mut conditions = clean(150.0);
        conditions.paper.cockle = Mm(0.4);
        let standing = [Standing { life: &life, year: 1630.0 }];
        let pull = print_blocks(&founts, &standing, Surroundings::Type, &conditions, 6).unwrap();
        assert!(pull.truth.sheet.setting.lines.len() > 4, "{kind:?} stands among type");
        let c = life.block.bounds().centre();
        let back = pull.truth.to_block(0, pull.truth.to_photograph(0, c).unwrap()).unwrap();
        assert!(back.distance(c) < 1e-6, "{kind:?}");
        // Nothing of the type stands on the block, but for the letter in a hole.
        let place = pull.truth.sheet.setting.cuts.last().unwrap().place.grown(-0.3);
        let sorts = pull.truth.sheet.setting.sorts().filter(|(_, _, s)| {
            let b = s.bounds();
            place.holds(Point::new(b.x, s.at.y)) || place.holds(Point::new(b.right(), s.at.y))
        });
        assert!(sorts.count() <= usize::from(kind == BlockKind::Factotum), "{kind:?}");
    }
}

#[test]
fn pairs_say_what_they_are_and_a_history_gathers_damage() {
    let founts = Founts::open().unwrap();
    let plan = BlockPair {
        relation: Relation::SameBlock,
        cut: CutOf::One { block: BlockKind::Initial { letter: 'M' } },
        size: Mm(32.0),
        years: 40.0,
        level: 0,
        ppi_a: Ppi(250.0),
        ppi_b: Ppi(200.0),
        among: [Surroundings::Alone; 2],
        seed: 4,
    };
    let all = [
        Relation::SameBlock,
        Relation::SameBlockAltered { what: AlterationKind::Plug },
        Relation::SameBlockAltered { what: AlterationKind::CutDown },
        Relation::ReCut { care: CopyCare::Traced },
        Relation::OtherDesign,
        Relation::Unrelated,
        Relation::Cast,
    ];
    for relation in all {
        let pair = BlockPair { relation, ..plan }.print(&founts).unwrap();
        assert_eq!(pair.pieces[0].verdict, relation.verdict());
        let material = pair.lives_b[0].block.material;
        assert_eq!(material == Material::Metal, relation == Relation::Cast);
        let left = pair.lives_b[0].outline(1690.0).area() / pair.lives_a[0].block.bounds().area();
        if relation == (Relation::SameBlockAltered { what: AlterationKind::CutDown }) {
            assert!(left < 0.97 && left > 0.7, "{left}");
        }
    }
    let composite = BlockPair {
        relation: Relation::ReCut { care: CopyCare::Usual },
        cut: CutOf::Composite { pieces: 3 },
        ..plan
    };
    let pair = composite.print(&founts).unwrap();
    let verdicts: Vec<&str> = pair.pieces.iter().map(|p| p.verdict.as_str()).collect();
    assert_eq!(verdicts.iter().filter(|v| **v == "same-block").count(), 2);
    assert_eq!(pair.a.truth.cuts.len(), 3);
    let history = BlockHistory {
        kind: BlockKind::Arms,
        size: Mm(50.0),
        impressions: 5,
        years: 40.0,
        rate: 0.5,
        plugged: false,
        level: 0,
        ppi: [Ppi(250.0), Ppi(200.0)],
        among: Surroundings::Alone,
        seed: 2,
    };
    let printed = history.print(&founts).unwrap();
    let counts: Vec<usize> =
        printed.pulls.iter().map(|p| p.truth.cuts[0].damages.iter().filter(|d| d.stands).count()).collect();
    let mended = printed.life.damages.iter().filter(|d| d.ended.is_some()).count();
    assert!(counts.windows(2).all(|w| w[0] <= w[1] + mended) && counts[4] > 5 && mended < 3, "{counts:?}");
    assert!(printed.table().iter().all(|(_, row)| row.len() == 5));
}

/// Ink of a block on cells of about a thirtieth of its size.
fn coarse(block: &Block) -> Vec<f64> {
    let r = block.bounds();
    let (columns, rows) = (30, 30);
    let per_mm = 6.0;
    let painted = paint::Painted::of(&block.strokes, block.knife, r, per_mm);
    let mut cells = vec![0.0; columns * rows];
    for (p, c) in painted.cells() {
        let x = ((p.x / r.w * columns as f64) as usize).min(columns - 1);
        let y = ((p.y / r.h * rows as f64) as usize).min(rows - 1);
        cells[y * columns + x] += f64::from(c);
    }
    cells
}

fn correlation(a: &[f64], b: &[f64]) -> f64 {
    let n = a.len() as f64;
    let (ma, mb) = (a.iter().sum::<f64>() / n, b.iter().sum::<f64>() / n);
    let sum = |f: fn(f64, f64) -> f64| a.iter().zip(b).map(|(p, q)| f(p - ma, q - mb)).sum::<f64>();
    sum(|p, q| p * q) / (sum(|p, _| p * p) * sum(|_, q| q * q)).sqrt()
}

#[test]
fn two_seeds_do_not_look_alike_as_a_block_and_its_copy_do() {
    let founts = Founts::open().unwrap();
    let size = (Mm(55.0), Mm(45.0));
    for kind in
        [BlockKind::Pictorial, BlockKind::TailPiece, BlockKind::HeadPiece, BlockKind::Arms, BlockKind::Device]
    {
        let blocks: Vec<Block> = (100..120).map(|seed| Block::cut(&founts, kind, size, seed)).collect();
        let seen: Vec<Vec<f64>> = blocks.iter().map(coarse).collect();
        let own = correlation(&seen[0], &coarse(&blocks[0].recut(CopyCare::Close, false, 1)));
        let mut others: Vec<f64> = (0..20)
            .flat_map(|i| (0..i).map(move |j| (i, j)))
            .map(|(i, j)| correlation(&seen[i], &seen[j]))
            .collect();
        others.sort_by(f64::total_cmp);
        assert!(others[189] < own, "{kind:?}: {} against {own}", others[189]);
        assert!(others[95] < 0.6, "{kind:?}: {}", others[95]);
    }
}
