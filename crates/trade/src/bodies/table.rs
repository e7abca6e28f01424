//! The table of bodies: English founders by the number to the foot, Fournier's points, German names.

use crate::lengths::{Band, MM_PER_FOOT, Mm};
use schemars::JsonSchema;
use serde::Serialize;

/// The trade's language that a name belongs to.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Tongue {
    /// English founders and printers.
    English,
    /// French, by Fournier's points.
    French,
    /// German names for the same bodies.
    German,
}

/// What one founder or printer says of a body.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Founder {
    /// Who, and when: "Moxon 1683".
    pub who: &'static str,
    /// How many bodies go to an English foot, as he says.
    pub to_the_foot: f64,
    /// Twenty lines set solid, millimetres, from that number.
    pub twenty_lines_mm: Mm,
}

/// A body of type by its name.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Body {
    /// The name: "pica".
    pub name: &'static str,
    /// Whose name it is.
    pub tongue: Tongue,
    /// One body, head to foot.
    pub body: Band,
    /// Twenty bodies, which are twenty lines set solid, when the type was new and the paper not yet shrunk.
    pub twenty_lines: Band,
    /// What single founders say.
    pub founders: Vec<Founder>,
    /// Fournier's points, for French and German names.
    pub fournier_points: Option<u16>,
    /// The name of the same body in English; for a name that is not English.
    pub english_neighbour: Option<&'static str>,
    /// The published source.
    pub source: &'static str,
}

/// One of Fournier's points, millimetres: about 0.349, between 0.345 and 0.350. (From memory.)
pub const FOURNIER_POINT: Band = Band { least_mm: Mm(0.345), most_mm: Mm(0.350) };

