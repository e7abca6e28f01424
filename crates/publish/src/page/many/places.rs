//! The table of variants of each setting, and each place in every copy.

use std::fmt::Write as _;

use super::{ManyModel, PlaceModel, SettingModel, letter};
use crate::page::data_uri::data_uri;
use crate::page::looking::{position, shares};
use crate::page::text::{Text, number};
use crate::pictures::Small;
use crate::report::line_words;

/// Of one reading so many copies are shown at once.
const SHOWN_AT_ONCE: usize = 12;

/// How the copies are headed in which a place is not clear.
const UNCLEAR: &str = "?<span class=\"unseen\"> not clear</span>";
/// Of a place so many times as wide as high few pictures go beside each other.
const LONG: f64 = 5.0;

/// A section for each setting whose copies differ.
pub(super) fn sections(model: &ManyModel) -> String {
    let mut first = 1;
    let mut out = String::new();
    for setting in model.settings.iter().filter(|s| s.copies.len() > 1) {
        out += &section(setting, first);
        first += setting.places.len();
    }
    out
}

/// `first` is the number of its first place.
fn section(setting: &SettingModel, first: usize) -> String {
    let title = format!("Where the copies of setting {} differ", setting.number);
    let words = Text(&setting.words);
    if setting.places.is_empty() {
        return format!(
            "<section class=\"lines variants\">\n<h2>{title}</h2>\n<p>No place was found in which they differ.</p>\n</section>\n"
        );
    }
    let articles: String =
        setting.places.iter().enumerate().map(|(i, place)| article(place, first + i)).collect();
    format!(
        "<section class=\"lines variants\">\n<h2>{title}</h2>\n<p>{words} Down: the places; across: the copies, those that \
         agree standing together. Copies with one letter agree there, <b>a</b> with the copy that is the frame; hatched: not \
         clear.</p>\n{}{articles}</section>\n",
        table(setting, first)
    )
}

/// Places down, copies across.
fn table(setting: &SettingModel, first: usize) -> String {
    let mut head = String::new();
    for group in &setting.groups {
        for (i, copy) in group.iter().enumerate() {
            let class = if i == 0 { " class=\"opens\"" } else { "" };
            let _ =
                write!(head, "<th scope=\"col\"{class}><span class=\"unseen\">copy </span>{}</th>", copy + 1);
        }
    }
    let mut rows = String::new();
    for (n, place) in setting.places.iter().enumerate() {
        let mut cells = String::new();
        for group in &setting.groups {
            for (i, copy) in group.iter().enumerate() {
                let opens = if i == 0 { " opens" } else { "" };
                cells += &cell(place, copy + 1, opens);
            }
        }
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\"><a href=\"#place-{n}\">{n}</a></th><td class=\"what\">{}<span>{}</span></td>{cells}</tr>",
            place.line.map_or_else(String::new, |line| format!("line {line} ")),
            Text(&place.class_words),
            n = first + n,
        );
    }
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Places that differ in setting {}\">\n\
         <table class=\"matrix\">\n<thead><tr><th scope=\"col\">Place</th><th scope=\"col\">What</th>{head}</tr></thead>\n\
         <tbody>\n{rows}</tbody>\n</table>\n</div>\n",
        setting.number
    )
}

/// The reading of one copy.
fn cell(place: &PlaceModel, copy: usize, opens: &str) -> String {
    let of = |all: &Vec<(usize, Option<Small>)>| all.iter().any(|(c, _)| *c == copy);
    match place.readings.iter().position(of) {
        Some(0) => format!("<td class=\"reading{opens}\">a</td>"),
        Some(reading) => format!("<td class=\"reading other{opens}\">{}</td>", letter(reading)),
        None => format!("<td class=\"reading unsure{opens}\"><span class=\"unseen\">not clear</span></td>"),
    }
}

/// One place in every copy.
fn article(place: &PlaceModel, number_of_place: usize) -> String {
    let mut readings = String::new();
    let mut pictures = place.readings.iter().flatten().filter_map(|(_, small)| small.as_ref());
    let is_long = pictures.any(|s| s.size_px[0] as f64 > LONG * s.size_px[1] as f64);
    let thumbs = if is_long { "thumbs long" } else { "thumbs" };
    let known = place.readings.iter().enumerate().map(|(i, reading)| (letter(i), reading));
    for (letter, copies) in known.chain([(UNCLEAR.to_owned(), &place.unclear)]) {
        if copies.is_empty() {
            continue;
        }
        let all: Vec<String> =
            copies.iter().map(|(copy, small)| thumb(*copy, small.as_ref(), place)).collect();
        let (shown, more) = all.split_at(all.len().min(SHOWN_AT_ONCE));
        let more = if more.is_empty() {
            String::new()
        } else {
            format!(
                "<details><summary>{} more</summary>\n<div class=\"{thumbs}\">\n{}</div></details>\n",
                more.len(),
                more.concat()
            )
        };
        let _ = write!(
            readings,
            "<section class=\"of-reading\">\n<h4>{letter}</h4>\n<div>\n<div class=\"{thumbs}\">\n{}</div>\n{more}</div>\n</section>\n",
            shown.concat()
        );
    }
    let [x, y, w, h] = place.box_px;
    let line = line_words(place.line);
    format!(
        "<article class=\"variant\" id=\"place-{number_of_place}\">\n<h3><a href=\"#looking\" data-box=\"{}\" \
         data-place=\"{number_of_place}\">Place {number_of_place}</a></h3>\n<p>{line}: {}; score {}. On copy {}: {w} × {h} px \
         at {x}, {y}.</p>\n{readings}</article>\n",
        shares(place.frame),
        Text(&place.class_words),
        number(place.score, 2),
        place.on
    )
}

/// What one copy shows.
fn thumb(copy: usize, small: Option<&Small>, place: &PlaceModel) -> String {
    let Some(small) = small else {
        return format!(
            "<figure class=\"none\"><div>not to be seen</div><figcaption>{copy}</figcaption></figure>\n"
        );
    };
    let [w, h] = small.size_px;
    let mark = place
        .within
        .map_or_else(String::new, |b| format!("<i class=\"spot\" style=\"{}\"></i>", position(b)));
    format!(
        "<figure><div class=\"thumb\"><img width=\"{w}\" height=\"{h}\" alt=\"The place in copy {copy}\" \
         src=\"{}\">{mark}</div><figcaption>{copy}</figcaption></figure>\n",
        data_uri("image/jpeg", &small.jpeg)
    )
}
