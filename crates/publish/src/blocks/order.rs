//! The order of the impressions of a block, as it is drawn and told.

use super::words::{impressions_words, listed};
use crate::page::blocks::{DamageModel, OrderModel, RowModel, Stand, StateModel};
use crate::record::OrderFound;
use chronology::{Order, OrderMethod, PerhapsRepaired, Relation, Sighting, TwoBlocks};

/// `impressions` are those of the block as the order counts them; `damages` likewise.
pub(super) fn order(found: &OrderFound, impressions: &[usize], damages: &[DamageModel]) -> OrderModel {
    let told = &found.told;
    let placed: Vec<usize> = told.arrangement.impressions.iter().map(|p| p.impression).collect();
    let number = |d: usize| damages.get(d).map_or(d + 1, |d| d.number);
    OrderModel {
        states: states(told, impressions, number),
        rows: told
            .arrangement
            .damages
            .iter()
            .map(|row| RowModel {
                damage: number(row.damage),
                came_after: row.came_after,
                gone_after: row.gone_after,
                chance: row.chance,
            })
            .collect(),
        before: placed.iter().map(|&a| placed.iter().map(|&b| told.before[a][b]).collect()).collect(),
        stand: placed.iter().map(|&a| placed.iter().map(|&b| stand(told, a, b)).collect()).collect(),
        contradictions: contradictions(told, impressions, number),
        notes: notes(told),
        priors: told.priors.clone(),
    }
}

/// Impressions of one rank together, and the damages that came just before the first of them.
fn states(told: &Order, impressions: &[usize], number: impl Fn(usize) -> usize) -> Vec<StateModel> {
    let placed = &told.arrangement.impressions;
    let mut from = 0;
    let ranks = placed.chunk_by(|a, b| a.rank == b.rank).map(|tied| {
        let places = from..from + tied.len();
        from = places.end;
        let new = told.arrangement.damages.iter().filter(|row| places.contains(&row.came_after));
        StateModel {
            rank: tied[0].rank,
            impressions: tied.iter().map(|p| impressions[p.impression] + 1).collect(),
            new: new.map(|row| number(row.damage)).collect(),
        }
    });
    ranks.collect()
}

fn stand(told: &Order, a: usize, b: usize) -> Option<Stand> {
    let pair = told.pairs.iter().find(|p| (p.first, p.second) == (a.min(b), a.max(b)))?;
    Some(match pair.relation {
        Relation::Tie => Stand::Tied,
        Relation::Contradicted => Stand::Contradicted,
        Relation::FirstEarlier | Relation::SecondEarlier => Stand::Parted,
    })
}

/// What no order explains.
fn contradictions(told: &Order, impressions: &[usize], number: impl Fn(usize) -> usize) -> Vec<String> {
    let against = &told.contradictions;
    let mut out = Vec::new();
    if !against.cells.is_empty() {
        let cells: Vec<String> = against
            .cells
            .iter()
            .map(|c| {
                let seen = match c.seen {
                    Sighting::Present => "seen",
                    Sighting::Absent => "not seen",
                    Sighting::Unclear => "not clear",
                };
                format!(
                    "damage {} is {seen} in impression {}",
                    number(c.damage),
                    impressions[c.impression] + 1
                )
            })
            .collect();
        let is_least = against.fewest_possible == against.cells.len();
        let least = if is_least { "no fewer would do" } else { "perhaps fewer would do" };
        out.push(format!(
            "No order explains every place. It would if these had been read otherwise ({least}): {}.",
            listed(&cells)
        ));
    }
    let named = |d: usize, i: usize| against.cells.iter().any(|c| (c.damage, c.impression) == (d, i));
    let rows = told.arrangement.damages.iter();
    let odd: Vec<String> = rows
        .flat_map(|row| row.odd.iter().map(|o| (row.damage, o.impression)))
        .filter(|&(d, i)| !named(d, i))
        .map(|(d, i)| format!("damage {} in impression {}", number(d), impressions[i] + 1))
        .collect();
    if !odd.is_empty() {
        out.push(format!("As the order is drawn here, these stand against it too: {}.", listed(&odd)));
    }
    out.extend(against.repairs.iter().map(|r| repaired(r, impressions, &number)));
    out.extend(against.two_blocks.iter().map(|two| two_blocks(two, impressions, &number)));
    out
}

fn repaired(r: &PerhapsRepaired, impressions: &[usize], number: impl Fn(usize) -> usize) -> String {
    format!(
        "Damage {} was perhaps made good, plugged or cut afresh ({:.0} percent): {} shows it, and the later {} does not.",
        number(r.damage),
        100.0 * r.chance,
        impressions_words(&r.shown_by, impressions),
        impressions_words(&r.lacked_by, impressions)
    )
}

fn two_blocks(two: &TwoBlocks, impressions: &[usize], number: impl Fn(usize) -> usize) -> String {
    let [first, second] = two.impressions.each_ref().map(|f| impressions_words(f, impressions));
    let [of_first, of_second] = two.damages.each_ref().map(|d| {
        let numbers: Vec<String> = d.iter().map(|&d| number(d).to_string()).collect();
        listed(&numbers)
    });
    format!(
        "Perhaps these are two blocks: {first} alone has damage {of_first}, and {second} alone {of_second}. Put them in order apart."
    )
}

/// How the chances were found, and how often a cell is read wrongly.
fn notes(told: &Order) -> Vec<String> {
    let method = match &told.method {
        OrderMethod::Counted => "The chances were counted out over every order.".to_owned(),
        OrderMethod::Chains(c) => format!(
            "The chances are from {} chains of {} draws each{}.",
            c.chains,
            c.draws_each,
            c.worst_r_hat.map_or_else(String::new, |r| format!(", which agree to an R-hat of {r:.3}"))
        ),
    };
    let percent = |rate: f64| format!("{:.0}", 100.0 * rate);
    let rates = format!(
        "From the table itself it is learnt that a damage that is there is missed {} times in a hundred (give or take {}), \
         and one that is not there is seen {} times (give or take {}).",
        percent(told.missed.mean),
        percent(told.missed.sd),
        percent(told.false_sight.mean),
        percent(told.false_sight.sd)
    );
    vec![method, rates]
}
