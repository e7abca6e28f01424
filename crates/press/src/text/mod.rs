//! Invented matter for the press: nothing in it quotes anything that was ever printed.

mod lexicon;
mod spelling;
mod templates;

use serde::{Deserialize, Serialize};

use crate::chance::Chance;
pub use spelling::Spelling;
pub(crate) use spelling::variant as other_spelling;
use templates::Writer;

/// What is being printed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum PageKind {
    /// An order of a town's magistrates, on one side of a sheet.
    Order,
    /// A ballad in verses, in one or two columns.
    Ballad,
    /// The title-page of a book.
    TitlePage,
    /// A notice of something lost, to be sold, or to be done.
    Notice,
    /// A leaf of a book, with headline, signature and catchword.
    BookLeaf,
}

impl PageKind {
    /// Every kind.
    pub const ALL: [Self; 5] = [Self::Order, Self::Ballad, Self::TitlePage, Self::Notice, Self::BookLeaf];
}

/// How a word is set.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Style {
    /// In the roman of the body.
    Roman,
    /// In the italic that goes with it (names).
    Italic,
    /// In capitals, a little spaced.
    Capitals,
}

/// A printed word of the text, with the points that cling to it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Token {
    /// Counted through the text; the same word keeps it however it is spelt.
    pub id: u32,
    /// The letters as they are to be set, long s and all, without ligatures.
    pub text: String,
    /// How it is set.
    pub style: Style,
}

/// What a passage is on the page.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "is", content = "rank")]
pub enum Role {
    /// The running title over a page.
    Headline,
    /// A line of display, from 0, the largest, to 3.
    Display(u8),
    /// Prose, set to the measure.
    Body,
    /// A verse, one line a passage; the rank is the stanza.
    Verse(u8),
    /// The foot of a sheet: place, date, printer.
    Imprint,
    /// The signature of a leaf, under the last line.
    Signature,
    /// The catchword, under the last line at the right.
    Catchword,
}

/// A run of words with one role.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Passage {
    /// What it is on the page.
    pub role: Role,
    /// Its words in order.
    pub words: Vec<Token>,
}

/// The matter of one page.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize)]
pub struct Text {
    /// What is being printed.
    pub kind: PageKind,
    /// The passages in their order.
    pub passages: Vec<Passage>,
}

/// What to write: the same `frame` gives the same headings, names, opening and close; `body` the rest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Commission {
    /// What is being printed.
    pub kind: PageKind,
    /// How it is spelt.
    pub spelling: Spelling,
    /// About how many words of prose, or four times the verses. 40 to 900.
    pub words: usize,
    /// Chooses headings, names, formulas.
    pub frame: u64,
    /// Chooses the body.
    pub body: u64,
}

impl Text {
    /// Writes the matter of a page.
    pub fn invented(commission: &Commission) -> Self {
        let mut writer = Writer::new(commission);
        let passages = match commission.kind {
            PageKind::Order => writer.order(),
            PageKind::Ballad => writer.ballad(),
            PageKind::TitlePage => writer.title_page(),
            PageKind::Notice => writer.notice(),
            PageKind::BookLeaf => writer.book_leaf(),
        };
        let mut next = 0;
        let passages = passages
            .into_iter()
            .map(|(role, plain)| Passage { role, words: tokens(&plain, commission.spelling, &mut next) })
            .filter(|passage| !passage.words.is_empty())
            .collect();
        Self { kind: commission.kind, passages }
    }

    /// The same words in another man's spelling: about `share` of those that can be spelt otherwise are.
    #[must_use]
    pub fn respelt(&self, share: f64, seed: u64) -> Self {
        let mut chance = Chance::new(seed, "respelling");
        let mut text = self.clone();
        for passage in &mut text.passages {
            if matches!(passage.role, Role::Body | Role::Verse(_)) {
                for word in &mut passage.words {
                    if let Some(other) = spelling::variant(&word.text).filter(|_| chance.happens(share)) {
                        word.text = other;
                    }
                }
            }
        }
        text
    }

