//! The drawing of years as SVG.

use std::fmt::Write as _;

use super::{Breadth, Mark, Plot, Stands, WORDS, hatching, plot};
use crate::page::blocks::DatesModel;
use crate::page::text::Text;

/// The years of a block's impressions as an SVG that stands by itself, in black on white; `None` where nothing is known of any
/// year. `title` is what it is called.
pub fn date_plot_svg(dates: &DatesModel, title: &str) -> Option<String> {
    let plot = plot(dates, Breadth::Wide)?;
    let [w, h] = plot.size;
    Some(format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" height=\"{1:.0}\" viewBox=\"-20 -20 {0} {1:.0}\" role=\"img\" \
         aria-labelledby=\"title told\" color=\"#2a2623\" font-family=\"EB Garamond, Garamond, Georgia, serif\" \
         font-size=\"{WORDS}\">\n<title id=\"title\">{2}</title>\n<desc id=\"told\">{3}</desc>\n\
         <rect x=\"-20\" y=\"-20\" width=\"{0}\" height=\"{1:.0}\" fill=\"#fff\"/>\n{4}</svg>\n",
        w + 40.0,
        h + 40.0,
        Text(title),
        Text(&told(dates)),
        marks(&plot, "#fff")
    ))
}

/// The same within a page, in the colours of its text; `id` is its own on the page.
pub(crate) fn inline(dates: &DatesModel, title: &str, breadth: Breadth, id: &str) -> Option<String> {
    let plot = plot(dates, breadth)?;
    let [w, h] = plot.size;
    let class = if breadth == Breadth::Wide { "wide-plot" } else { "narrow-plot" };
    Some(format!(
        "<svg class=\"years {class}\" viewBox=\"-2 0 {:.0} {h:.0}\" role=\"img\" aria-labelledby=\"{id}-title {id}-told\" \
         font-size=\"{WORDS}\">\n<title id=\"{id}-title\">{}</title>\n<desc id=\"{id}-told\">{}</desc>\n{}</svg>\n",
        w + 4.0,
        Text(title),
        Text(&told(dates)),
        marks(&plot, "var(--paper)")
    ))
}

/// What is drawn, in words.
fn told(dates: &DatesModel) -> String {
    let mut out = String::from("A row for each impression.");
    for row in &dates.rows {
        let answers = [("by the order alone", &row.by_order), ("with the rate", &row.with_rate)];
        for (by, year) in answers.iter().filter_map(|(by, y)| y.map(|y| (by, y))) {
            let [from, to] = year.nearly_all.map(f64::round);
            let _ = write!(
                out,
                " Impression {}, {by}: {:.0}, with 95 percent between {from:.0} and {to:.0}.",
                row.impression,
                year.median.round()
            );
        }
    }
    out
}

fn marks(plot: &Plot, paper: &str) -> String {
    plot.marks.iter().chain(&plot.legend).map(|m| mark(m, paper)).collect()
}

fn mark(of: &Mark, paper: &str) -> String {
    let soft = |is: bool| if is { " opacity=\"0.62\"" } else { "" };
    match of {
        Mark::Line { from: [x1, y1], to: [x2, y2], width, is_dashed, is_soft } => {
            let dashes = if *is_dashed { " stroke-dasharray=\"5 4\"" } else { "" };
            format!(
                "<line x1=\"{x1:.1}\" y1=\"{y1:.1}\" x2=\"{x2:.1}\" y2=\"{y2:.1}\" stroke=\"currentColor\" \
                 stroke-width=\"{width}\"{dashes}{}/>\n",
                if *is_soft { " opacity=\"0.3\"" } else { "" }
            )
        }
        Mark::Bar { corner: [x, y], size: [w, h], is_full } => format!(
            "<rect x=\"{x:.1}\" y=\"{y:.1}\" width=\"{w:.1}\" height=\"{h:.1}\" fill=\"{}\" stroke=\"currentColor\" \
             stroke-width=\"1.3\"/>\n",
            if *is_full { "currentColor" } else { paper }
        ),
        Mark::Dot { at: [x, y], radius, is_full } => format!(
            "<circle cx=\"{x:.1}\" cy=\"{y:.1}\" r=\"{radius}\" fill=\"{}\" stroke=\"currentColor\" stroke-width=\"1.6\"/>\n",
            if *is_full { "currentColor" } else { paper }
        ),
        Mark::Diamond { at: [x, y], radius: r } => format!(
            "<path d=\"M{:.1} {y:.1}L{x:.1} {:.1}L{:.1} {y:.1}L{x:.1} {:.1}Z\" fill=\"currentColor\"/>\n",
            x - r,
            y - r,
            x + r,
            y + r
        ),
        Mark::Hatch { corner, size } => {
            let mut path = String::new();
            for [[x1, y1], [x2, y2]] in hatching(*corner, *size) {
                let _ = write!(path, "M{x1:.1} {y1:.1}L{x2:.1} {y2:.1}");
            }
            format!(
                "<path d=\"{path}\" fill=\"none\" stroke=\"currentColor\" stroke-width=\"0.7\" opacity=\"0.25\"/>\n"
            )
        }
        Mark::Words { at: [x, y], text, stands, is_soft } => {
            let anchor = if *stands == Stands::About { " text-anchor=\"middle\"" } else { "" };
            format!(
                "<text x=\"{x:.1}\" y=\"{y:.1}\" fill=\"currentColor\"{anchor}{}>{}</text>\n",
                soft(*is_soft),
                Text(text)
            )
        }
    }
}
