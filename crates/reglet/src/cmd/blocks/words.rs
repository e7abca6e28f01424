//! What was found of blocks as it is said on a terminal.

use crate::say::list;
use chronology::RateTold;
use evidence::block::Shows;
use publish::record::{BlocksRecord, DamageFound, DatesFound, OrderFound};
use publish::report::name as short;

/// Damages listed on a terminal; the page and the JSON have all.
const LISTED: usize = 12;

/// All that is said.
pub(super) fn of_blocks(record: &BlocksRecord) -> String {
    let names = |all: &[usize]| all.iter().map(|&i| name(record, i)).collect::<Vec<_>>().join(", ");
    let mut out = Vec::new();
    match &record.pairs[..] {
        [pair] => {
            out.push(pair.comparison.sentence.clone());
            if let Some(w) = pair.comparison.weight_log10 {
                let way = if w >= 0.0 { "one block" } else { "two blocks" };
                out.push(format!("Weight of the evidence: {:.1} (log10), for {way}.", w.abs()));
            }
            list(&mut out, "Why", &pair.comparison.reasons);
        }
        pairs => {
            let several = record.blocks.iter().filter(|b| b.impressions.len() > 1).count();
            out.push(match record.blocks.len() {
                1 => format!("All {} impressions agree with one block.", record.blocks[0].impressions.len()),
                n => format!("{n} blocks, {several} of them with more than one impression."),
            });
            let undetermined = pairs.iter().filter(|p| p.comparison.weight_log10.is_none()).count();
            if undetermined > 0 {
                out.push(format!("{undetermined} of {} pairs have no weight.", pairs.len()));
            }
        }
    }
    for (i, block) in record.blocks.iter().enumerate() {
        if record.pairs.len() > 1 {
            list(&mut out, &format!("Block {}", i + 1), &[names(&block.impressions)]);
        }
        let own: Vec<&DamageFound> = record.damage.iter().filter(|d| d.block == i).collect();
        let mut said: Vec<String> = own.iter().take(LISTED).map(|d| damage(d, &names)).collect();
        if own.len() > LISTED {
            said.push(format!("and {} more; the page and the JSON list all", own.len() - LISTED));
        }
        list(&mut out, &format!("Damage of block {}", i + 1), &said);
        for order in record.order.iter().filter(|o| o.block == i) {
            let said: Vec<String> = in_order(order, &names);
            list(
                &mut out,
                &format!("Order of the impressions of block {}, the earliest first", i + 1),
                &said,
            );
        }
        for years in record.dates.iter().flatten().filter(|d| d.block == i) {
            list(&mut out, &format!("Years of block {}", i + 1), &dates(record, i, years));
        }
    }
    let unplaced: Vec<String> = record.unplaced.iter().map(|u| format!("{}: {}", u.file, u.reason)).collect();
    list(&mut out, "Not placed", &unplaced);
    list(&mut out, "Beware", &record.cautions);
    list(&mut out, "Notes", &record.warnings);
    out.join("\n")
}

fn name(record: &BlocksRecord, i: usize) -> String {
    let about = record.photographs.get(i).and_then(Option::as_ref);
    about.map_or_else(|| format!("photograph {}", i + 1), |a| short(&a.file))
}

fn damage(d: &DamageFound, names: &impl Fn(&[usize]) -> String) -> String {
    let size =
        d.damage.size_mm.map_or_else(|| format!("{:.0} px", d.damage.size_px), |mm| format!("{mm:.1} mm"));
    let at = d.damage.box_mm.map_or_else(
        || format!("{:.0}, {:.0} px", d.damage.box_px[0], d.damage.box_px[1]),
        |[x, y, ..]| format!("{x:.0}, {y:.0} mm"),
    );
    let of = |shows: Shows, words: &str| {
        let all: Vec<usize> =
            d.damage.seen.iter().filter(|s| s.shows == shows).map(|s| s.impression).collect();
        (!all.is_empty()).then(|| format!("{words} {}", names(&all)))
    };
    let parts = [of(Shows::Present, "in"), of(Shows::Absent, "not in"), of(Shows::Unclear, "unclear in")];
    let parts: Vec<String> = parts.into_iter().flatten().collect();
    format!("{}: {}, {size}, at {at}; {}", d.number, d.damage.class.name(), parts.join("; "))
}

fn in_order(order: &OrderFound, names: &impl Fn(&[usize]) -> String) -> Vec<String> {
    let mut out: Vec<String> = order
        .earliest_first
        .iter()
        .map(|together| {
            let tie = if together.len() > 1 { " (nothing puts these in order)" } else { "" };
            format!("{}{tie}", names(together))
        })
        .collect();
    out.extend(order.told.warnings.iter().map(|w| format!("{w}.")));
    out
}

fn dates(record: &BlocksRecord, block: usize, found: &DatesFound) -> Vec<String> {
    let members = &record.blocks[block].impressions;
    let interval = |t: &chronology::YearTold| {
        let [from, to] = t.interval_95_year;
        format!("{:.0} ({from:.0} to {to:.0})", t.median_year)
    };
    let mut out: Vec<String> = found
        .told
        .impressions
        .iter()
        .map(|i| {
            let by =
                |t: &Option<chronology::YearTold>| t.as_ref().map_or_else(|| "not told".to_owned(), interval);
            format!(
                "{}: by the order alone {}; with the rate of damage {} (95 percent)",
                name(record, members[i.impression]),
                by(&i.by_order),
                by(&i.with_rate)
            )
        })
        .collect();
    if let RateTold::None { reason, .. } = &found.told.rate {
        out.push(format!("No rate of damage: {reason}"));
    }
    out.extend(found.told.warnings.iter().map(chronology::DateWarning::sentence));
    out
}
