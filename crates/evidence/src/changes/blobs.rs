//! Connected places of a small plane.

use sheet::Plane;

/// A connected place: its weight (sum of values), its box (left, top, right, bottom; ends beyond).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Blob {
    pub(super) weight: u32,
    pub(super) area: u32,
    pub(super) bounds: [usize; 4],
}

/// All places of values above zero that touch by a side or a corner, heaviest first.
pub(super) fn blobs(plane: &Plane<u8>) -> Vec<Blob> {
    let (w, h) = (plane.width(), plane.height());
    let mut seen = vec![false; w * h];
    let mut out = Vec::new();
    let mut stack = Vec::new();
    for start in 0..w * h {
        if seen[start] || plane.data()[start] == 0 {
            continue;
        }
        let mut blob = Blob { weight: 0, area: 0, bounds: [w, h, 0, 0] };
        seen[start] = true;
        stack.push(start);
        while let Some(i) = stack.pop() {
            let (x, y) = (i % w, i / w);
            blob.weight += u32::from(plane.data()[i]);
            blob.area += 1;
            let b = &mut blob.bounds;
            *b = [b[0].min(x), b[1].min(y), b[2].max(x + 1), b[3].max(y + 1)];
            for ny in y.saturating_sub(1)..(y + 2).min(h) {
                for nx in x.saturating_sub(1)..(x + 2).min(w) {
                    let n = ny * w + nx;
                    if !seen[n] && plane.data()[n] > 0 {
                        seen[n] = true;
                        stack.push(n);
                    }
                }
            }
        }
        out.push(blob);
    }
    out.sort_by(|p, q| q.weight.cmp(&p.weight).then(p.bounds.cmp(&q.bounds)));
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_join_and_gaps_part() {
        let p = Plane::from_vec(5, 3, vec![9, 0, 0, 0, 4, 0, 9, 0, 0, 0, 0, 0, 0, 7, 0]).unwrap();
        let b = blobs(&p);
        assert_eq!(b.iter().map(|b| b.weight).collect::<Vec<_>>(), [18, 7, 4]);
        assert_eq!(b[0].bounds, [0, 0, 2, 2]);
    }
}
