//! Which copies have one reading at a place that differs, by what was found of their pairs and by their ink.
//!
//! That a copy differs from the frame is found by comparing the two; whether two that do agree with each other, and whether
//! those that seem to agree show anything there at all, is told from how unlike the inks are. Figures of this file were
//! chosen on eight simulated studies of twenty copies and tried on eight others (docs/benchmarks.md).

use super::alike::Seen;
use crate::rank::median;

/// The readings at a place.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Readings {
    /// Copies that agree, the frame's reading first and the frame first in it.
    pub(super) readings: Vec<Vec<usize>>,
    /// Copies in which it is not clear.
    pub(super) unclear: Vec<usize>,
}

/// What was found of the copies of a setting against its frame, at a place.
#[derive(Debug, Clone, Default)]
pub(super) struct Found {
    pub(super) frame: usize,
    /// No difference was found.
    pub(super) like: Vec<usize>,
    /// A difference was found.
    pub(super) differing: Vec<usize>,
    /// It could not be judged.
    pub(super) open: Vec<usize>,
}

/// Two readings are one if they are less unlike than this share of what they are unlike the frame, each less this much of
/// how unlike the copies are beside the place.
const ONE_READING: f64 = 0.8;
const OF_BESIDE: f64 = 0.5;
/// What copies are unlike the frame is taken to be at least this: pulls of one sort are unlike by some hundredths.
const LEAST: f64 = 0.03;
const LEAST_UNLIKE: f64 = 0.02;
/// Where nothing tells how unlike two pulls of one reading are, two agree if they are unlike by less than this share of
/// what those are that differ.
const CLOSER: f64 = 0.5;
/// A copy plainly has a reading if it is so many times as near to it as to any other.
const PLAINLY: f64 = 2.0;
/// Two readings are apart if copies of the one are so many times as unlike those of the other as they are each other. Over 15
/// simulated studies readings that are two were apart by 1.9 and more but for four, of 110; of nineteen that were none,
/// seven were, of which three were accidents of one copy.
const APART: f64 = 1.8;
/// A copy alone in its reading has lost ink there if it has less than this share of what copies commonly have beside the
/// place.
const LEAST_INK: f64 = 0.85;

/// Settles the readings. `agree` says of two copies that differ from the frame whether they agree, where their ink is not
/// seen.
pub(super) fn settle(found: Found, seen: &mut Seen<'_>, agree: impl Fn(usize, usize) -> bool) -> Readings {
    let Found { frame, like, differing, mut open } = found;
    let of_frame = like_the_frame(frame, &like, &differing, &mut open, seen);
    let others = if seen.against(frame, &differing).is_some() {
        by_ink(&differing, &of_frame, seen)
    } else {
        by_word(&differing, agree)
    };
    let mut out = Readings { readings: vec![of_frame], unclear: Vec::new() };
    out.readings.extend(others);
    for copy in open {
        match plainly(copy, &out.readings, seen) {
            Some(reading) => out.readings[reading].push(copy),
            None => out.unclear.push(copy),
        }
    }
    set_aside(&mut out, seen);
    set_aside_what_is_not_apart(&mut out, seen);
    out.readings[0][1..].sort_unstable();
    for reading in &mut out.readings[1..] {
        reading.sort_unstable();
    }
    out.readings[1..].sort();
    out.unclear.sort_unstable();
    out
}

/// The frame, and those in which no difference was found and which show what it shows; the others are in doubt.
fn like_the_frame(
    frame: usize,
    like: &[usize],
    differing: &[usize],
    open: &mut Vec<usize>,
    seen: &mut Seen<'_>,
) -> Vec<usize> {
    let unlike = |copies: &[usize], seen: &mut Seen<'_>| -> Vec<f64> {
        copies.iter().filter_map(|&copy| seen.between(frame, copy).map(|u| u.there)).collect()
    };
    let (of_like, of_differing) = (unlike(like, seen), unlike(differing, seen));
    let usual = (of_like.len() > 1).then(|| median(of_like));
    let mut out = vec![frame];
    for &copy in like {
        // Where the ink is lost altogether nothing was found to differ.
        let is_like = seen.between(frame, copy).is_none_or(|u| {
            of_differing.is_empty() || u.there < limit(usual, u.beside, median(of_differing.clone()))
        });
        if is_like { out.push(copy) } else { open.push(copy) }
    }
    out
}

/// How unlike two copies of one reading may be: halfway, by ratio, between what is usual or what they are beside the place,
/// and what those are that differ.
fn limit(usual: Option<f64>, beside: f64, differing: f64) -> f64 {
    let between = |least: f64| (least.max(beside).max(LEAST_UNLIKE) * differing).sqrt();
    usual.map_or_else(|| between(0.0).max(CLOSER * differing), between).max(LEAST_UNLIKE)
}

/// The readings of copies that differ from the frame, by their ink: the two nearest become one as long as they are near
/// (average linkage, as of settings).
fn by_ink(differing: &[usize], of_frame: &[usize], seen: &mut Seen<'_>) -> Vec<Vec<usize>> {
    let mut groups: Vec<Vec<usize>> = differing.iter().map(|&copy| vec![copy]).collect();
    loop {
        let mut best: Option<(f64, [usize; 2])> = None;
        for other in 1..groups.len() {
            for one in 0..other {
                let ratio = ratio(&groups[one], &groups[other], of_frame, seen);
                if ratio < ONE_READING && best.is_none_or(|(least, _)| ratio < least) {
                    best = Some((ratio, [one, other]));
                }
            }
        }
        let Some((_, [one, other])) = best else { return groups };
        let joined = groups.remove(other);
        groups[one].extend(joined);
    }
}

