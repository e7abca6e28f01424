//! The picture of order: impressions across from the earliest, damages down as they came.

use std::fmt::Write as _;

use super::words::{image, ring, roman, sign, spot};
use super::{BlockModel, BlocksModel, DamageModel, OrderModel, RowModel, SeenModel, Sign, Stand};
use crate::blocks::dated_words;
use crate::page::list;
use crate::page::text::Text;

/// The section; without an order the same picture, as the impressions were named.
pub(super) fn section(model: &BlocksModel, block: &BlockModel) -> String {
    if block.damages.is_empty() {
        return String::new();
    }
    let Some(order) = &block.order else {
        let rows: Vec<RowModel> = block.damages.iter().map(|d| RowModel::unplaced(d.number, block)).collect();
        return format!(
            "<section class=\"part order\">\n<h3>Where each damage shows</h3>\n<p>No order is given. Across, the impressions as \
             they were named; down, the damages.</p>\n{LEGEND}{}</section>\n",
            picture(model, block, &rows)
        );
    };
    format!(
        "<section class=\"part order\">\n<h3>The order</h3>\n<p>Across, the impressions from the earliest: those under one \
         numeral nothing parts. Down, the damages in the order they came; a heavy line stands where each came, and from there \
         on, tinted, it is to be looked for.</p>\n{LEGEND}{}{}{}</section>\n",
        picture(model, block, &order.rows),
        against(order),
        chances(block, order)
    )
}

const LEGEND: &str = "<ul class=\"signs\" aria-label=\"What the signs mean\">\n\
    <li><i class=\"sign present\"></i>present</li>\n<li><i class=\"sign absent\"></i>absent, the wood prints whole</li>\n\
    <li><i class=\"sign unclear\"></i>unclear, and in a hundred how likely present</li>\n<li><b class=\"dagger\">†</b>stands against the order</li>\n</ul>\n";

fn picture(model: &BlocksModel, block: &BlockModel, rows: &[RowModel]) -> String {
    let mut body = String::new();
    for row in rows {
        if let Some(damage) = block.damages.iter().find(|d| d.number == row.damage) {
            body += &one_row(block, row, damage);
        }
    }
    let small =
        if block.damages.iter().flat_map(|d| &d.seen).any(|s| s.crop.is_some()) { "" } else { " bare" };
    format!(
        "<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"The order of block {n} as a picture\">\n\
         <table class=\"staircase{small}\" style=\"--n:{across}\">\n<caption class=\"unseen\">Impressions of block {n} across, its damages down</caption>\n\
         <thead>\n{}{}</thead>\n<tbody>\n{body}</tbody>\n</table>\n</div>\n",
        ranks(block),
        heads(model, block),
        n = block.number,
        across = block.impressions.len(),
    )
}

/// A numeral over every state, tied impressions under one.
fn ranks(block: &BlockModel) -> String {
    let Some(order) = &block.order else { return String::new() };
    let mut cells = String::new();
    for state in &order.states {
        let n = state.impressions.len();
        let (class, tied) = if n > 1 { (" class=\"tied\"", "<span> tied</span>") } else { ("", "") };
        let _ = write!(
            cells,
            "<th scope=\"colgroup\" colspan=\"{n}\"{class}><span class=\"unseen\">state </span>{}{tied}</th>",
            roman(state.rank)
        );
    }
    format!("<tr class=\"ranks\"><td></td>{cells}</tr>\n")
}

fn heads(model: &BlocksModel, block: &BlockModel) -> String {
    let mut cells = String::new();
    for &number in &block.impressions {
        let Some(about) = model.impressions.get(number - 1) else { continue };
        let head = about.head.as_ref().map_or_else(String::new, |small| image(small, ""));
        let year = dated_words(about.dated)
            .map_or_else(String::new, |year| format!("<span class=\"year\">{}</span>", Text(&year)));
        let _ = write!(
            cells,
            "<th scope=\"col\" title=\"{}\">{head}<span class=\"unseen\">impression </span><b>{number}</b>{year}</th>",
            Text(&about.side.file_name)
        );
    }
    format!("<tr class=\"heads\"><td></td>{cells}</tr>\n")
}

fn one_row(block: &BlockModel, row: &RowModel, damage: &DamageModel) -> String {
    let mut cells = String::new();
    for (place, number) in block.impressions.iter().enumerate() {
        let Some(seen) = damage.seen.iter().find(|s| s.impression == *number) else {
            cells += "<td></td>";
            continue;
        };
        cells += &cell(row, place, damage, seen);
    }
    format!(
        "<tr><th scope=\"row\">{} <span class=\"what\">{}<span class=\"when\">{}</span></span></th>{cells}</tr>\n",
        ring(block, damage.number),
        Text(&damage.class_words),
        came(block, row),
    )
}

