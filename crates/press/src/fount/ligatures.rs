//! Which sorts a compositor takes for a word: ligatures where the fount has them.

/// Ligatures as (letters, sort). Sorts that Unicode has no place for stand in the private area as the
/// fonts have them. Longest first.
const LIGATURES: [(&str, char); 17] = [
    ("\u{17f}\u{17f}i", '\u{e006}'),
    ("\u{17f}\u{17f}l", '\u{e007}'),
    ("ffi", '\u{fb03}'),
    ("ffl", '\u{fb04}'),
    ("\u{17f}\u{17f}", '\u{e009}'),
    ("\u{17f}i", '\u{e00a}'),
    ("\u{17f}l", '\u{e00b}'),
    ("\u{17f}h", '\u{e008}'),
    ("\u{17f}t", '\u{fb05}'),
    ("\u{17f}p", '\u{e024}'),
    ("ff", '\u{fb00}'),
    ("fi", '\u{fb01}'),
    ("fl", '\u{fb02}'),
    ("ct", '\u{e004}'),
    ("is", '\u{e020}'),
    ("us", '\u{e022}'),
    ("as", '\u{e01f}'),
];

/// The sorts for a word, taking a ligature wherever `has` says that the fount holds it.
///
/// The italic's *as*, *is*, *us* are only used at the end of a word, as was the custom (common
/// practice, no source).
pub fn with_ligatures(word: &str, has: impl Fn(char) -> bool) -> Vec<char> {
    let mut sorts = Vec::with_capacity(word.len());
    let mut rest = word;
    while let Some(first) = rest.chars().next() {
        let found = LIGATURES.iter().find(|(letters, sort)| {
            rest.starts_with(letters)
                && has(*sort)
                && (*sort < '\u{e01f}'
                    || *sort == '\u{e024}'
                    || *sort > '\u{f000}'
                    || ends_word(&rest[letters.len()..]))
        });
        if let Some((letters, sort)) = found {
            sorts.push(*sort);
            rest = &rest[letters.len()..];
        } else {
            sorts.push(first);
            rest = &rest[first.len_utf8()..];
        }
    }
    sorts
}

fn ends_word(rest: &str) -> bool {
    !rest.starts_with(char::is_alphabetic)
}

/// The letters that a sort prints: itself, or those of a ligature.
pub fn reading(sort: char) -> String {
    let ligature = LIGATURES.iter().find(|(_, s)| *s == sort);
    ligature.map_or_else(|| sort.to_string(), |(letters, _)| (*letters).to_owned())
}

/// Every sort the house lays in its cases.
pub(super) fn wanted() -> impl Iterator<Item = char> {
    let single = "\u{17f}\u{e6}\u{153}\u{c6}\u{152}\u{b6}\u{a7}\u{2020}*".chars();
    (' '..='~').skip(1).chain(single).chain(LIGATURES.iter().map(|(_, sort)| *sort))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_longest_ligature_is_taken_and_reads_back() {
        let sorts = with_ligatures("po\u{17f}\u{17f}ible", |_| true);
        assert_eq!(sorts, vec!['p', 'o', '\u{e006}', 'b', 'l', 'e']);
        assert_eq!(sorts.into_iter().map(reading).collect::<String>(), "po\u{17f}\u{17f}ible");
        assert_eq!(with_ligatures("act", |s| s != '\u{e004}'), vec!['a', 'c', 't']);
    }

    #[test]
    fn italic_end_ligatures_stand_at_the_end_only() {
        assert_eq!(with_ligatures("thus,", |_| true), vec!['t', 'h', '\u{e022}', ',']);
        assert_eq!(with_ligatures("usual", |_| true)[0], 'u');
    }
}
