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

/// Rows of pictures under each other, so many to a row, a wider gap after each group.
pub(super) fn in_rows(groups: &[Vec<Plane<[u8; 3]>>], to_a_row: usize) -> Plane<[u8; 3]> {
    let groups = groups.iter().filter(|group| !group.is_empty());
    let groups: Vec<Plane<[u8; 3]>> = groups
        .map(|group| {
            let rows: Vec<_> = group.chunks(to_a_row.max(1)).map(side_by_side).collect();
            one_under_the_other(&rows)
        })
        .collect();
    let wide = groups.iter().map(Plane::width).max().unwrap_or(1);
    // What lies between two groups is a strip of white, with what lies between any two.
    let strip = Plane::filled(wide, BETWEEN, WHITE);
    let mut all = Vec::new();
    for (i, group) in groups.into_iter().enumerate() {
        if i > 0 {
            all.push(strip.clone());
        }
        all.push(group);
    }
    one_under_the_other(&all)
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

    #[test]
    fn groups_stand_in_rows_of_their_own() {
        let tile = |v| Plane::filled(4, 3, [v; 3]);
        let all = in_rows(&[vec![tile(1), tile(1), tile(1)], Vec::new(), vec![tile(2)]], 2);
        assert_eq!((all.width(), all.height()), (4 + BETWEEN + 4, 3 + BETWEEN + 3 + 3 * BETWEEN + 3));
        let last = all.height() - 1;
        assert_eq!([all.at(0, 0), all.at(0, 3 + BETWEEN), all.at(0, last)], [[1; 3], [1; 3], [2; 3]]);
    }
}
