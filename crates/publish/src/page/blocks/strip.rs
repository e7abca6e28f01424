//! The film strip: the states of a block in order, what is new in each ringed.

use std::fmt::Write as _;

use super::words::{numbers, rings, roman};
use super::{BlockModel, BlocksModel, DamageModel, Sign, StateModel};
use crate::blocks::dated_words;
use crate::page::data_uri::data_uri;
use crate::page::looking::position;
use crate::page::text::Text;

/// The section; without an order the impressions as they were named. Here each impression is in the page as it lies on the
/// frame, once: the script takes it from here.
pub(super) fn section(model: &BlocksModel, block: &BlockModel) -> String {
    if block.impressions.len() < 2 {
        return String::new();
    }
    let Some(order) = &block.order else {
        let figures: String = block.impressions.iter().map(|&n| figure(model, block, n, &[])).collect();
        return format!(
            "<section class=\"part strip-of\">\n<h3>The impressions</h3>\n<div class=\"contact\">\n{figures}</div>\n</section>\n"
        );
    };
    let states: String = order.states.iter().map(|state| one_state(model, block, state)).collect();
    format!(
        "<section class=\"part strip-of\">\n<h3>The states, from the earliest</h3>\n<p>Each impression as it lies on the frame; \
         what is new in a state is ringed.</p>\n<div class=\"reel\" tabindex=\"0\" role=\"region\" aria-label=\"The states of block {}\">\n<ol class=\"film\">\n{states}</ol>\n</div>\n</section>\n",
        block.number
    )
}

fn one_state(model: &BlocksModel, block: &BlockModel, state: &StateModel) -> String {
    let figures: String = state.impressions.iter().map(|&n| figure(model, block, n, &state.new)).collect();
    let new = match (state.rank, &state.new[..]) {
        (_, []) => "no damage is new".to_owned(),
        (1, new) => format!("there from the first: {}", rings(block, new)),
        (_, new) => format!("new: {}", rings(block, new)),
    };
    let tied = if state.impressions.len() > 1 {
        format!("; impressions {} tied", numbers(&state.impressions))
    } else {
        String::new()
    };
    format!(
        "<li style=\"--n:{}\">\n<p class=\"state\"><b><span class=\"unseen\">State </span>{}</b> {new}{tied}</p>\n<div class=\"frames\">\n\
         {figures}</div>\n</li>\n",
        state.impressions.len(),
        roman(state.rank)
    )
}

/// Of tied impressions one may lack what another shows.
fn shows(damage: &DamageModel, impression: usize) -> bool {
    damage.seen.iter().any(|s| s.impression == impression && s.sign == Sign::Present)
}

fn figure(model: &BlocksModel, block: &BlockModel, number: usize, new: &[usize]) -> String {
    let Some(about) = model.impressions.get(number - 1) else { return String::new() };
    let mut out = String::from("<figure>");
    if let Some(shown) = &about.shown {
        let [w, h] = shown.photograph.size_px;
        let mut marks = String::new();
        for damage in block.damages.iter().filter(|d| new.contains(&d.number) && shows(d, number)) {
            let _ = write!(
                marks,
                "<i class=\"ringed\" style=\"{}\" data-number=\"{}\"></i>",
                position(damage.frame),
                damage.number
            );
        }
        let _ = write!(
            out,
            "<button type=\"button\" class=\"take\" data-copy=\"{number}\"><img width=\"{w}\" height=\"{h}\" alt=\"Impression \
             {number}\" src=\"{}\">{marks}</button>",
            data_uri("image/jpeg", &shown.photograph.jpeg)
        );
    }
    let year = dated_words(about.dated).map_or_else(String::new, |year| format!("<br>{}", Text(&year)));
    let _ = writeln!(
        out,
        "<figcaption><b>{number}</b> <bdi class=\"file\">{}</bdi>{year}</figcaption></figure>",
        Text(&about.side.file_name)
    );
    out
}
