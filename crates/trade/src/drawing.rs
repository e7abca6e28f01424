//! Small drawings as SVG: one column that can be read on a telephone, in light and in dark.
//!
//! A drawing is [`WIDTH`] units wide and is shown at most twice as large; at the width of a telephone a unit is nine tenths
//! of a pixel. What differs is told by its shade, its hatch or its shape, never by colour alone.

use std::fmt::Write as _;

/// The width of every drawing, in units.
pub(crate) const WIDTH: f64 = 430.0;
/// The size of plain text, in units.
const SIZE: f64 = 12.0;
/// How wide a letter is on average, of the size of the text: measured on common sans-serif faces, with some to spare.
const LETTER: f64 = 0.54;

/// A drawing that grows downwards.
#[derive(Debug)]
pub(crate) struct Drawing {
    body: String,
}

/// Where a text stands about its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Drawing {
    pub(crate) fn new() -> Self {
        Self { body: String::new() }
    }

    /// A box; `what` is told where it is pointed at, and read out.
    pub(crate) fn rect(&mut self, [x, y, w, h]: [f64; 4], class: &str, what: &str) {
        let title = if what.is_empty() { String::new() } else { format!("<title>{}</title>", escaped(what)) };
        // Thinner than a hair is not seen.
        let w = w.max(0.6);
        writeln!(
            self.body,
            r#"<rect x="{x:.2}" y="{y:.2}" width="{w:.2}" height="{h:.2}" class="{class}">{title}</rect>"#
        )
        .ok();
    }

    pub(crate) fn line(&mut self, [x1, y1, x2, y2]: [f64; 4], class: &str) {
        writeln!(self.body, r#"<line x1="{x1:.2}" y1="{y1:.2}" x2="{x2:.2}" y2="{y2:.2}" class="{class}"/>"#)
            .ok();
    }

    pub(crate) fn dot(&mut self, x: f64, y: f64, r: f64, class: &str, what: &str) {
        let title = if what.is_empty() { String::new() } else { format!("<title>{}</title>", escaped(what)) };
        writeln!(self.body, r#"<circle cx="{x:.2}" cy="{y:.2}" r="{r:.2}" class="{class}">{title}</circle>"#)
            .ok();
    }

    /// One line of text. What is wider than `most` units is cut short with an ellipsis.
    pub(crate) fn text(&mut self, x: f64, y: f64, anchor: Anchor, class: &str, text: &str, most: f64) {
        let anchor = match anchor {
            Anchor::Start => "",
            Anchor::Middle => r#" text-anchor="middle""#,
            Anchor::End => r#" text-anchor="end""#,
        };
        let text = escaped(&shortened(text, most / (size(class) * LETTER)));
        writeln!(self.body, r#"<text x="{x:.2}" y="{y:.2}"{anchor} class="{class}">{text}</text>"#).ok();
    }

    /// Text over as many lines as it needs; the place below it.
    pub(crate) fn paragraph(&mut self, x: f64, y: f64, class: &str, text: &str) -> f64 {
        let most = ((WIDTH - x - 8.0) / (size(class) * LETTER)) as usize;
        let mut y = y;
        let mut line = String::new();
        for word in text.split_whitespace() {
            if !line.is_empty() && line.chars().count() + 1 + word.chars().count() > most {
                self.text(x, y, Anchor::Start, class, &line, f64::INFINITY);
                y += size(class) * 1.3;
                line.clear();
            }
            if !line.is_empty() {
                line.push(' ');
            }
            line.push_str(word);
        }
        self.text(x, y, Anchor::Start, class, &line, f64::INFINITY);
        y + size(class) * 1.3
    }

    /// The whole, with what it is called and what it shows for those who cannot see it.
    pub(crate) fn finish(self, height: f64, title: &str, shows: &str) -> String {
        let (title, shows) = (escaped(title), escaped(shows));
        let (wide, high) = (WIDTH * 2.0, height * 2.0);
        let body = self.body;
        format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {WIDTH} {height:.1}\" width=\"{wide}\" height=\"{high:.1}\" \
             role=\"img\" aria-labelledby=\"what shows\" style=\"max-width:100%;height:auto\">\n<title id=\"what\">{title}</title>\n\
             <desc id=\"shows\">{shows}</desc>\n<style>{LOOK}{STYLE}</style>\n<defs><pattern id=\"hatch\" width=\"4\" height=\"4\" \
             patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\"><rect width=\"4\" height=\"4\" class=\"ground\"/>\
             <rect width=\"1.6\" height=\"4\" class=\"stroke\"/></pattern></defs>\n\
             <rect width=\"{WIDTH}\" height=\"{height:.1}\" class=\"ground\"/>\n{body}</svg>\n"
        )
    }
}

fn size(class: &str) -> f64 {
    if class.contains("title") {
        15.0
    } else if class.contains("small") {
        10.5
    } else {
        SIZE
    }
}

/// What may stand between tags and in quotes; signs that no page can hold are left out.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

/// At most so many letters.
fn shortened(text: &str, most: f64) -> String {
    let most = most.max(1.0);
    if text.chars().count() as f64 <= most {
        return text.to_owned();
    }
    let mut short: String = text.chars().take((most as usize).saturating_sub(1)).collect();
    short.push('…');
    short
}

/// Colours and letters of every drawing, by light and by dark.
pub(crate) const LOOK: &str = "
:root{--ground:#fbf8f2;--ink:#2a2623;--soft:#675f57;--rule:#d8d0c4;--light:#e6ded0;--mid:#b3a48f;--dark:#5c5148}
@media (prefers-color-scheme:dark){:root{--ground:#1d1b19;--ink:#ece6dc;--soft:#b5aca0;--rule:#45403a;--light:#4a443d;--mid:#837665;--dark:#d3c6b3}}
text{font-family:ui-sans-serif,system-ui,'Liberation Sans','DejaVu Sans',sans-serif;font-size:12px;fill:var(--ink)}
";

const STYLE: &str = "
.title{font-size:15px;font-weight:600}.small{font-size:10.5px}.soft{fill:var(--soft)}
.ground{fill:var(--ground)}.stroke{fill:var(--dark)}
.rule{stroke:var(--rule);stroke-width:.7}.axis{stroke:var(--soft);stroke-width:.8}.mark{stroke:var(--ink);stroke-width:1.4}
.dash{stroke:var(--ink);stroke-width:1;stroke-dasharray:3 2}
.light,.mid,.dark,.hatch,.open,.dots{stroke:var(--ink);stroke-width:.5}
.light{fill:var(--light)}.mid{fill:var(--mid)}.dark{fill:var(--dark)}.hatch{fill:url(#hatch)}
.open{fill:none}.dots{fill:none;stroke-dasharray:1.5 1.5}.point{fill:var(--ink)}.ring{fill:var(--ground);stroke:var(--ink);stroke-width:1.2}
.on{fill:var(--ground)}.halo{paint-order:stroke;stroke:var(--ground);stroke-width:3px}
";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strange_text_stays_text() {
        assert_eq!(escaped("<b> & \"x\"\u{0}"), "&lt;b&gt; &amp; &quot;x&quot; ");
        assert_eq!(shortened("Merrin", 4.0), "Mer…");
        let mut d = Drawing::new();
        d.text(0.0, 0.0, Anchor::End, "small", "</svg>", 500.0);
        let below = d.paragraph(8.0, 20.0, "", &"word ".repeat(60));
        assert!(below > 60.0);
        roxmltree::Document::parse(&d.finish(below, "a<b", "c&d")).unwrap();
    }
}
