//! Which lines are of one size of type, and what that size measures.

use super::Length;
use super::pitch::{Pitch, pitch};
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};
use sheet::scale::Scale;
use sheet::{Layout, Line};
use trade::bodies::{Fits, Measured, fitting};
use trade::lengths::Mm;

/// A size of type on a side.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize, JsonSchema)]
pub struct TypeSize {
    /// Its lines, by their numbers on the side.
    pub lines: Vec<usize>,
    /// Height of letters without ascenders, pixels; of lines in capitals alone that of the capitals.
    pub x_height_px: Length,
    /// From baseline to baseline; `None` where no two of its lines follow each other.
    pub pitch: Option<Pitch>,
}

/// Lines that end no farther apart than this, x-heights, are of one length; and what the end of a line is off by, for the last sort has white
/// beside its face (common practice, no source).
const A_SPACE: f64 = 0.8;
const USUAL_END_OFF: f64 = 0.15;
/// Lines whose x-heights differ by no more than this factor either way are of one size.
const ALIKE: f64 = 1.1;
/// A figure is taken to be out by no more than so many of its standard deviations: 19 times of 20.
pub(super) const SURE: f64 = 1.96;

impl TypeSize {
    /// From the baseline of one line to that of the twentieth after it, pixels: the twenty-line measure (P. Gaskell, *A New Introduction to
    /// Bibliography*, pp. 12-16; from memory).
    pub fn twenty_lines_px(&self) -> Option<Length> {
        self.pitch.as_ref().map(|p| p.px.times(20.0))
    }

    /// From the top of the short letters of one line to the foot of those of the nineteenth after it, pixels: twenty lines as the catalogues of
    /// early books measured them.
    pub fn twenty_lines_by_their_faces_px(&self) -> Option<Length> {
        self.pitch.as_ref().map(|p| p.px.times(19.0).plus(self.x_height_px))
    }

    /// The bodies that its twenty lines may be, set solid or with leads; `None` without a pitch, and where no type is so large.
    pub fn bodies(&self, scale: &Scale) -> Option<Fits> {
        let twenty = self.twenty_lines_px()?.in_mm(scale);
        let [twenty_lines_mm, doubt_mm] = [twenty.value, SURE * twenty.sd].map(Mm);
        fitting(Measured { twenty_lines_mm, doubt_mm, gap_mm: None }).ok()
    }

    /// Length of its longest lines, pixels, `of` all lines of the side: the mean of those that are no shorter than the longest by more than the
    /// space between words. Of centred and of short lines it is no measure.
    pub fn line_length_px(&self, of: &[Line]) -> Length {
        let lengths = || self.lines.iter().map(|&i| of[i].bounds.w);
        let longest = lengths().fold(0.0, f64::max);
        let full: Vec<f64> = lengths().filter(|l| longest - l <= A_SPACE * self.x_height_px.value).collect();
        let n = full.len() as f64;
        let mean = full.iter().sum::<f64>() / n;
        let spread = (full.iter().map(|l| (l - mean).powi(2)).sum::<f64>() / (n - 1.0).max(1.0)).sqrt();
        Length { value: mean, sd: spread.max(USUAL_END_OFF * self.x_height_px.value) / n.sqrt() }
    }

    /// Most lines that follow each other, so that it is known from how many twenty were scaled up.
    pub fn longest_run(&self) -> usize {
        self.pitch.iter().flat_map(|p| &p.runs).map(Vec::len).max().unwrap_or(1)
    }
}

/// The sizes of type on a side, that with most print first.
pub fn type_sizes(layout: &Layout) -> Vec<TypeSize> {
    let of = &layout.lines;
    let upright = layout.skew.radians().cos();
    let mut left: Vec<usize> = (0..of.len()).collect();
    let mut out = Vec::new();
    while let Some(lines) = most(of, &left) {
        left.retain(|i| !lines.contains(i));
        out.push(TypeSize {
            x_height_px: Length::median(&lines.iter().map(|&i| of[i].x_height.0).collect::<Vec<_>>()),
            pitch: pitch(of, &lines, upright),
            lines,
        });
    }
    out
}

/// Of the lines left those that are about as high as that one of them which most print is like.
fn most(of: &[Line], left: &[usize]) -> Option<Vec<usize>> {
    let like = |i: usize| {
        left.iter().copied().filter(move |&j| (of[i].x_height.0 / of[j].x_height.0).ln().abs() <= ALIKE.ln())
    };
    let print = |i: usize| like(i).map(|j| of[j].bounds.w).sum::<f64>();
    let best = left.iter().copied().max_by(|&i, &j| print(i).total_cmp(&print(j)))?;
    Some(like(best).collect())
}

#[cfg(test)]
mod tests {
    use super::*;
    use sheet::{Degrees, Point, Px, Rect};

    fn line(down: f64, x_height: f64, long: f64) -> Line {
        Line {
            baseline: vec![Point::new(50.0, down), Point::new(50.0 + long, down)],
            x_height: Px(x_height),
            contrast: 0.6,
            bounds: Rect::new(50.0, down - 2.0 * x_height, long, 3.0 * x_height),
            words: Vec::new(),
        }
    }

    #[test]
    fn a_title_a_text_and_its_notes_are_three_sizes() {
        let mut lines = vec![line(60.0, 30.0, 400.0)];
        lines
            .extend((0..22).map(|i| line(120.0 + 26.0 * f64::from(i), 10.0 + 0.2 * f64::from(i % 3), 600.0)));
        lines.extend((0..4).map(|i| line(720.0 + 18.0 * f64::from(i), 7.0, 600.0)));
        let layout = Layout {
            skew: Degrees(0.0),
            lines,
            not_type: Vec::new(),
            cuts: Vec::new(),
            x_height: Some(Px(10.0)),
            line_pitch: Some(Px(26.0)),
        };
        let sizes = type_sizes(&layout);
        assert_eq!(sizes.iter().map(|s| s.lines.len()).collect::<Vec<_>>(), [22, 4, 1]);
        let twenty = sizes[0].twenty_lines_px().unwrap();
        assert!((twenty.value - 520.0).abs() < 1e-6);
        let by_faces = sizes[0].twenty_lines_by_their_faces_px().unwrap();
        assert!((by_faces.value - (19.0 * 26.0 + 10.2)).abs() < 1e-6, "{by_faces:?}");
        assert_eq!((sizes[0].longest_run(), sizes[1].longest_run(), sizes[2].longest_run()), (22, 4, 1));
        assert_eq!(sizes[2].pitch, None);
    }
}
