//! Two impressions of one block, chosen by the reader, together.

use super::{BlockModel, BlocksModel, DamageModel, Sign};
use crate::page::choosing::{Choosing, Group, Place, inks as all_inks};
use crate::page::looking::keys;

/// The stage and the choice of the two impressions; nothing where no block has two that can be seen.
pub(super) fn section(model: &BlocksModel) -> String {
    Choosing {
        noun: "impression",
        of: "Block",
        title: "Two impressions together",
        whole: "whole block",
        differ: "Damage that parts them",
        tool: "",
        keys: &keys("the whole block", false),
        groups: groups(model).map(|b| group(model, b)).collect(),
    }
    .set()
}

/// The blocks of which two impressions can be laid together.
pub(super) fn groups(model: &BlocksModel) -> impl Iterator<Item = &BlockModel> {
    model.blocks.iter().filter(|b| seen(model, b).count() > 1)
}

fn seen<'m>(model: &'m BlocksModel, block: &'m BlockModel) -> impl Iterator<Item = (usize, &'m str)> {
    let all = block.impressions.iter().filter_map(|i| model.impressions.get(i - 1));
    all.filter(|i| i.shown.is_some()).map(|i| (i.number, i.side.file_name.as_str()))
}

fn group<'m>(model: &'m BlocksModel, block: &'m BlockModel) -> Group<'m> {
    Group {
        number: block.number,
        seen: seen(model, block).collect(),
        places: block.damages.iter().map(place).collect(),
    }
}

fn place(damage: &DamageModel) -> Place {
    let letter = |sign: Sign| match sign {
        Sign::Present => "b",
        Sign::Absent => "a",
        Sign::Unclear => "?",
    };
    Place {
        frame: damage.frame,
        words: damage.class_words.clone(),
        more: damage.size_words.clone(),
        label: Some(damage.number),
        readings: damage.seen.iter().map(|s| (s.impression, letter(s.sign).to_owned())).collect(),
    }
}

/// The ink of every impression for the script.
pub(super) fn inks(model: &BlocksModel) -> String {
    all_inks(model.impressions.iter().filter_map(|i| Some((i.number, i.shown.as_ref()?))))
}
