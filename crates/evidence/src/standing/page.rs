//! All lines of a side weighed together: by where their words stand, and by how their sorts stand off the line.

use super::shares::Shares;
use super::sorts::{BySorts, CAST_SHARES, CASTS, NOISES, log_likely};
use super::weigh::{CARES, Likelihoods};
use rayon::prelude::*;

/// Manners of setting again: each step of care with each step of unevenness of the sorts. Those of the most careful hand
/// come first, one after the other.
pub const MANNERS: usize = CARES * CASTS;

/// How likely each manner is before anything is seen: all steps of care alike, those of unevenness as pieces of type are
/// cast.
pub(crate) fn manner_share(manner: usize) -> f64 {
    CAST_SHARES[manner % CASTS] / CARES as f64
}

/// A line weighed with its page; natural logarithms of likelihoods, of words and sorts together.
#[derive(Debug, Clone, Copy)]
pub(crate) struct LineOfPage {
    /// With the unevenness of sorts that shows on the page; those of setting again by steps of care.
    pub(crate) likelihoods: Likelihoods,
    /// That it was set again, in each manner.
    pub(crate) reset: [f64; MANNERS],
}

/// All lines weighed, and how common each explanation is among them.
///
/// Two things are of the page and told by it: how much worse whole sorts are seen than their halves foretell, and how
/// unevenly the sorts were cast that stand in the lines set again (if any were, all came out of the same cases). Of the
/// steps that are tried those are taken that make all lines likeliest, words and sorts together.
pub(crate) fn together(lines: &[(Likelihoods, BySorts)]) -> (Vec<LineOfPage>, Shares) {
    let with = |(noise, cast): (usize, usize)| {
        let all: Vec<Likelihoods> =
            lines.iter().map(|(words, sorts)| both(words, sorts, noise, cast)).collect();
        let (shares, likely) = Shares::of(&all);
        (likely + log_likely(noise) + CAST_SHARES[cast].ln(), noise, all, shares)
    };
    let tried: Vec<(usize, usize)> =
        (0..NOISES).flat_map(|noise| (0..CASTS).map(move |cast| (noise, cast))).collect();
    let best = tried.into_par_iter().map(with).reduce_with(|p, q| if q.0 > p.0 { q } else { p });
    let Some((_, noise, all, shares)) = best else { return (Vec::new(), Shares::of(&[]).0) };
    let reset = |(words, sorts): &(Likelihoods, BySorts)| {
        std::array::from_fn(|manner| words.reset[manner / CASTS] + sorts.other[noise][manner % CASTS])
    };
    let weighed = all.into_iter().zip(lines);
    (weighed.map(|(likelihoods, line)| LineOfPage { likelihoods, reset: reset(line) }).collect(), shares)
}

/// What words and sorts of a line say together: a line that was set again is of other pieces, so unevenly cast, any other
/// of the same.
fn both(words: &Likelihoods, sorts: &BySorts, noise: usize, cast: usize) -> Likelihoods {
    let (same, other) = (sorts.same[noise], sorts.other[noise][cast]);
    Likelihoods {
        same: words.same + same,
        moved: words.moved + same,
        respaced: words.respaced + same,
        reset: words.reset.map(|v| v + other),
    }
}

#[cfg(test)]
mod tests {
    use super::super::Standing;
    use super::super::sorts::{SortOff, weigh_sorts};
    use super::*;

    /// A line of forty sorts that stand off by so much up and down in turn, where the words say so much more for its
    /// standing.
    fn line(off: f64, words: f64) -> (Likelihoods, BySorts) {
        let sorts: Vec<SortOff> =
            (0..40).map(|i| SortOff { off: if i % 2 == 0 { off } else { -off }, error: 0.004 }).collect();
        let by_words = Likelihoods { same: words, moved: -9.0, respaced: -9.0, reset: [0.0; CARES] };
        (by_words, weigh_sorts(&sorts))
    }

    fn standings(lines: &[(Likelihoods, BySorts)]) -> Vec<Standing> {
        let (all, shares) = together(lines);
        all.iter().map(|l| shares.standing(&l.likelihoods, 6)).collect()
    }

    #[test]
    fn lines_of_other_pieces_were_set_again_though_their_words_stand_alike() {
        let mut lines = vec![line(0.004, 0.5); 10];
        lines.extend([line(0.017, 0.5); 4]);
        let told = standings(&lines);
        assert!(told[..10].iter().all(|s| *s == Standing::Same), "{told:?}");
        assert!(told[10..].iter().all(|s| *s == Standing::Reset), "{told:?}");
    }

    #[test]
    fn where_all_words_stand_to_a_hair_sorts_that_wander_are_noise() {
        let told = standings(&vec![line(0.012, 14.0); 12]);
        assert!(told.iter().all(|s| *s == Standing::Same), "{told:?}");
    }

    #[test]
    fn sorts_as_even_as_that_are_no_resetting_where_others_of_the_page_are_uneven() {
        // The words speak for a resetting, as bad paper makes them.
        let among_uneven = [vec![line(0.003, -2.0); 6], vec![line(0.017, -6.0); 6]].concat();
        let told = standings(&among_uneven);
        assert!(told[..6].iter().all(|s| *s != Standing::Reset), "{told:?}");
        assert!(told[6..].iter().all(|s| *s == Standing::Reset), "{told:?}");
        // Where all words do, and clearly, the type may have been cast as evenly as that.
        let told = standings(&vec![line(0.003, -12.0); 12]);
        assert!(told.iter().all(|s| *s == Standing::Reset), "{told:?}");
    }

    #[test]
    fn lines_whose_sorts_say_nothing_are_weighed_by_their_words() {
        let by_words = |words: f64| (line(0.0, words).0, BySorts::NOTHING);
        let lines = [vec![by_words(6.0); 8], vec![by_words(-6.0); 8]].concat();
        let told = standings(&lines);
        assert!(told[..8].iter().all(|s| *s == Standing::Same), "{told:?}");
        assert!(told[8..].iter().all(|s| *s == Standing::Reset), "{told:?}");
    }
}