/// Moxon, Smith, Caslon: how many to the foot; zero where he has none. Then the least and the most of six lists.
type English = (&'static str, f64, f64, f64, f64, f64);

/// Bodies to the foot as Reed, *History of the Old English Letter Foundries* (1887), chapter 1, collects them from six
/// lists (seen); Moxon's are the same in his *Mechanick Exercises* (1683), section 2 (seen). Fractions "and space" or "and
/// an r" of Smith's are left away.
const ENGLISH: [English; 18] = [
    ("diamond", 0.0, 0.0, 204.0, 204.0, 210.0),
    ("pearl", 184.0, 178.0, 178.0, 178.0, 184.0),
    ("nonpareil", 150.0, 143.0, 144.0, 143.0, 150.0),
    ("minion", 0.0, 128.0, 122.0, 122.0, 128.0),
    ("brevier", 112.0, 112.5, 111.0, 107.0, 112.5),
    ("bourgeois", 0.0, 102.0, 102.0, 101.5, 103.0),
    ("long primer", 92.0, 89.0, 89.0, 89.0, 92.0),
    ("small pica", 0.0, 83.0, 83.0, 82.0, 83.0),
    ("pica", 75.0, 71.5, 72.0, 71.5, 75.0),
    ("English", 66.0, 64.0, 64.0, 64.0, 66.0),
    ("great primer", 50.0, 51.0, 51.0, 50.0, 52.0),
    ("paragon", 0.0, 44.5, 44.5, 44.5, 44.5),
    ("double pica", 38.0, 41.5, 41.5, 38.0, 41.5),
    ("two-line pica", 0.0, 35.75, 36.0, 35.75, 36.0),
    ("two-line English", 33.0, 32.0, 32.0, 32.0, 33.0),
    ("two-line great primer", 0.0, 25.5, 25.5, 25.5, 26.0),
    ("two-line double pica", 0.0, 20.75, 20.75, 20.5, 20.75),
    ("canon", 17.5, 18.0, 18.0, 17.5, 18.0),
];

const REED: &str = "Reed, History of the Old English Letter Foundries (1887), chapter 1, six founders' lists";
const PEIGNOT: &str = "Peignot, Dictionnaire raisonné de bibliologie I, after Fournier's Manuel (1764)";
const MACKELLAR: &str = "MacKellar, The American Printer, names of bodies";

/// Names and points of Fournier, after Peignot (seen), and the English body nearest to each. A first table of 1737 has
/// other numbers (cicéro 11, gros-romain 15 to 16), so Fournier's earlier specimens are not read by this one.
const FRENCH: [(&str, u16, Option<&str>); 20] = [
    ("parisienne", 5, Some("pearl")),
    ("nompareille", 6, Some("nonpareil")),
    ("mignone", 7, Some("minion")),
    ("petit-texte", 8, Some("brevier")),
    ("gaillarde", 9, Some("bourgeois")),
    ("petit-romain", 10, Some("long primer")),
    ("philosophie", 11, Some("small pica")),
    ("cicéro", 12, Some("pica")),
    ("saint-augustin", 14, Some("English")),
    ("gros-texte", 16, None),
    ("gros-romain", 18, Some("great primer")),
    ("petit-parangon", 20, Some("paragon")),
    ("gros-parangon", 22, Some("double pica")),
    ("palestine", 24, Some("two-line pica")),
    ("petit-canon", 28, Some("two-line English")),
    ("trismégiste", 36, Some("two-line great primer")),
    ("gros-canon", 44, Some("two-line double pica")),
    ("double-canon", 56, None),
    ("triple-canon", 72, None),
    ("grosse-nompareille", 96, None),
];

/// German names and the French body that each is (MacKellar: seen). Their size is taken from that body, because no German
/// founder's figures were seen.
const GERMAN: [(&str, u16); 7] = [
    ("Colonel", 7),
    ("Petit", 8),
    ("Corpus", 10),
    ("Cicero", 12),
    ("Mittel", 14),
    ("Tertia", 18),
    ("Text", 20),
];

/// Every body: English from the smallest, then French, then German.
pub fn bodies() -> Vec<Body> {
    let english = ENGLISH.iter().map(|&(name, moxon, smith, caslon, least, most)| {
        let said = [("Moxon 1683", moxon), ("Smith 1755", smith), ("Caslon 1841", caslon)];
        let founders = said.into_iter().filter(|(_, n)| *n > 0.0).map(|(who, n)| Founder {
            who,
            to_the_foot: n,
            twenty_lines_mm: Mm(20.0 * MM_PER_FOOT / n),
        });
        let body = Band::new(MM_PER_FOOT / most, MM_PER_FOOT / least);
        Body {
            name,
            tongue: Tongue::English,
            body,
            twenty_lines: body.times(20.0, 20.0),
            founders: founders.collect(),
            fournier_points: None,
            english_neighbour: None,
            source: REED,
        }
    });
    let french = FRENCH
        .iter()
        .map(|&(name, points, english)| by_points(name, Tongue::French, points, english, PEIGNOT));
    let german = GERMAN.iter().map(|&(name, points)| {
        let english = FRENCH.iter().find(|(_, p, _)| *p == points).and_then(|(.., e)| *e);
        by_points(name, Tongue::German, points, english, MACKELLAR)
    });
    english.chain(french).chain(german).collect()
}

fn by_points(
    name: &'static str,
    tongue: Tongue,
    points: u16,
    english_neighbour: Option<&'static str>,
    source: &'static str,
) -> Body {
    let n = f64::from(points);
    let body = FOURNIER_POINT.times(n, n);
    Body {
        name,
        tongue,
        body,
        twenty_lines: body.times(20.0, 20.0),
        founders: Vec::new(),
        fournier_points: Some(points),
        english_neighbour,
        source,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn body(name: &str) -> Body {
        bodies().into_iter().find(|b| b.name == name).unwrap()
    }

    /// Twenty lines by Moxon, Smith and Caslon, millimetres: 304.8 over the number to the foot, times 20.
    #[test]
    fn twenty_lines_follow_from_the_founders_numbers() {
        let table = [
            ("pearl", [Some(33.1), Some(34.2), Some(34.2)]),
            ("nonpareil", [Some(40.6), Some(42.6), Some(42.3)]),
            ("minion", [None, Some(47.6), Some(50.0)]),
            ("brevier", [Some(54.4), Some(54.2), Some(54.9)]),
            ("long primer", [Some(66.3), Some(68.5), Some(68.5)]),
            ("pica", [Some(81.3), Some(85.3), Some(84.7)]),
            ("English", [Some(92.4), Some(95.2), Some(95.2)]),
            ("great primer", [Some(121.9), Some(119.5), Some(119.5)]),
            ("double pica", [Some(160.4), Some(146.9), Some(146.9)]),
            ("canon", [Some(348.3), Some(338.7), Some(338.7)]),
        ];
        for (name, figures) in table {
            let figures: Vec<f64> = figures.into_iter().flatten().collect();
            let founders = body(name).founders;
            assert_eq!(founders.len(), figures.len(), "{name}");
            for (f, figure) in founders.iter().zip(figures) {
                // The published figures are rounded to a tenth, halves to the even or upwards.
                assert!((f.twenty_lines_mm.0 - figure).abs() <= 0.06, "{name}: {f:?}");
            }
        }
    }

    /// Reed's lesson: pica 81 to 86 mm, English 92 to 96, great primer 117 to 122, long primer 66 to 69, brevier 54 to 57.
    #[test]
    fn a_name_is_a_band() {
        for (name, least, most) in [
            ("pica", 81.0, 86.0),
            ("English", 92.0, 96.0),
            ("great primer", 117.0, 122.0),
            ("long primer", 66.0, 69.0),
            ("brevier", 54.0, 57.0),
        ] {
            let band = body(name).twenty_lines;
            assert!(band.least_mm.0 >= least && band.most_mm.0 <= most, "{name}: {band:?}");
        }
    }

    /// *English Cyclopaedia* and *Encyclopaedia Britannica*, "Printing" (both seen): pica is two nonpareils, long primer two
    /// pearls, English two minions.
    #[test]
    fn exact_multiples_fall_within_the_bands() {
        for (large, small) in [("pica", "nonpareil"), ("long primer", "pearl"), ("English", "minion")] {
            let (large, twice) = (body(large).body, body(small).body.times(2.0, 2.0));
            assert!(large.least_mm.0 <= twice.most_mm.0 && twice.least_mm.0 <= large.most_mm.0);
        }
    }

    /// Peignot (seen): petit-canon is two saint-augustins, gros-romain a petit-romain and a petit-texte, petit-parangon two
    /// petit-romains, palestine two cicéros.
    #[test]
    fn fourniers_bodies_add_up() {
        let points = |name: &str| body(name).fournier_points.unwrap();
        assert_eq!(points("petit-canon"), 2 * points("saint-augustin"));
        assert_eq!(points("gros-romain"), points("petit-romain") + points("petit-texte"));
        assert_eq!(points("petit-parangon"), 2 * points("petit-romain"));
        assert_eq!(points("palestine"), 2 * points("cicéro"));
        // Twenty lines of cicéro are about 83.7 mm.
        assert!(body("cicéro").twenty_lines.outside(Mm(83.7)) == Mm(0.0));
    }
}
