//! What the table alone allows: for every two impressions, which can be the earlier.
//!
//! No error is allowed for here. One cell read wrongly is enough to contradict; how likely that is, `order` says.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::table::{Sighting, Table};

/// How two impressions stand to each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum Relation {
    /// The second shows damage that the first lacks, and lacks none that the first shows.
    FirstEarlier,
    /// The other way round.
    SecondEarlier,
    /// No damage that both allow to be judged parts them.
    Tie,
    /// Each shows damage that the other lacks.
    Contradicted,
}

/// Two impressions and the damages that part them.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub struct Pair {
    /// An impression, counted from 0.
    pub first: usize,
    /// A later one of the table.
    pub second: usize,
    /// How they stand.
    pub relation: Relation,
    /// Damages that the second alone shows: they speak for the first as the earlier.
    pub only_second: Vec<usize>,
    /// Damages that the first alone shows.
    pub only_first: Vec<usize>,
    /// Damages judged on both; of none a tie says nothing.
    pub judged: usize,
}

/// Every two impressions of the table, by the first and then the second.
pub fn relations(table: &Table) -> Vec<Pair> {
    let n = table.impressions().len();
    let pairs = (0..n).flat_map(|first| (first + 1..n).map(move |second| (first, second)));
    pairs.map(|(first, second)| pair(table, first, second)).collect()
}

fn pair(table: &Table, first: usize, second: usize) -> Pair {
    let (mut only_first, mut only_second, mut judged) = (Vec::new(), Vec::new(), 0);
    for d in 0..table.damages().len() {
        match (table.cell(d, first), table.cell(d, second)) {
            (Sighting::Unclear, _) | (_, Sighting::Unclear) => continue,
            (Sighting::Present, Sighting::Absent) => only_first.push(d),
            (Sighting::Absent, Sighting::Present) => only_second.push(d),
            _ => {}
        }
        judged += 1;
    }
    let relation = match (only_second.is_empty(), only_first.is_empty()) {
        (false, true) => Relation::FirstEarlier,
        (true, false) => Relation::SecondEarlier,
        (true, true) => Relation::Tie,
        (false, false) => Relation::Contradicted,
    };
    Pair { first, second, relation, only_second, only_first, judged }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::table::tests::table;

    #[test]
    fn pairs_are_earlier_tied_or_contradicted() {
        let pairs = relations(&table(&["011?", "0010", "1111"]));
        let told: Vec<_> = pairs.iter().map(|p| (p.first, p.second, p.relation)).collect();
        assert_eq!(
            told,
            [
                (0, 1, Relation::FirstEarlier),
                (0, 2, Relation::FirstEarlier),
                (0, 3, Relation::Tie),
                (1, 2, Relation::FirstEarlier),
                (1, 3, Relation::Tie),
                (2, 3, Relation::SecondEarlier),
            ]
        );
        assert_eq!(pairs[1].only_second, [0, 1]);
        assert_eq!((pairs[2].judged, pairs[0].judged), (2, 3));
    }

    #[test]
    fn a_contradiction_names_the_damages_of_both_sides() {
        let pairs = relations(&table(&["01", "10", "11"]));
        assert_eq!(pairs[0].relation, Relation::Contradicted);
        assert_eq!((&pairs[0].only_second[..], &pairs[0].only_first[..]), (&[0][..], &[1][..]));
    }
}
