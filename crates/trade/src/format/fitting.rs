//! From a leaf back to the formats and papers that it may come from.

use super::candidate::{Agreement, Candidate, Evidence, Found, Trim};
use super::place::watermark_places;
use super::{Place, Way};
use crate::lengths::{Band, Mm, measurable};
use crate::paper::{Paper, papers};
use thiserror::Error;

/// The largest side of a leaf that is believed, millimetres: the long side of the largest sheet, unfolded.
pub const MOST_LEAF: Mm = Mm(1600.0);

/// What one binding may take from one edge, millimetres: 3 to 12. (From memory; general handbooks of binding.)
pub const ONE_BINDING: Mm = Mm(12.0);

/// What two bindings may take.
pub const TWO_BINDINGS: Mm = Mm(24.0);

/// How much a leaf may seem larger than its sheet allows and still be of it, millimetres: sheets of one mould differ, and a
/// rule is read to a millimetre. (Common practice, no source.)
const SLACK: f64 = 3.0;

/// How much an uncut leaf may be smaller than its sheet allows, millimetres, for paper that shrank and folds that are
/// not quite halves: 2.5 per cent of a folio leaf of 300 mm. (The share: Gaskell, p. 13, quoted in *Studies in
/// Bibliography* 43.)
const UNCUT: f64 = 7.5;

/// Why nothing was looked for.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum FormatError {
    /// Nothing to go by: measure the leaf, or say how the chain-lines run or where the watermark is.
    #[error(
        "nothing to go by; give the size of the leaf, the direction of its chain-lines or the place of its watermark"
    )]
    NoEvidence,
    /// A leaf that is no leaf: give height and width in millimetres.
    #[error("a leaf of {} by {} mm is none; give height and width in millimetres, above 0 and at most {}", height.0, width.0, most.0)]
    NoLeaf {
        /// The height as given.
        height: Mm,
        /// The width as given.
        width: Mm,
        /// The most that is believed.
        most: Mm,
    },
}

/// The formats and papers that a leaf may come from, ranked: what agrees with chain-lines and watermark first, then papers
/// of the year, then by how well the size fits.
///
/// The size fits where the leaf is no larger than the paper allows and no more was cut off than one binding takes; where
/// two bindings would have been needed the distance says so; beyond that it is left out. A candidate that both chain-lines
/// and watermark speak against is left out, too.
///
/// # Errors
/// When there is no evidence, or the leaf is no leaf.
pub fn fitting(evidence: &Evidence) -> Result<Found, FormatError> {
    if let Some((height, width)) = evidence.leaf {
        if !(measurable(height, MOST_LEAF) && measurable(width, MOST_LEAF)) {
            return Err(FormatError::NoLeaf { height, width, most: MOST_LEAF });
        }
    } else if evidence.chain_lines.is_none() && evidence.watermark.is_none() {
        return Err(FormatError::NoEvidence);
    }
    let mut candidates = Vec::new();
    for way in Way::all() {
        let chain_lines = evidence.chain_lines.map_or(Agreement::NotGiven, |seen| {
            if seen == way.chain_lines() { Agreement::Agrees } else { Agreement::Contradicts }
        });
        let watermark = evidence.watermark.map_or(Agreement::NotGiven, |seen| agreement(way, seen));
        if chain_lines == Agreement::Contradicts && watermark == Agreement::Contradicts {
            continue;
        }
        let bare = Candidate {
            way,
            format: way.name(),
            paper: None,
            untrimmed_height: None,
            untrimmed_width: None,
            trim: None,
            chain_lines,
            watermark,
            year: Agreement::NotGiven,
            distance_mm: Mm(0.0),
        };
        match evidence.leaf {
            None => candidates.push(bare),
            Some(leaf) => {
                candidates.extend(papers().iter().filter_map(|p| on_paper(&bare, p, leaf, evidence)));
            }
        }
    }
    candidates.sort_by(|a, b| {
        a.rank()
            .cmp(&b.rank())
            .then(a.distance_mm.0.total_cmp(&b.distance_mm.0))
            .then(a.slack().total_cmp(&b.slack()))
    });
    let mut formats: Vec<&'static str> = Vec::new();
    for c in candidates.iter().filter(|c| !c.contradicts()) {
        if !formats.contains(&c.format) {
            formats.push(c.format);
        }
    }
    Ok(Found { candidates, formats })
}

