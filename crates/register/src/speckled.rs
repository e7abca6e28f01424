//! For tests: a plane of something like type.

/// A plane of something like type, the same every time: a small xorshift drives dots and strokes.
pub(crate) fn speckled(width: usize, height: usize) -> sheet::Plane<u8> {
    let mut state = 0x2545_f491_u32;
    let mut next = move || {
        state ^= state << 13;
        state ^= state >> 17;
        state ^= state << 5;
        state
    };
    let mut plane = sheet::Plane::filled(width, height, 12u8);
    for _ in 0..width * height / 90 {
        let (x, y) = (next() as usize % (width - 8), next() as usize % (height - 12));
        let (w, h, ink) = (1 + next() as usize % 6, 1 + next() as usize % 10, 120 + (next() % 130) as u8);
        for row in y..y + h {
            plane.row_mut(row)[x..x + w].fill(ink);
        }
    }
    plane
}
