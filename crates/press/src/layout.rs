//! How a page is laid out: measure, bodies of type, columns, ornament.

use serde::{Deserialize, Serialize};
use sheet::Mm;

use crate::chance::Chance;
use crate::fount::Face;
use crate::text::PageKind;

/// How the body of the text begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Opening {
    /// With an ordinary capital.
    Plain,
    /// With a large letter of type, so many lines deep.
    Letter(u8),
    /// With an initial cut in wood, so many lines deep.
    Cut(u8),
}

/// Everything a compositor is told before he sets a page.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Layout {
    /// What is being printed.
    pub kind: PageKind,
    /// Width of the type page, borders not counted.
    pub measure: Mm,
    /// Columns of the body, 1 or 2.
    pub columns: u8,
    /// White (or the rule) between two columns.
    pub gutter: Mm,
    /// The roman of the body.
    pub face: Face,
    /// Body of the text type: the height of a line set solid.
    pub body: Mm,
    /// Lead between the lines; 0 when set solid.
    pub lead: Mm,
    /// Bodies of the four ranks of display, the largest first.
    pub display: [Mm; 4],
    /// How the text opens.
    pub opening: Opening,
    /// Height of a head-piece across the measure; `None` for none.
    pub head_piece: Option<Mm>,
    /// Body of the ornaments of a border round the page; `None` for none.
    pub border: Option<Mm>,
    /// A rule before the imprint, under the headline, and between columns.
    pub rules: bool,
    /// White round the type page to the edge of the sheet.
    pub margin: Mm,
    /// Chooses the designs of cuts and ornaments: the stock of the house.
    pub stock: u64,
}

impl Layout {
    /// A layout for a kind of page, chosen by a seed; some thousands are within reach.
    pub fn drawn(kind: PageKind, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "layout");
        // Faces with bodies they were cast on, after the lists of English bodies (english, pica, great primer).
        let bodies = [
            (Face::EnglishRoman, 4.66),
            (Face::PicaRoman, 4.2),
            (Face::GreatPrimerRoman, 5.9),
            (Face::PicaRoman, 3.45),
        ];
        let (face, body) = match kind {
            PageKind::Order => bodies[chance.below(3)],
            PageKind::BookLeaf | PageKind::TitlePage => bodies[chance.below(2)],
            PageKind::Ballad => *chance.pick(&[bodies[1], bodies[3]]),
            PageKind::Notice => bodies[chance.below(4)],
        };
        let ens = match kind {
            PageKind::Order => chance.between(44.0, 62.0),
            // Wide enough for two columns of verses that mostly do not turn over.
            PageKind::Ballad => chance.between(72.0, 88.0),
            PageKind::Notice => chance.between(40.0, 64.0),
            PageKind::TitlePage | PageKind::BookLeaf => chance.between(38.0, 46.0),
        };
        let measure = (ens * body / 2.0).min(185.0);
        let columns = match kind {
            PageKind::Ballad => 2,
            PageKind::Notice if measure > 110.0 => chance.whole(1, 2) as u8,
            _ => 1,
        };
        let lead = if chance.happens(0.35) { *chance.pick(&[0.35, 0.53, 0.71]) } else { 0.0 };
        let scale = (measure / 120.0).clamp(0.72, 1.25);
        let display =
            [12.5, 7.6, 5.9, 4.66].map(|size: f64| Mm((size * scale * chance.between(0.9, 1.1)).max(3.4)));
        let opening = match chance.below(4) {
            _ if matches!(kind, PageKind::Ballad | PageKind::TitlePage) => Opening::Plain,
            0 => Opening::Plain,
            1 => Opening::Letter(2),
            2 => Opening::Letter(chance.whole(2, 3) as u8),
            _ => Opening::Cut(chance.whole(4, 6) as u8),
        };
        let ornate = if kind == PageKind::BookLeaf { 0.25 } else { 0.5 };
        let head_piece = chance.happens(ornate).then(|| Mm(chance.between(0.1, 0.16) * measure));
        let framed = matches!(kind, PageKind::Order | PageKind::TitlePage | PageKind::Ballad);
        let border = (framed && chance.happens(0.4)).then(|| Mm(*chance.pick(&[4.2, 4.66, 5.9])));
        Self {
            kind,
            measure: Mm(measure),
            columns,
            gutter: Mm(body * 1.4),
            face,
            body: Mm(body),
            lead: Mm(lead),
            display,
            opening,
            head_piece,
            border,
            rules: chance.happens(0.6),
            margin: Mm(chance.between(11.0, 19.0)),
            stock: chance.seed(),
        }
    }

    /// From one baseline of the text to the next.
    pub fn pitch(&self) -> Mm {
        Mm(self.body.0 + self.lead.0)
    }

    /// Width of one column.
    pub fn column(&self) -> Mm {
        let n = f64::from(self.columns.max(1));
        Mm((self.measure.0 - (n - 1.0) * self.gutter.0) / n)
    }
}
