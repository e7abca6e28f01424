//! Pictures joined into one, with a little white between.

use sheet::Plane;

/// White between two pictures, pixels.
const BETWEEN: usize = 8;
const WHITE: [u8; 3] = [255; 3];

/// Pictures beside each other, tops level.
pub(super) fn side_by_side(pictures: &[Plane<[u8; 3]>]) -> Plane<[u8; 3]> {
    let high = pictures.iter().map(Plane::height).max().unwrap_or(0);
    let wide = length(pictures.iter().map(Plane::width));
    let mut out = Plane::filled(wide, high, WHITE);
    let mut x = 0;
    for picture in pictures {
        lay(&mut out, picture, x, 0);
        x += picture.width() + BETWEEN;
    }
    out
}

/// Pictures under each other, left edges level.
pub(super) fn one_under_the_other(pictures: &[Plane<[u8; 3]>]) -> Plane<[u8; 3]> {
    let wide = pictures.iter().map(Plane::width).max().unwrap_or(0);
    let high = length(pictures.iter().map(Plane::height));
    let mut out = Plane::filled(wide, high, WHITE);
    let mut y = 0;
    for picture in pictures {
        lay(&mut out, picture, 0, y);
        y += picture.height() + BETWEEN;
    }
    out
}

/// All lengths with what is between.
fn length(lengths: impl ExactSizeIterator<Item = usize>) -> usize {
    let between = BETWEEN * lengths.len().saturating_sub(1);
    lengths.sum::<usize>() + between
}

fn lay(out: &mut Plane<[u8; 3]>, picture: &Plane<[u8; 3]>, x: usize, y: usize) {
    for row in 0..picture.height() {
        out.row_mut(y + row)[x..x + picture.width()].copy_from_slice(picture.row(row));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_lies_where_it_should_with_white_between() {
        let pictures = [Plane::filled(3, 5, [1; 3]), Plane::filled(2, 4, [2; 3])];
        let beside = side_by_side(&pictures);
        assert_eq!((beside.width(), beside.height()), (3 + BETWEEN + 2, 5));
        assert_eq!([beside.at(2, 4), beside.at(4, 0), beside.at(3 + BETWEEN, 3)], [[1; 3], WHITE, [2; 3]]);
        let under = one_under_the_other(&pictures);
        assert_eq!((under.width(), under.height()), (3, 5 + BETWEEN + 4));
        assert_eq!(
            [under.at(0, 0), under.at(2, 5 + BETWEEN), under.at(1, 5 + BETWEEN)],
            [[1; 3], WHITE, [2; 3]]
        );
    }
}