/// How unlike two groups are, as a share of what they are unlike the frame's reading.
fn ratio(one: &[usize], other: &[usize], of_frame: &[usize], seen: &mut Seen<'_>) -> f64 {
    let to = |group: &[usize], others: &[usize], seen: &mut Seen<'_>| -> Option<[f64; 2]> {
        let all: Vec<_> = group.iter().filter_map(|&copy| seen.against(copy, others)).collect();
        (!all.is_empty()).then(|| {
            [median(all.iter().map(|u| u.there).collect()), median(all.iter().map(|u| u.beside).collect())]
        })
    };
    let (Some(between), Some(p), Some(q)) =
        (to(one, other, seen), to(one, of_frame, seen), to(other, of_frame, seen))
    else {
        return f64::INFINITY;
    };
    let from_frame = (p[0].min(q[0]) - OF_BESIDE * p[1].max(q[1])).max(LEAST);
    (between[0] - OF_BESIDE * between[1]).max(0.0) / from_frame
}

/// The readings of copies that differ from the frame, where their ink is not seen.
fn by_word(differing: &[usize], agree: impl Fn(usize, usize) -> bool) -> Vec<Vec<usize>> {
    let mut out: Vec<Vec<usize>> = Vec::new();
    for &copy in differing {
        match out.iter_mut().find(|reading| reading.iter().any(|&earlier| agree(earlier, copy))) {
            Some(reading) => reading.push(copy),
            None => out.push(vec![copy]),
        }
    }
    out
}

/// The reading that a copy in doubt plainly has, if its ink shows one.
fn plainly(copy: usize, readings: &[Vec<usize>], seen: &mut Seen<'_>) -> Option<usize> {
    let mut all: Vec<_> =
        (0..readings.len()).filter_map(|i| Some((seen.against(copy, &readings[i])?, i))).collect();
    all.sort_by(|p, q| p.0.there.total_cmp(&q.0.there));
    let (nearest, reading) = *all.first()?;
    let (next, _) = *all.get(1)?;
    let is_near = nearest.there < limit(None, nearest.beside, next.there);
    (is_near && is_nearer(nearest.there, next.there)).then_some(reading)
}

fn is_nearer(near: f64, far: f64) -> bool {
    near.max(LEAST_UNLIKE) * PLAINLY < far
}

/// Sets aside what is not clear after all: a copy alone in its reading that lost ink about the place, and one whose
/// ink is plainly nearer to another reading than to that which was found.
fn set_aside(out: &mut Readings, seen: &mut Seen<'_>) {
    let all: Vec<usize> = out.readings.iter().flatten().chain(&out.unclear).copied().collect();
    let inks: Vec<f64> = all.iter().filter_map(|&copy| seen.ink_beside(copy)).collect();
    if inks.is_empty() {
        return;
    }
    let least = LEAST_INK * median(inks);
    let mut aside: Vec<usize> = Vec::new();
    for reading in &out.readings[1..] {
        if let [alone] = reading[..]
            && seen.ink_beside(alone).is_some_and(|ink| ink < least)
        {
            aside.push(alone);
        }
    }
    // Of two that agree one cannot say which is astray.
    let many = out.readings.iter().enumerate().filter(|(i, r)| *i == 0 || r.len() > 2);
    for (i, reading) in many {
        for &copy in &reading[usize::from(i == 0)..] {
            let Some(own) = seen.against(copy, reading) else { continue };
            let mut others =
                out.readings.iter().enumerate().filter(|(k, r)| *k != i && (*k == 0 || r.len() > 1));
            if others.any(|(_, r)| seen.against(copy, r).is_some_and(|u| is_nearer(u.there, own.there))) {
                aside.push(copy);
            }
        }
    }
    for reading in &mut out.readings {
        reading.retain(|copy| !aside.contains(copy));
    }
    out.readings.retain(|reading| !reading.is_empty());
    aside.sort_unstable();
    aside.dedup();
    out.unclear.extend(aside);
}

/// Sets aside the copies of each reading that is not apart from a larger one.
fn set_aside_what_is_not_apart(out: &mut Readings, seen: &mut Seen<'_>) {
    loop {
        let smaller = (0..out.readings.len()).find(|&i| {
            let is_larger = |k: usize| {
                let [own, other] = [i, k].map(|r| out.readings[r].len());
                other > own || other == own && k < i
            };
            let larger: Vec<usize> = (0..out.readings.len()).filter(|&k| k != i && is_larger(k)).collect();
            larger.iter().any(|&k| !are_apart(&out.readings[i], &out.readings[k], seen))
        });
        let Some(smaller) = smaller else { return };
        out.unclear.extend(out.readings.remove(smaller));
    }
}

/// Whether two readings are apart. Of two copies, each alone in its reading, nothing tells how unlike copies of one are.
fn are_apart(one: &[usize], other: &[usize], seen: &mut Seen<'_>) -> bool {
    let usual = [one, other].map(|reading| {
        let own: Vec<f64> =
            reading.iter().filter_map(|&copy| seen.against(copy, reading).map(|u| u.there)).collect();
        (!own.is_empty()).then(|| median(own))
    });
    let Some(usual) = usual.into_iter().flatten().reduce(f64::max) else { return true };
    let between: Vec<f64> =
        one.iter().filter_map(|&copy| seen.against(copy, other).map(|u| u.there)).collect();
    between.is_empty() || median(between) >= APART * usual.max(LEAST_UNLIKE)
}
