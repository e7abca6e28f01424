//! Connected places of a small plane.

use sheet::Plane;

/// A connected place: its weight (sum of values), its box (left, top, right, bottom; ends beyond).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Blob {
    pub(super) weight: u32,
    pub(super) area: u32,
    pub(super) bounds: [usize; 4],
}

/// The places of a plane, heaviest first, and which place every sample belongs to (0: none, else the
/// place's number in the list plus one).
#[derive(Debug, Clone)]
pub(super) struct Blobs {
    pub(super) all: Vec<Blob>,
    pub(super) of: Vec<u32>,
}

/// All places of values above `floor` that touch by a side or a corner.
pub(super) fn blobs(plane: &Plane<u8>, floor: u8) -> Blobs {
    let (w, h) = (plane.width(), plane.height());
    let mut of = vec![0u32; w * h];
    let mut found: Vec<(Blob, u32)> = Vec::new();
    let mut stack = Vec::new();
    for start in 0..w * h {
        if of[start] != 0 || plane.data()[start] <= floor {
            continue;
        }
        let mut blob = Blob { weight: 0, area: 0, bounds: [w, h, 0, 0] };
        let name = found.len() as u32 + 1;
        of[start] = name;
        stack.push((start % w, start / w));
        while let Some((x, y)) = stack.pop() {
            let i = y * w + x;
            blob.weight += u32::from(plane.data()[i]);
            blob.area += 1;
            let b = &mut blob.bounds;
            *b = [b[0].min(x), b[1].min(y), b[2].max(x + 1), b[3].max(y + 1)];
            for ny in y.saturating_sub(1)..(y + 2).min(h) {
                for nx in x.saturating_sub(1)..(x + 2).min(w) {
                    let n = ny * w + nx;
                    if of[n] == 0 && plane.data()[n] > floor {
                        of[n] = name;
                        stack.push((nx, ny));
                    }
                }
            }
        }
        found.push((blob, name));
    }
    found.sort_by(|(p, _), (q, _)| q.weight.cmp(&p.weight).then(p.bounds.cmp(&q.bounds)));
    let mut renamed = vec![0u32; found.len() + 1];
    for (i, (_, name)) in found.iter().enumerate() {
        renamed[*name as usize] = i as u32 + 1;
    }
    for name in &mut of {
        *name = renamed[*name as usize];
    }
    Blobs { all: found.into_iter().map(|(b, _)| b).collect(), of }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_join_and_gaps_part() {
        let p = Plane::from_vec(5, 3, vec![9, 0, 0, 0, 4, 0, 9, 0, 0, 0, 0, 0, 0, 7, 0]).unwrap();
        let b = blobs(&p, 0);
        assert_eq!(b.all.iter().map(|b| b.weight).collect::<Vec<_>>(), [18, 7, 4]);
        assert_eq!(b.all[0].bounds, [0, 0, 2, 2]);
        assert_eq!((b.of[0], b.of[6], b.of[13], b.of[4], b.of[1]), (1, 1, 2, 3, 0));
    }
}