fn agreement(way: Way, seen: Place) -> Agreement {
    let places = watermark_places(way);
    if places.contains(&seen) {
        Agreement::Agrees
    } else if places.iter().any(|p| p.is_near(seen)) {
        Agreement::Nearly
    } else {
        Agreement::Contradicts
    }
}

/// The candidate on a paper, if the leaf can come from it.
fn on_paper(bare: &Candidate, paper: &Paper, leaf: (Mm, Mm), evidence: &Evidence) -> Option<Candidate> {
    let (height, width) = bare.way.leaf(&paper.sheet);
    let left = |band: Band, of: Mm| Band::new(band.least_mm.0 - of.0, band.most_mm.0 - of.0);
    let trim = Trim { height: left(height, leaf.0), width: left(width, leaf.1) };
    // Head and foot are two edges, the fore-edge is one.
    let [high, wide] = [(trim.height, 2.0), (trim.width, 1.0)].map(|(band, edges)| {
        let (once, twice) =
            if evidence.is_uncut { (UNCUT, UNCUT) } else { (ONE_BINDING.0 * edges, TWO_BINDINGS.0 * edges) };
        let possible = band.most_mm.0 >= -SLACK && band.least_mm.0 <= twice;
        let distance = (band.least_mm.0 - once).max(-band.most_mm.0).max(0.0);
        possible.then_some(distance)
    });
    let year = evidence.year.map_or(Agreement::NotGiven, |y| {
        if paper.is_of(y) { Agreement::Agrees } else { Agreement::Contradicts }
    });
    Some(Candidate {
        paper: Some(*paper),
        untrimmed_height: Some(height),
        untrimmed_width: Some(width),
        trim: Some(trim),
        year,
        distance_mm: Mm(high? + wide?),
        ..bare.clone()
    })
}

#[cfg(test)]
mod tests {
    use super::super::ChainLines;
    use super::*;
    use crate::paper::{Sheet, named};

    fn leaf(height: f64, width: f64) -> Evidence {
        Evidence {
            leaf: Some((Mm(height), Mm(width))),
            chain_lines: None,
            watermark: None,
            year: None,
            is_uncut: false,
        }
    }

    /// Untrimmed leaves of the traditional sizes, worked by arithmetic from the sheets; the sheets are published lists.
    #[test]
    fn leaves_of_the_traditional_sheets_come_out_as_computed() {
        let ways = [
            Way::Folio,
            Way::Quarto,
            Way::Octavo,
            Way::TwelvesCommon,
            Way::TwelvesLong,
            Way::Sixteens,
            Way::Eighteens,
            Way::ThirtyTwos,
        ];
        let table: [(&str, [(i32, i32); 8]); 7] = [
            (
                "381x318",
                [(318, 190), (190, 159), (159, 95), (127, 80), (159, 64), (95, 80), (106, 64), (80, 48)],
            ),
            (
                "432x343",
                [(343, 216), (216, 172), (172, 108), (144, 86), (172, 72), (108, 86), (114, 72), (86, 54)],
            ),
            (
                "508x381",
                [(381, 254), (254, 190), (190, 127), (169, 95), (190, 85), (127, 95), (127, 85), (95, 64)],
            ),
            (
                "572x445",
                [(445, 286), (286, 222), (222, 143), (191, 111), (222, 95), (143, 111), (148, 95), (111, 72)],
            ),
            (
                "584x457",
                [(457, 292), (292, 228), (228, 146), (195, 114), (228, 97), (146, 114), (152, 97), (114, 73)],
            ),
            (
                "635x508",
                [
                    (508, 318),
                    (318, 254),
                    (254, 159),
                    (212, 127),
                    (254, 106),
                    (159, 127),
                    (169, 106),
                    (127, 79),
                ],
            ),
            (
                "762x559",
                [
                    (559, 381),
                    (381, 280),
                    (280, 190),
                    (254, 140),
                    (280, 127),
                    (190, 140),
                    (186, 127),
                    (140, 95),
                ],
            ),
        ];
        for (sides, leaves) in table {
            let (long, short) = sides.split_once('x').unwrap();
            let sheet = Sheet::new(Mm(long.parse().unwrap()), Mm(short.parse().unwrap())).unwrap();
            for (way, (height, width)) in ways.into_iter().zip(leaves) {
                let (h, w) = way.leaf(&sheet);
                // The table rounds halves either way.
                assert!((h.middle().0 - f64::from(height)).abs() <= 0.51, "{sides} {way}: {h:?}");
                assert!((w.middle().0 - f64::from(width)).abs() <= 0.76, "{sides} {way}: {w:?}");
            }
        }
    }

