//! What is said of measured sides.

use crate::record::MeasuredSide;
use evidence::measure::{Incident, IncidentClass, InkMeasures, Length, TypeMeasures};
use std::fmt::Write as _;
use trade::bodies::{Fit, Tongue};

/// A figure is out by no more than so many standard deviations 19 times of 20.
const SURE: f64 = 1.96;
/// Names with leads that are told; the JSON has all.
const LEADED: usize = 2;
/// Twenty lines scaled up from fewer are said to be so.
const FEW: usize = 21;

/// A length with its doubt, in millimetres where they are known: "83.4 ± 0.4 mm".
pub(super) fn length(mm: Option<Length>, px: Option<Length>) -> String {
    let said = |l: Length, unit: &str, decimals: usize| {
        format!("{:.decimals$} ± {:.decimals$} {unit}", l.value, SURE * l.sd)
    };
    match (mm, px) {
        (Some(mm), _) if mm.value < 20.0 => said(mm, "mm", 2),
        (Some(mm), _) => said(mm, "mm", 1),
        (None, Some(px)) => said(px, "px", 1),
        (None, None) => "not to be told".to_owned(),
    }
}

/// Twenty lines of a size.
pub(super) fn twenty(of: &TypeMeasures) -> String {
    let mm = of.twenty_lines_mm.zip(of.sd_mm).map(|(value, sd)| Length { value, sd });
    length(mm, of.twenty_lines_px)
}

/// How high capitals and ascenders are, and how deep descenders.
pub(super) fn extents(of: &TypeMeasures) -> String {
    let in_mm = of.x_height_mm.is_some();
    let all = if in_mm {
        [of.capitals_mm, of.ascenders_mm, of.descenders_mm]
    } else {
        [of.capitals_px, of.ascenders_px, of.descenders_px]
    };
    if all.iter().all(Option::is_none) {
        return "not to be told".to_owned();
    }
    let (unit, decimals) = if in_mm { ("mm", 2) } else { ("px", 1) };
    let one = |l: Option<Length>| l.map_or_else(|| "?".to_owned(), |l| format!("{:.decimals$}", l.value));
    format!("{} {unit}", all.map(one).join("; "))
}

/// What the gap between the lines of a size says, a sentence.
pub(super) fn gap(i: usize, of: &TypeMeasures) -> Option<String> {
    let (gap, says) = (of.gap_mm?, of.gap_says.as_ref()?);
    Some(format!(
        "Of size {} the gap from a descender to an ascender below it is {}: {says}.",
        i + 1,
        length(Some(gap), None)
    ))
}

/// Which bodies it may be.
pub(super) fn bodies(of: &TypeMeasures) -> String {
    if of.twenty_lines_mm.is_none() {
        return "not to be told".to_owned();
    }
    let (fits, near): (Vec<&Fit>, Vec<&Fit>) = of.bodies.iter().partition(|f| f.fits);
    let mut parts = Vec::new();
    if !fits.is_empty() {
        parts.push(format!("{}, set solid", names(&fits)));
    }
    if let (true, [nearest, ..]) = (fits.is_empty(), &near[..]) {
        let away = nearest.distance_mm.0;
        let way = if away > 0.0 { "large" } else { "small" };
        parts.push(format!("near {}, but {:.1} mm too {way} for it", named(nearest), away.abs()));
    }
    let leaded: Vec<String> = of
        .bodies_with_leads
        .iter()
        .take(LEADED)
        .map(|l| format!("{} with leads {}", l.name, l.lead.name))
        .collect();
    if !leaded.is_empty() {
        parts.push(leaded.join(", or "));
    }
    if parts.is_empty() { "no body of the tables".to_owned() } else { parts.join("; or ") }
}

/// "pica (English), cicéro (French)"
fn names(fits: &[&Fit]) -> String {
    fits.iter().map(|f| named(f)).collect::<Vec<_>>().join(" or ")
}

fn named(of: &Fit) -> String {
    let tongue = match of.tongue {
        Tongue::English => "English",
        Tongue::French => "French",
        Tongue::German => "German",
    };
    // "English" is a body, too.
    if of.name == "English" { "English body".to_owned() } else { format!("{} ({tongue})", of.name) }
}

