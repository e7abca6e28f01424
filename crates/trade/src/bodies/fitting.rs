//! Which bodies fit a measured figure.

use super::leads::{Leaded, with_leads};
use super::table::{Body, Tongue, bodies};
use crate::lengths::{Band, Mm, measurable};
use schemars::JsonSchema;
use serde::Serialize;
use thiserror::Error;

/// The most that twenty lines are believed to measure, millimetres: the largest body of the table, leaded.
pub const MOST_TWENTY_LINES: Mm = Mm(800.0);

/// How much smaller printed matter is today than the type that printed it, as a share of 1: nothing to 2.5 per cent,
/// "generally" about 1. More across the chain-lines than along them. (Gaskell, p. 13, quoted in *Studies in Bibliography*
/// 43: seen there.)
pub const SHRINKAGE: [f64; 2] = [0.0, 0.025];

/// The usual shrinkage.
pub const USUAL_SHRINKAGE: f64 = 0.01;

/// How far outside a body may lie and still be told as near, as a share of the figure. (Pollard, in the catalogue of
/// 15th-century books of the British Museum, p. xx, quoted in *Studies in Bibliography* 43: published measures deviate by up
/// to 2 per cent.)
const NEAR: f64 = 0.02;

/// How far a figure is out unless more is known of it, millimetres: ink squash adds up to about 1 mm. (*Studies in
/// Bibliography* 43: seen.)
pub const DOUBT: Mm = Mm(1.0);

/// What was measured.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, JsonSchema)]
pub struct Measured {
    /// Twenty lines, from the foot of a short letter in line 1 to the same in line 21.
    pub twenty_lines_mm: Mm,
    /// How far the figure may be out, either way.
    pub doubt_mm: Mm,
    /// The gap between the foot of a long letter and the head of one in the line below, if it was measured.
    pub gap_mm: Option<Mm>,
}

/// A body that fits, or is near.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fit {
    /// The name.
    pub name: &'static str,
    /// Whose name it is.
    pub tongue: Tongue,
    /// What twenty lines of it measure today, solid: the type's band less the shrinkage.
    pub today: Band,
    /// Whether the figure falls in that band, its doubt allowed for.
    pub fits: bool,
    /// How far the figure lies outside, millimetres; 0 within, negative below.
    pub distance_mm: Mm,
    /// How far it lies from the middle of the band at the usual shrinkage, millimetres.
    pub from_usual_mm: Mm,
    /// Fournier's points.
    pub fournier_points: Option<u16>,
    /// The published source of the body.
    pub source: &'static str,
}

/// What a figure may be.
#[derive(Debug, Clone, PartialEq, Serialize, JsonSchema)]
pub struct Fits {
    /// What was measured.
    pub measured: Measured,
    /// Bodies set solid, those that fit first, then the near ones.
    pub solid: Vec<Fit>,
    /// English bodies with leads; empty where the gap says that the lines are solid.
    pub leaded: Vec<Leaded>,
    /// What the gap between the lines says, if it was measured.
    pub gap_says: Option<&'static str>,
}

/// Why nothing could be told.
#[derive(Debug, Clone, PartialEq, Error)]
pub enum BodyError {
    /// A figure that is no measure of twenty lines: give millimetres.
    #[error("twenty lines of {} mm are none; give millimetres, above 0 and at most {}", mm.0, most.0)]
    NoMeasure {
        /// The figure.
        mm: Mm,
        /// The most that is believed.
        most: Mm,
    },
    /// A doubt or gap that is none: give millimetres, from 0 to the figure itself.
    #[error("{what} of {} mm is none; give millimetres, from 0 to the figure itself", mm.0)]
    NoLength {
        /// What it was.
        what: &'static str,
        /// The length.
        mm: Mm,
    },
    /// Too few lines: measure as many as the page has, 20 if it can be.
    #[error(
        "{lines} lines are too few or too many to measure by; measure from 5 to 100, and 20 where you can"
    )]
    Lines {
        /// How many.
        lines: u16,
    },
}