/// In which state it came, in words.
fn came(block: &BlockModel, row: &RowModel) -> String {
    let Some(order) = &block.order else { return String::new() };
    let state = order.states.iter().find(|s| s.new.contains(&row.damage));
    let chance = format!("{:.0} %", 100.0 * row.chance);
    match state {
        None => "perhaps seen in error".to_owned(),
        Some(_) if row.came_after == 0 => format!("there from the first, {chance}"),
        Some(state) => format!("new in {}, {chance}", roman(state.rank)),
    }
}

fn cell(row: &RowModel, place: usize, damage: &DamageModel, seen: &SeenModel) -> String {
    let is_gone = row.gone_after.is_some_and(|gone| place >= gone);
    let mut classes = vec![seen.sign.word()];
    for (is, class) in [
        (place >= row.came_after && !is_gone, "worn"),
        (place == row.came_after, "came"),
        (row.gone_after == Some(place), "gone"),
        (seen.is_odd, "odd"),
    ] {
        if is {
            classes.push(class);
        }
    }
    let words = format!(
        "Damage {} in impression {}: {}{}",
        damage.number,
        seen.impression,
        seen.sign.word(),
        seen.because.as_ref().map_or_else(String::new, |b| format!(", {b}"))
    );
    let crop = seen.crop.as_ref().map_or_else(String::new, |small| {
        format!("<span class=\"crop\">{}{}</span>", image(small, ""), spot(damage.within))
    });
    let odd = if seen.is_odd {
        "<b class=\"dagger\">†</b><span class=\"unseen\">, against the order</span>"
    } else {
        ""
    };
    let chance = match (seen.sign, seen.chance) {
        (Sign::Unclear, Some(chance)) => {
            format!(
                "<span class=\"chance\">{:.0}<span class=\"unseen\"> percent likely present</span></span>",
                100.0 * chance
            )
        }
        _ => String::new(),
    };
    format!(
        "<td class=\"{}\" title=\"{}\">{crop}<span class=\"told\">{}{odd}{chance}</span></td>",
        classes.join(" "),
        Text(&words),
        sign(seen.sign)
    )
}

/// What no order explains.
fn against(order: &OrderModel) -> String {
    if order.contradictions.is_empty() {
        return "<p class=\"against\">One order explains every place that could be judged.</p>\n".to_owned();
    }
    format!(
        "<aside class=\"against\" aria-label=\"What no order explains\">\n<h4>What no order explains</h4>\n{}</aside>\n",
        list("plain", &order.contradictions)
    )
}

/// The chance of each pair's order, on demand.
fn chances(block: &BlockModel, order: &OrderModel) -> String {
    let mut head = String::new();
    for n in &block.impressions {
        let _ = write!(head, "<th scope=\"col\"><span class=\"unseen\">before impression </span>{n}</th>");
    }
    let mut rows = String::new();
    for ((number, chances), stands) in block.impressions.iter().zip(&order.before).zip(&order.stand) {
        let mut cells = String::new();
        for (chance, stand) in chances.iter().zip(stands) {
            let chance = 100.0 * chance;
            let (class, after) = match stand {
                None => {
                    cells += "<td class=\"itself\"><span class=\"unseen\">itself</span></td>";
                    continue;
                }
                Some(Stand::Tied) => (" class=\"even\"", "<span class=\"unseen\">, tied</span>"),
                Some(Stand::Contradicted) => (
                    "",
                    "<b class=\"dagger\">†</b><span class=\"unseen\">, each has damage that the other lacks</span>",
                ),
                Some(Stand::Parted) => ("", ""),
            };
            let _ = write!(cells, "<td{class}>{chance:.0}{after}</td>");
        }
        let _ = writeln!(
            rows,
            "<tr><th scope=\"row\"><span class=\"unseen\">impression </span>{number}</th>{cells}</tr>"
        );
    }
    format!(
        "<details>\n<summary>How likely each was printed before each other</summary>\n<p>In a hundred: the impression of the row \
         before that of the column. Hatched: by the table alone a tie. †: each of the two has damage that the other \
         lacks.</p>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Chances of block {n}\">\n\
         <table class=\"chances\">\n<caption class=\"unseen\">Chance, in a hundred, that the impression of the row was printed \
         before that of the column</caption>\n<thead><tr><td></td>{head}</tr></thead>\n<tbody>\n{rows}</tbody>\n</table>\n\
         </div>\n{}<h4>What was taken for likely beforehand</h4>\n{}</details>\n",
        list("plain", &order.notes),
        list("plain", &order.priors),
        n = block.number,
    )
}