/// The English names that fit.
fn english(of: &TypeMeasures) -> Vec<&str> {
    let fit = of.bodies.iter().filter(|f| f.fits && f.tongue == Tongue::English);
    fit.map(|f| if f.name == "English" { "English body" } else { f.name }).collect()
}

/// The size by which a side is known: that of most print which can be measured, or else of most print.
fn text(of: &MeasuredSide) -> Option<&TypeMeasures> {
    let types = &of.measures.types;
    types.iter().find(|t| t.twenty_lines_px.is_some()).or_else(|| types.first())
}

/// The result in one sentence.
pub(super) fn verdict(of: &MeasuredSide) -> String {
    let Some(text) = text(of) else { return "No line of type was found on this side.".to_owned() };
    if text.twenty_lines_px.is_none() {
        return format!("{}, none of which follow each other.", lines_words(of));
    }
    let may_be = match &english(text)[..] {
        [] => String::new(),
        [only] => format!(": {only}, if it is set solid"),
        [first, .., last] => format!(": {first} or {last}, if it is set solid"),
    };
    format!("Twenty lines of the text measure {}{may_be}.", twenty(text))
}

fn lines_words(of: &MeasuredSide) -> String {
    let (lines, sizes) = (of.measures.lines.len(), of.measures.types.len());
    let lines = if lines == 1 { "One line of type".to_owned() } else { format!("{lines} lines of type") };
    if sizes == 1 { format!("{lines} in one size") } else { format!("{lines} in {sizes} sizes") }
}

/// What was found, a sentence each.
pub(super) fn findings(of: &MeasuredSide) -> Vec<String> {
    let mut out = Vec::new();
    if !of.measures.lines.is_empty() {
        out.push(format!("{}.", lines_words(of)));
    }
    if let Some(text) = text(of).filter(|t| t.twenty_lines_px.is_some()) {
        if text.longest_run < FEW {
            out.push(format!("Twenty lines are scaled up: {} follow each other at most.", text.longest_run));
        }
        if text.twenty_lines_mm.is_some() {
            out.push(format!("The body of the text may be {}.", bodies(text)));
        }
    }
    if let Some(skew) = of.measures.skew_degrees {
        let doubt = of.measures.skew_sd_degrees.unwrap_or_default();
        let way = if skew >= 0.0 { "right" } else { "left" };
        out.push(format!(
            "The lines fall by {:.2} ± {:.2} degrees to the {way}, as the photograph has them.",
            skew.abs(),
            SURE * doubt
        ));
    }
    out.extend(of.measures.ink.as_ref().and_then(ink_words));
    for class in ALL {
        let n = of.measures.incidents.iter().filter(|i| i.class == class).count();
        match n {
            0 => {}
            1 => out.push(format!("One place that may be {}.", class_words(class))),
            n => out.push(format!("{n} places that may be {}.", several(class))),
        }
    }
    out
}

/// A side is evenly inked whose words have this much of the ink of well inked ones in the mean.
const EVEN: f64 = 0.9;

/// How evenly it is inked, and where not.
fn ink_words(ink: &InkMeasures) -> Option<String> {
    let evenness = ink.evenness?;
    let how = if evenness >= EVEN { "evenly" } else { "unevenly" };
    let faint = match ink.faint_px.len() {
        0 => String::new(),
        1 => "; words are faint in one place".to_owned(),
        n => format!("; words are faint in {n} places"),
    };
    Some(format!(
        "The text took the ink {how}: its words have {:.0} percent of what well inked ones have{faint}.",
        100.0 * evenness
    ))
}

