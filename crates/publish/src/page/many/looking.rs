//! Two copies of one setting, chosen by the reader, together.

use std::fmt::Write as _;

use super::{CopyModel, ManyModel, PlaceModel, SettingModel, letter};
use crate::page::data_uri::base64;
use crate::page::looking::{EDGE, KEYS, LEGEND, TURNING, WALKING, ZOOMING, position, shares, ways, window};
use crate::page::text::{Text, number};
use crate::pictures::{Overview, Shades};
use crate::report::line_words;

/// The stage and the choice of the two copies; nothing where no setting has two that can be seen.
pub(super) fn section(model: &ManyModel) -> String {
    let seen = |setting: &&SettingModel| {
        setting.copies.iter().filter(|c| model.copies.get(**c).is_some_and(|c| c.shown.is_some())).count() > 1
    };
    let settings: Vec<&SettingModel> = model.settings.iter().filter(seen).collect();
    if settings.is_empty() {
        return String::new();
    }
    let marks = marks(&settings);
    // The script tells the true sizes with the copies that are chosen.
    let pane = |rank: &str, seen: &str, caption: &str| window(rank, "3x4", seen, &marks, caption);
    let mut panes = String::new();
    for (rank, caption) in [("first", "The first"), ("second", "The second")] {
        panes += &pane(
            rank,
            &format!("<img alt=\"{caption}\" draggable=\"false\">"),
            &format!("<i class=\"ink {rank}\"></i><b>{caption}</b> <bdi class=\"chosen\"></bdi>"),
        );
    }
    panes += &pane(
        "both",
        "<canvas role=\"img\" aria-label=\"Both inks laid over each other in two colours\"></canvas>",
        "<b>Together</b>",
    );
    let (choice, ways) = (choice(model, &settings), ways());
    let walk = walk(&settings);
    format!(
        "<section id=\"looking\" class=\"looking of-many\" aria-labelledby=\"looking-title\" data-way=\"together\">\n\
         <h2 id=\"looking-title\" class=\"unseen\">Two copies together</h2>\n\
         <div class=\"choice\">\n{choice}</div>\n\
         <div class=\"bar\">\n{ways}<div class=\"tools\">\n{TURNING}{WALKING}{EDGE}{ZOOMING}</div>\n</div>\n\
         <div class=\"stage\" tabindex=\"0\" role=\"group\" aria-label=\"The photographs\" \
         aria-describedby=\"keys\">\n{panes}</div>\n<div class=\"rail\">\n{LEGEND}{walk}{KEYS}</div>\n</section>\n"
    )
}

/// The two copies that are laid together.
fn choice(model: &ManyModel, settings: &[&SettingModel]) -> String {
    let mut options = String::new();
    for setting in settings {
        let _ = write!(options, "<optgroup label=\"Setting {}\">", setting.number);
        for copy in setting.copies.iter().filter_map(|c| model.copies.get(*c)).filter(|c| c.shown.is_some()) {
            let _ = write!(
                options,
                "<option value=\"{n}\" data-setting=\"{}\">{n}: {}</option>",
                setting.number,
                Text(&copy.side.file_name),
                n = copy.number
            );
        }
        options.push_str("</optgroup>");
    }
    let select = |rank: &str, words: &str| {
        format!(
            "<label><i class=\"ink {rank}\"></i>{words} <select id=\"the-{rank}\">{options}</select></label>\n"
        )
    };
    select("first", "the first") + &select("second", "the second")
}

/// The boxes of all places; the script shows those of the setting that is looked at.
fn marks(settings: &[&SettingModel]) -> String {
    let mut out = String::new();
    for (n, (setting, place)) in numbered(settings).enumerate() {
        let _ = write!(
            out,
            "<i class=\"place\" style=\"{}\" data-number=\"{}\" data-setting=\"{}\" hidden></i>",
            position(place.frame),
            n + 1,
            setting.number
        );
    }
    out
}

/// All places of all settings, in the order of their numbers.
fn numbered<'m>(settings: &[&'m SettingModel]) -> impl Iterator<Item = (&'m SettingModel, &'m PlaceModel)> {
    settings.iter().flat_map(|setting| setting.places.iter().map(|place| (*setting, place)))
}

/// The list of places, and which reading each copy has there.
fn walk(settings: &[&SettingModel]) -> String {
    let mut items = String::new();
    for (n, (setting, place)) in numbered(settings).enumerate() {
        let line = line_words(place.line);
        let _ = writeln!(
            items,
            "<li data-setting=\"{}\" data-readings=\"{}\" hidden><a href=\"#looking\" data-number=\"{}\" data-box=\"{}\"><b>{}</b> \
             <span class=\"score\">{line}, {}<em class=\"doubtful\" hidden>, not clear</em></span></a></li>",
            setting.number,
            readings(place),
            n + 1,
            shares(place.frame),
            Text(&place.class_words),
            number(place.score, 2),
        );
    }
    format!(
        "<div class=\"walk\">\n<h3 id=\"places\">Places that differ</h3>\n<p class=\"count\" id=\"count\"></p>\n\
         <p id=\"said\" class=\"unseen\" role=\"status\"></p>\n\
         <ol class=\"places\" aria-labelledby=\"places\">\n{items}</ol>\n</div>\n"
    )
}

/// The reading of each copy at a place: "1:a 2:b 3:?".
fn readings(place: &PlaceModel) -> String {
    let mut all: Vec<(usize, String)> = Vec::new();
    for (i, reading) in place.readings.iter().enumerate() {
        all.extend(reading.iter().map(|(copy, _)| (*copy, letter(i))));
    }
    all.extend(place.unclear.iter().map(|(copy, _)| (*copy, "?".to_owned())));
    all.sort();
    all.iter().map(|(copy, letter)| format!("{copy}:{letter}")).collect::<Vec<_>>().join(" ")
}

/// The ink of every copy for the script, each by itself: of a hundred no more is ever read than is looked at.
pub(super) fn inks(model: &ManyModel) -> String {
    let mut out = String::new();
    for CopyModel { number, shown, .. } in &model.copies {
        let Some(Overview { ink: Shades { size_px: [w, h], zlib }, .. }) = shown else { continue };
        let _ = write!(
            out,
            "<script type=\"text/plain\" id=\"ink-{number}\" data-width=\"{w}\" data-height=\"{h}\">"
        );
        base64(&mut out, zlib);
        out.push_str("</script>\n");
    }
    out
}
