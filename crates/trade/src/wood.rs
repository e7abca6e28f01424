//! How wood moves as it dries: across the grain, hardly along it.

/// A kind of wood, and by how much it shrinks from green to oven-dry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wood {
    /// Its common name.
    pub name: &'static str,
    /// Its kind.
    pub genus: &'static str,
    /// Across the grain along the rings (tangentially), and from pith to bark (radially): percent of what it measured green.
    pub shrinks: [f64; 2],
}

/// Shrinkage along the grain from green to oven-dry, percent at the most (*Wood Handbook*, FPL-GTR-190, chapter 4: 0.1 to 0.2
/// for most woods; 0.3 from memory).
pub const LONGWISE: f64 = 0.3;

/// Points of moisture, percent of the dry weight, by which wood that is kept indoors changes between a damp season and a dry one
/// and over the years after it was cut (common practice, no source; blocks were wetted, too, but dried before long).
pub const SEASONS: f64 = 4.0;

/// Points of moisture from green wood, where it begins to shrink, to dry: the usual fibre saturation.
const SATURATION: f64 = 30.0;

const fn wood(name: &'static str, genus: &'static str, tangential: f64, radial: f64) -> Wood {
    Wood { name, genus, shrinks: [tangential, radial] }
}

/// Woods that blocks were cut of, or may have been: table 1 of the chapter on wood in *The Structural Conservation of Panel
/// Paintings* (Getty Conservation Institute, 1998), means of the genus. Of pear and box, the usual woods, that table has none, and
/// what is told of them from memory (9 and 4.6; 8 to 10 and 5 to 6) lies between these; of apple, which is next to pear, the *Wood
/// Handbook* has the coefficients of `tests`.
pub const WOODS: [Wood; 10] = [
    wood("walnut", "Juglans", 6.4, 4.3),
    wood("willow", "Salix", 7.2, 4.2),
    wood("alder", "Alnus", 7.3, 4.4),
    wood("cherry", "Prunus", 7.8, 4.2),
    wood("ash", "Fraxinus", 8.3, 5.2),
    wood("poplar", "Populus", 8.5, 3.4),
    wood("maple", "Acer", 8.8, 4.2),
    wood("lime", "Tilia", 9.5, 6.8),
    wood("oak", "Quercus", 10.2, 5.2),
    wood("beech", "Fagus", 11.8, 5.8),
];

impl Wood {
    /// The share by which it shrinks across the grain, along the rings and from pith to bark, when its moisture falls by so many
    /// points: evenly from saturation to dry, as the same sources reckon.
    pub fn across(&self, points: f64) -> [f64; 2] {
        self.shrinks.map(|percent| shrunk(percent, points))
    }
}

/// The share by which wood that shrinks by so many percent from green to dry shrinks when its moisture falls by so many points.
fn shrunk(percent: f64, points: f64) -> f64 {
    percent / 100.0 * points / SATURATION
}

/// The most by which one block may be narrower at one time than at another, across the grain and along it, as shares: of any of
/// [`WOODS`], over [`SEASONS`].
pub fn gives() -> [f64; 2] {
    let across = WOODS.iter().flat_map(|w| w.across(SEASONS)).fold(0.0, f64::max);
    [across, shrunk(LONGWISE, SEASONS)]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(name: &str) -> Wood {
        *WOODS.iter().find(|w| w.name == name).unwrap()
    }

    /// Cherry that loses four points: 1.04 and 0.56 percent (7.8 and 4.2 by 4 of 30).
    #[test]
    fn cherry_moves_by_a_hundredth_in_a_season() {
        let [along_rings, to_bark] = of("cherry").across(4.0);
        assert!((along_rings - 0.0104).abs() < 5e-5 && (to_bark - 0.0056).abs() < 5e-5);
    }

    /// *Wood Handbook* (FPL-GTR-190), table 13-5: the change for each point of moisture from 6 to 14, radial and tangential. Means of
    /// a genus are held against one American kind of it, so they agree to a third only; that one kind's total shrinkage (table
    /// 4-3) by a thirtieth agrees with its coefficients to a tenth.
    #[test]
    fn a_thirtieth_of_the_whole_is_what_the_handbook_has_for_a_point() {
        // Radial and tangential, green to dry in percent and for one point, as shares: alder, cherry, walnut, beech.
        let handbook = [
            ("alder", [4.4, 7.3], [0.00151, 0.00256]),
            ("cherry", [3.7, 7.1], [0.00126, 0.00248]),
            ("walnut", [5.5, 7.8], [0.00190, 0.00274]),
            ("beech", [5.5, 11.9], [0.00190, 0.00431]),
        ];
        for (name, whole, point) in handbook {
            let [along_rings, to_bark] = of(name).across(1.0);
            for ((whole, point), ours) in whole.into_iter().zip(point).zip([to_bark, along_rings]) {
                assert!((shrunk(whole, 1.0) / point - 1.0).abs() < 0.1, "{name}: {whole} {point}");
                assert!((ours / point - 1.0).abs() < 0.34, "{name}: {ours} {point}");
            }
        }
        // Apple, next to pear: table 13-5.
        assert!(gives()[0] > 0.00376 * SEASONS, "pear has room");
    }

    #[test]
    fn a_block_gives_across_its_grain_and_not_along_it() {
        let [across, along] = gives();
        assert!((0.010..0.017).contains(&across) && along < 0.0005, "{across} {along}");
        assert!(WOODS.iter().all(|w| w.shrinks[0] > w.shrinks[1]));
    }
}