/// Figures of the whole side.
pub(super) fn figures(of: &MeasuredSide) -> Vec<(String, String)> {
    let scale = crate::report::side(&of.photograph).scale_words;
    let mut out = vec![("Scale".to_owned(), scale)];
    if let Some(text) = text(of) {
        out.push(("Twenty lines of the text".to_owned(), twenty(text)));
        out.push((
            "Twenty lines by their faces".to_owned(),
            length(text.twenty_lines_by_faces_mm, text.twenty_lines_by_faces_px),
        ));
        out.push(("x-height of the text".to_owned(), length(text.x_height_mm, Some(text.x_height_px))));
    }
    if let Some(lies) = &of.measures.lies {
        let [w, h] = lies.type_area_mm.map_or_else(
            || [lies.type_area_px[2], lies.type_area_px[3]].map(|px| format!("{px:.0} px")),
            |mm| mm.map(|l| length(Some(l), None)),
        );
        out.push(("Type area".to_owned(), format!("{w} by {h}")));
        if lies.page_is_whole {
            let margins = lies.margins_mm.map_or_else(
                || lies.margins_px.map(|px| format!("{px:.0} px")),
                |mm| mm.map(|l| format!("{:.0} mm", l.value)),
            );
            let [left, head, right, foot] = margins;
            out.push(("Margins".to_owned(), format!("left {left}, head {head}, right {right}, foot {foot}")));
            out.push(("Type area against the page".to_owned(), format!("{:.0} percent", 100.0 * lies.share)));
        }
    }
    out
}

/// All classes, in the order in which they are told.
const ALL: [IncidentClass; 2] = [IncidentClass::RisenSpace, IncidentClass::Crease];

/// One of a class.
pub(crate) fn class_words(class: IncidentClass) -> &'static str {
    match class {
        IncidentClass::RisenSpace => "a risen space or quad",
        IncidentClass::Crease => "a crease through the text",
    }
}

fn several(class: IncidentClass) -> &'static str {
    match class {
        IncidentClass::RisenSpace => "risen spaces or quads",
        IncidentClass::Crease => "creases through the text",
    }
}

/// Where an incident is, and how large.
pub(crate) fn incident_words(of: &Incident) -> String {
    let mut out = match (of.line, of.ends_px) {
        (Some(line), _) => format!("line {}", line + 1),
        (None, Some(_)) => "across the sheet".to_owned(),
        (None, None) => "between the lines".to_owned(),
    };
    if of.ends_px.is_some() {
        return out;
    }
    match of.size_mm {
        Some([w, h]) => {
            let _ = write!(out, "; {:.1} × {:.1} mm", w.value, h.value);
        }
        None => {
            let _ = write!(out, "; {:.0} × {:.0} px", of.box_px[2], of.box_px[3]);
        }
    }
    out
}

/// Incidents that are listed on a terminal.
const LISTED: usize = 12;

/// A side in words, for a terminal.
pub fn in_words(of: &MeasuredSide) -> String {
    let mut out = vec![crate::report::name(&of.photograph.file), verdict(of)];
    let list = |out: &mut Vec<String>, title: &str, items: &[String]| {
        if !items.is_empty() {
            out.extend([String::new(), title.to_owned()]);
            out.extend(items.iter().map(|i| format!("  - {i}")));
        }
    };
    list(&mut out, "What was found", &findings(of));
    let figures: Vec<String> = figures(of).iter().map(|(term, what)| format!("{term}: {what}")).collect();
    list(
        &mut out,
        "Figures (± is 1.96 standard deviations: 19 times of 20 the true figure lies within)",
        &figures,
    );
    let sizes = of.measures.types.iter().enumerate().map(|(i, t)| {
        format!(
            "size {}: {}; twenty lines {}; x-height {}; capitals, ascenders, descenders {}; longest line {}; {}",
            i + 1,
            if t.lines.len() == 1 { "one line".to_owned() } else { format!("{} lines", t.lines.len()) },
            twenty(t),
            length(t.x_height_mm, Some(t.x_height_px)),
            extents(t),
            length(t.line_length_mm, Some(t.line_length_px)),
            bodies(t)
        )
    });
    let gaps = of.measures.types.iter().enumerate().filter_map(|(i, t)| gap(i, t));
    list(&mut out, "Sizes of type", &sizes.chain(gaps).collect::<Vec<_>>());
    let mut incidents: Vec<String> = of
        .measures
        .incidents
        .iter()
        .take(LISTED)
        .map(|i| format!("{}, {} (score {:.2})", class_words(i.class), incident_words(i), i.score))
        .collect();
    if of.measures.incidents.len() > LISTED {
        incidents.push(format!(
            "and {} more; the page and the JSON have all",
            of.measures.incidents.len() - LISTED
        ));
    }
    list(&mut out, "To be looked at", &incidents);
    list(&mut out, "Note", &of.warnings);
    list(&mut out, "Cautions", &of.cautions);
    out.join("\n")
}