    #[test]
    fn every_leaf_of_a_known_sheet_is_found_again_trimmed_or_not() {
        for way in Way::all().filter(|w| w.leaves() <= 12) {
            for paper in papers() {
                let (height, width) = way.leaf(&paper.sheet);
                for cut in [0.0, 5.0] {
                    let mut seen = leaf(height.middle().0 - 2.0 * cut, width.middle().0 - cut);
                    seen.chain_lines = Some(way.chain_lines());
                    seen.watermark = watermark_places(way).first().copied();
                    seen.year = Some(paper.from_year + 1);
                    let found = fitting(&seen).unwrap();
                    let it = found.candidates.iter().find(|c| c.way == way && c.paper == Some(*paper));
                    assert!(it.is_some_and(|c| c.distance_mm.0 == 0.0), "{way} {}", paper.name);
                    assert_eq!(found.candidates[0].chain_lines, Agreement::Agrees);
                    assert_eq!(found.candidates[0].watermark, Agreement::Agrees);
                    // Leaves of other formats may have this size, but not with the mark and the lines so, beyond two.
                    assert!(found.formats.len() <= 3, "{way}: {:?}", found.formats);
                    assert!(found.formats.contains(&way.name()));
                }
            }
        }
    }

    #[test]
    fn a_foolscap_octavo_is_told_from_a_quarto_on_smaller_paper_by_its_mark() {
        let mut seen = leaf(166.0, 104.0);
        seen.chain_lines = Some(ChainLines::Vertical);
        seen.watermark = Some("spine-head".parse().unwrap());
        seen.year = Some(1690);
        let found = fitting(&seen).unwrap();
        assert_eq!(found.formats, ["8°"]);
        assert_eq!(found.candidates[0].paper.unwrap().name, "foolscap");
    }

    #[test]
    fn turned_chain_lines_do_not_hide_the_format_but_come_last() {
        let (height, width) = Way::Quarto.leaf(&named("demy").unwrap()[1].sheet);
        let mut seen = leaf(height.middle().0, width.middle().0);
        seen.chain_lines = Some(ChainLines::Vertical);
        let found = fitting(&seen).unwrap();
        let quarto = found.candidates.iter().position(|c| c.way == Way::Quarto).unwrap();
        assert!(found.candidates[quarto].contradicts());
        assert!(
            found.candidates[..quarto].iter().all(|c| c.chain_lines == Agreement::Agrees || c.contradicts())
        );
        assert!(!found.formats.contains(&"4°"));
    }

    #[test]
    fn chain_lines_alone_leave_half_of_the_formats() {
        let seen = Evidence { leaf: None, chain_lines: Some(ChainLines::Vertical), ..leaf(1.0, 1.0) };
        let found = fitting(&seen).unwrap();
        assert_eq!(found.formats.len(), 8);
        assert_eq!(found.candidates.len(), Way::all().count());
    }

    #[test]
    fn nothing_to_go_by_and_leaves_that_are_none_are_refused() {
        let none = Evidence { leaf: None, ..leaf(1.0, 1.0) };
        assert_eq!(fitting(&none), Err(FormatError::NoEvidence));
        for (h, w) in [(0.0, 100.0), (100.0, f64::NAN), (5000.0, 100.0)] {
            assert!(matches!(fitting(&leaf(h, w)), Err(FormatError::NoLeaf { .. })));
        }
        assert!(fitting(&leaf(1500.0, 20.0)).unwrap().candidates.is_empty());
    }
}
