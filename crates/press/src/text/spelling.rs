//! The habits of spelling of the period: long s, u and v, i and j, and words that had two spellings.

use serde::{Deserialize, Serialize};

/// Which habits a text keeps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
pub struct Spelling {
    /// Long s within words.
    pub long_s: bool,
    /// v at the start of a word and u within it, whatever the sound (usual to about 1630).
    pub u_and_v: bool,
    /// i for j (usual to about 1630).
    pub i_for_j: bool,
}

impl Default for Spelling {
    /// As about 1680: long s, modern u, v, i, j.
    fn default() -> Self {
        Self { long_s: true, u_and_v: false, i_for_j: false }
    }
}

impl Spelling {
    /// A word as it is to be set.
    pub(super) fn applied(self, word: &str) -> String {
        let letters: Vec<char> = word.chars().collect();
        let letter = |i: usize| letters.get(i).copied().unwrap_or(' ');
        (0..letters.len())
            .map(|i| {
                let inside = i > 0 && letter(i - 1).is_alphabetic();
                match letter(i) {
                    's' if self.long_s && long_here(inside, letter(i.wrapping_sub(1)), letter(i + 1)) => {
                        '\u{17f}'
                    }
                    'u' if self.u_and_v && !inside => 'v',
                    'v' if self.u_and_v && inside => 'u',
                    'U' if self.u_and_v => 'V',
                    'j' if self.i_for_j => 'i',
                    'J' if self.i_for_j => 'I',
                    other => other,
                }
            })
            .collect()
    }

    /// A word in capitals; no long s, and V for U in the older habit.
    pub(super) fn capitals(self, word: &str) -> String {
        let raised = word.to_uppercase();
        let raised = if self.u_and_v { raised.replace('U', "V") } else { raised };
        if self.i_for_j { raised.replace('J', "I") } else { raised }
    }
}

/// Long s but at the end of a word, before an apostrophe, and next to f (common practice, no source).
fn long_here(inside: bool, before: char, after: char) -> bool {
    after.is_alphabetic() && after != 'f' && !(inside && before == 'f')
}

/// The other spelling of a word, where it had one; points and capitals are kept.
pub(crate) fn variant(word: &str) -> Option<String> {
    const ENDINGS: [(&str, &str); 12] = [
        ("nesse", "ne\u{17f}s"),
        ("\u{17f}e", "\u{17f}\u{17f}e"),
        ("ll", "l"),
        ("ie", "y"),
        ("ick", "icke"),
        ("own", "owne"),
        ("eep", "eepe"),
        ("ound", "ounde"),
        ("ear", "eare"),
        ("ood", "oode"),
        ("y", "ie"),
        ("ed", "'d"),
    ];
    let core = word.trim_end_matches(|c: char| !c.is_alphabetic());
    let points = &word[core.len()..];
    if core.chars().count() < 3 || points.contains('-') {
        return None;
    }
    if core == "and" {
        return Some(format!("&{points}"));
    }
    ENDINGS.iter().find_map(|(from, to)| {
        core.strip_suffix(from).filter(|stem| !stem.is_empty()).map(|stem| format!("{stem}{to}{points}"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_s_is_set_by_rule() {
        let now = Spelling::default();
        assert_eq!(now.applied("possess,"), "po\u{17f}\u{17f}e\u{17f}s,");
        assert_eq!(now.applied("Shepherds"), "Shepherds");
        assert_eq!(now.applied("satisfie"), "\u{17f}atisfie");
        assert_eq!(now.applied("us'd"), "us'd");
    }

    #[test]
    fn the_older_habit_turns_u_v_and_j() {
        let old = Spelling { long_s: true, u_and_v: true, i_for_j: true };
        assert_eq!(old.applied("upon"), "vpon");
        assert_eq!(old.applied("have"), "haue");
        assert_eq!(old.applied("Justice"), "Iu\u{17f}tice");
        assert_eq!(old.capitals("Jury"), "IVRY");
    }

    #[test]
    fn a_variant_keeps_the_points() {
        assert_eq!(variant("Town,").as_deref(), Some("Towne,"));
        assert_eq!(variant("and").as_deref(), Some("&"));
        assert_eq!(variant("of"), None);
    }
}