/// Twenty lines from another number of lines, measured from the foot of line 1 to the foot of the line so many below.
///
/// # Errors
/// Fewer than 5 lines or more than 100.
pub fn twenty_of_lines(mm: Mm, lines: u16) -> Result<Mm, BodyError> {
    if !(5..=100).contains(&lines) {
        return Err(BodyError::Lines { lines });
    }
    Ok(Mm(mm.0 * 20.0 / f64::from(lines)))
}

/// Twenty bodies from Proctor's figure, which goes from the top of short letters in line 1 to the bottom of short letters in
/// line 20: nineteen bodies and the height of an x. (The way of measuring: *Studies in Bibliography* 43, seen.)
///
/// # Errors
/// When the height of an x is no length, or larger than the figure.
pub fn twenty_of_proctor(figure: Mm, x_height: Mm) -> Result<Mm, BodyError> {
    if !(x_height.0 > 0.0 && x_height.0 < figure.0) {
        return Err(BodyError::NoLength { what: "an x-height", mm: x_height });
    }
    Ok(Mm((figure.0 - x_height.0) * 20.0 / 19.0))
}

/// The bodies that fit a figure, ranked: those that fit before those that are near, and each by how far the figure lies from
/// the usual. Two names where two fit.
///
/// # Errors
/// When the figure, its doubt or the gap is no length.
pub fn fitting(measured: Measured) -> Result<Fits, BodyError> {
    let Measured { twenty_lines_mm: mm, doubt_mm, gap_mm } = measured;
    if !measurable(mm, MOST_TWENTY_LINES) {
        return Err(BodyError::NoMeasure { mm, most: MOST_TWENTY_LINES });
    }
    for (what, length) in [("a doubt", Some(doubt_mm)), ("a gap", gap_mm)] {
        if let Some(length) = length.filter(|l| !(0.0..=mm.0).contains(&l.0)) {
            return Err(BodyError::NoLength { what, mm: length });
        }
    }
    let all = bodies();
    let mut solid: Vec<Fit> = all.iter().map(|b| fit(b, mm, doubt_mm)).collect();
    solid.retain(|f| f.fits || f.distance_mm.0.abs() <= NEAR * mm.0);
    solid.sort_by(|a, b| {
        b.fits
            .cmp(&a.fits)
            .then(a.distance_mm.0.abs().total_cmp(&b.distance_mm.0.abs()))
            .then(a.from_usual_mm.0.abs().total_cmp(&b.from_usual_mm.0.abs()))
    });
    let gap_says = gap_mm.map(gap_says);
    let is_solid = gap_mm.is_some_and(|gap| gap.0 <= SOLID_GAP.0);
    let leaded = if is_solid { Vec::new() } else { with_leads(&all, mm, doubt_mm) };
    Ok(Fits { measured, solid, leaded, gap_says })
}

/// Lines with a larger gap between long letters usually have leads. (*Studies in Bibliography* 43, seen: a gap of 0.5 to 1 mm usually means that the
/// matter is solid.)
const SOLID_GAP: Mm = Mm(1.0);

/// What a gap between the foot of a long letter and the head of one in the line below usually means.
pub fn gap_says(gap: Mm) -> &'static str {
    if gap.0 <= SOLID_GAP.0 {
        "a gap of 1 mm or less usually means that the lines are set solid"
    } else {
        "a gap above 1 mm usually means that there are leads, or a small face on a large body"
    }
}

/// What twenty lines of a band measure today.
pub(super) fn shrunk(new: Band) -> Band {
    new.times(1.0 - SHRINKAGE[1], 1.0 - SHRINKAGE[0])
}

fn fit(body: &Body, mm: Mm, doubt: Mm) -> Fit {
    let today = shrunk(body.twenty_lines);
    let outside = today.outside(mm).0;
    let distance = outside.signum() * (outside.abs() - doubt.0).max(0.0);
    Fit {
        name: body.name,
        tongue: body.tongue,
        today,
        fits: distance == 0.0,
        distance_mm: Mm(if distance == 0.0 { 0.0 } else { distance }),
        from_usual_mm: Mm(mm.0 - body.twenty_lines.middle().0 * (1.0 - USUAL_SHRINKAGE)),
        fournier_points: body.fournier_points,
        source: body.source,
    }
}

#[cfg(test)]
mod tests {
    use super::super::leads::LEADS;
    use super::*;

