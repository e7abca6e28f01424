//! Two copies of one setting, chosen by the reader, together.

use super::{ManyModel, PlaceModel, SettingModel, letter};
use crate::page::choosing::{Choosing, Group, Place, inks as all_inks};
use crate::page::looking::{EDGE, keys};
use crate::page::text::number;
use crate::report::line_words;

/// The stage and the choice of the two copies; nothing where no setting has two that can be seen.
pub(super) fn section(model: &ManyModel) -> String {
    let groups = model.settings.iter().map(|s| group(model, s)).filter(|g| g.seen.len() > 1);
    Choosing {
        noun: "copy",
        of: "Setting",
        title: "Two copies together",
        whole: "whole side",
        differ: "Places that differ",
        tool: EDGE,
        keys: &keys("the whole side", true),
        groups: groups.collect(),
    }
    .set()
}

fn group<'m>(model: &'m ManyModel, setting: &SettingModel) -> Group<'m> {
    let copies = setting.copies.iter().filter_map(|c| model.copies.get(*c)).filter(|c| c.shown.is_some());
    Group {
        number: setting.number,
        seen: copies.map(|c| (c.number, c.side.file_name.as_str())).collect(),
        places: setting.places.iter().map(place).collect(),
    }
}

fn place(of: &PlaceModel) -> Place {
    let mut readings: Vec<(usize, String)> = Vec::new();
    for (i, reading) in of.readings.iter().enumerate() {
        readings.extend(reading.iter().map(|(copy, _)| (*copy, letter(i))));
    }
    readings.extend(of.unclear.iter().map(|(copy, _)| (*copy, "?".to_owned())));
    Place {
        frame: of.frame,
        words: of.class_words.clone(),
        more: format!("{}, {}", line_words(of.line), number(of.score, 2)),
        label: None,
        readings,
    }
}

/// The ink of every copy for the script.
pub(super) fn inks(model: &ManyModel) -> String {
    all_inks(model.copies.iter().filter_map(|c| Some((c.number, c.shown.as_ref()?))))
}
