//! What the shapes of the drawing mean.

use super::{Axis, Breadth, Mark, Stands, answer, line, words};
use crate::page::blocks::{DatesModel, YearModel};

/// A shape that is explained.
#[derive(Clone, Copy)]
enum Shape {
    Known,
    ByOrder,
    WithRate,
    Beyond,
    Assumed,
}

/// How wide a shape is drawn, pixels.
const WIDE: f64 = 44.0;

impl Shape {
    fn words(self) -> &'static str {
        match self {
            Self::Known => "year known",
            Self::ByOrder => "by the order alone",
            Self::WithRate => "with the rate as well",
            Self::Beyond => "beyond the dated impressions",
            Self::Assumed => "dashed: rests on an assumed end",
        }
    }

    fn marks(self, [x, y]: [f64; 2]) -> Vec<Mark> {
        let year = YearModel {
            median: x + 20.0,
            half: [x + 10.0, x + 32.0],
            nearly_all: [x, x + WIDE],
            rests_on_window: false,
            beyond: 0.0,
        };
        match self {
            Self::Known => vec![Mark::Diamond { at: [x + WIDE / 2.0, y], radius: 6.5 }],
            Self::ByOrder => answer(&year, &Axis::plain(), y, false),
            Self::WithRate => answer(&year, &Axis::plain(), y, true),
            Self::Beyond => vec![Mark::Hatch { corner: [x, y - 8.0], size: [WIDE, 16.0] }],
            Self::Assumed => vec![line([x, y], [x + WIDE, y], 1.3, true, false)],
        }
    }
}

/// What is drawn of it from here down, and where it ends.
pub(super) fn legend(dates: &DatesModel, breadth: Breadth, from: f64) -> (Vec<Mark>, f64) {
    const COLUMN: f64 = 480.0;
    const ROW: f64 = 25.0;
    let columns = if breadth == Breadth::Wide { 2 } else { 1 };
    let mut shapes = vec![Shape::Known, Shape::ByOrder];
    let answers = || dates.rows.iter().flat_map(|r| r.by_order.iter().chain(&r.with_rate));
    shapes.extend(dates.rows.iter().any(|r| r.with_rate.is_some()).then_some(Shape::WithRate));
    shapes.push(Shape::Beyond);
    shapes.extend(answers().any(|y| y.rests_on_window).then_some(Shape::Assumed));
    let mut out = Vec::new();
    for (i, shape) in shapes.iter().enumerate() {
        let (x, y) = ((i % columns) as f64 * COLUMN, from + (i / columns) as f64 * ROW);
        out.extend(shape.marks([x, y]));
        out.push(words([x + WIDE + 14.0, y + 5.5], shape.words().to_owned(), Stands::From, false));
    }
    let y = from + shapes.len().div_ceil(columns) as f64 * ROW;
    let thick = "thick 50 percent, thin 95 percent, mark the median";
    out.push(words([0.0, y + 3.0], thick.to_owned(), Stands::From, true));
    (out, y + 14.0)
}