    /// Share of the shorter text's words that stand in the other in the same order, 0 to 1: their longest
    /// common subsequence (Wagner & Fischer, *Journal of the ACM* 21 (1974), 168-173), spelling and all.
    pub fn shared_in_order(&self, other: &Self) -> f64 {
        let own: Vec<&str> = self.words().map(|w| w.text.as_str()).collect();
        let theirs: Vec<&str> = other.words().map(|w| w.text.as_str()).collect();
        let mut before = vec![0usize; theirs.len() + 1];
        for word in &own {
            let mut row = vec![0usize; theirs.len() + 1];
            for (j, there) in theirs.iter().enumerate() {
                row[j + 1] = if word == there { before[j] + 1 } else { row[j].max(before[j + 1]) };
            }
            before = row;
        }
        before[theirs.len()] as f64 / own.len().min(theirs.len()).max(1) as f64
    }

    /// Every word in order.
    pub fn words(&self) -> impl Iterator<Item = &Token> {
        self.passages.iter().flat_map(|passage| &passage.words)
    }
}

/// Splits plain text into tokens: `*so*` is italic, `^so^` capitals; a mark may cover several words.
fn tokens(plain: &str, spelling: Spelling, next: &mut u32) -> Vec<Token> {
    let mut style = Style::Roman;
    let mut out = Vec::new();
    for raw in plain.split_whitespace() {
        let (mut word, mut shown) = (String::new(), style);
        for letter in raw.chars() {
            let toggled = match letter {
                '*' => Style::Italic,
                '^' => Style::Capitals,
                other => {
                    word.push(other);
                    continue;
                }
            };
            style = if style == toggled { Style::Roman } else { toggled };
            if word.is_empty() {
                shown = style;
            }
        }
        if word.is_empty() {
            continue;
        }
        let text = if shown == Style::Capitals { spelling.capitals(&word) } else { spelling.applied(&word) };
        out.push(Token { id: *next, text, style: shown });
        *next += 1;
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn commission(kind: PageKind, frame: u64, body: u64) -> Commission {
        Commission { kind, spelling: Spelling::default(), words: 150, frame, body }
    }

    #[test]
    fn one_hundred_commissions_give_one_hundred_texts() {
        let mut seen = std::collections::BTreeSet::new();
        for seed in 0..20 {
            for kind in PageKind::ALL {
                let text = Text::invented(&commission(kind, seed, seed));
                let plain: Vec<_> = text.words().map(|w| w.text.clone()).collect();
                assert!(plain.len() > 15, "{kind:?} {seed}: {plain:?}");
                assert!(!plain.join(" ").contains(['{', '}', '*', '^']), "{plain:?}");
                seen.insert(plain.join(" "));
            }
        }
        assert_eq!(seen.len(), 100);
    }

    #[test]
    fn another_body_keeps_the_frame() {
        let one = Text::invented(&commission(PageKind::Order, 5, 1));
        let two = Text::invented(&commission(PageKind::Order, 5, 2));
        assert_eq!(one.passages.first(), two.passages.first());
        let body = |t: &Text| t.passages.iter().find(|p| p.role == Role::Body).unwrap().words.clone();
        let (a, b) = (body(&one), body(&two));
        assert_eq!(
            a.iter().take(3).map(|w| &w.text).collect::<Vec<_>>(),
            b.iter().take(3).map(|w| &w.text).collect::<Vec<_>>()
        );
        let same = a.iter().zip(&b).filter(|(x, y)| x.text == y.text).count();
        assert!(same * 2 < a.len());
    }

    #[test]
    fn words_in_common_order_are_counted() {
        let text = |words: &str| Text {
            kind: PageKind::Notice,
            passages: vec![Passage { role: Role::Body, words: tokens(words, Spelling::default(), &mut 0) }],
        };
        let (a, b) = (text("the old bell rang twice"), text("the new bell was rang"));
        assert!((a.shared_in_order(&b) - 0.6).abs() < 1e-12);
        assert!((a.shared_in_order(&a) - 1.0).abs() < 1e-12);
        assert!(a.shared_in_order(&text("a stone")).abs() < 1e-12);
    }

    #[test]
    fn marks_set_the_style_of_their_words() {
        use Style::{Capitals, Italic, Roman};
        let mut next = 0;
        let got = tokens("the Town of *Old Harwick,* and ^GOD^ there", Spelling::default(), &mut next);
        let styles: Vec<_> = got.iter().map(|t| t.style).collect();
        assert_eq!(styles, [Roman, Roman, Roman, Italic, Italic, Roman, Capitals, Roman]);
    }
}