    fn found(mm: f64) -> Fits {
        fitting(Measured { twenty_lines_mm: Mm(mm), doubt_mm: DOUBT, gap_mm: None }).unwrap()
    }

    fn names(mm: f64) -> Vec<&'static str> {
        found(mm).solid.iter().filter(|f| f.fits && f.tongue == Tongue::English).map(|f| f.name).collect()
    }

    /// Pica of 72 to the foot is 84.7 mm new, 83.8 at 1 per cent, 82.5 at 2.5: all from 82 to 86 must admit pica.
    #[test]
    fn every_figure_from_82_to_86_admits_pica() {
        for tenth in 820..=860 {
            assert!(names(f64::from(tenth) / 10.0).contains(&"pica"), "{tenth}");
        }
        assert!(!names(90.0).contains(&"pica"));
    }

    /// Twenty lines of 96 mm: English solid, or long primer (68.5) with three-to-pica leads (96.7); with four-to-pica leads
    /// it would be 89.7.
    #[test]
    fn ninety_six_millimetres_are_english_solid_or_long_primer_leaded() {
        let found = found(96.0);
        assert!(names(96.0).contains(&"English"));
        let leads: Vec<_> =
            found.leaded.iter().filter(|l| l.name == "long primer").map(|l| l.lead.name).collect();
        assert_eq!(leads, ["three to pica"]);
        let solid = Measured { gap_mm: Some(Mm(0.8)), ..found.measured };
        assert!(fitting(solid).unwrap().leaded.is_empty());
    }

    /// Four to pica 1.06 mm, six 0.71, eight 0.53, three 1.41.
    #[test]
    fn leads_are_as_thick_as_their_names() {
        for (lead, mm) in LEADS.iter().zip([0.53, 0.71, 1.06, 1.41]) {
            assert!((lead.thick_mm.0 - mm).abs() < 0.006, "{lead:?}");
        }
    }

    #[test]
    fn two_names_are_told_where_two_fit() {
        let tongues: Vec<_> = found(83.6).solid.iter().filter(|f| f.fits).map(|f| f.name).collect();
        assert!(tongues.contains(&"pica") && tongues.contains(&"cicéro") && tongues.contains(&"Cicero"));
        // Moxon's great primer and paragon are far apart; double pica of Moxon is as large as a small two-line pica.
        assert!(names(160.0).contains(&"double pica"));
    }

    #[test]
    fn every_founders_own_figure_finds_his_body_whether_paper_shrank_or_not() {
        for body in bodies() {
            for founder in &body.founders {
                for shrinkage in [0.0, 0.01, 0.025] {
                    let mm = founder.twenty_lines_mm.0 * (1.0 - shrinkage);
                    let solid = found(mm).solid;
                    assert!(solid.iter().any(|f| f.fits && f.name == body.name), "{} {mm}", body.name);
                }
            }
        }
    }

    #[test]
    fn proctors_figure_and_other_numbers_of_lines_come_to_twenty() {
        // Nineteen bodies of 4.2 mm and an x of 1.9.
        let twenty = twenty_of_proctor(Mm(19.0 * 4.2 + 1.9), Mm(1.9)).unwrap();
        assert!((twenty.0 - 84.0).abs() < 1e-9);
        assert_eq!(twenty_of_lines(Mm(42.0), 10).unwrap(), Mm(84.0));
        assert!(twenty_of_lines(Mm(42.0), 3).is_err());
        assert!(twenty_of_proctor(Mm(80.0), Mm(90.0)).is_err());
    }

    #[test]
    fn what_is_no_measure_is_refused() {
        for mm in [0.0, -3.0, f64::NAN, f64::INFINITY, 900.0] {
            let measured = Measured { twenty_lines_mm: Mm(mm), doubt_mm: Mm(0.5), gap_mm: None };
            assert!(matches!(fitting(measured), Err(BodyError::NoMeasure { .. })), "{mm}");
        }
        let doubted = Measured { twenty_lines_mm: Mm(84.0), doubt_mm: Mm(-1.0), gap_mm: None };
        assert!(matches!(fitting(doubted), Err(BodyError::NoLength { .. })));
    }
}
