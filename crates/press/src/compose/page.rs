//! Making up the page: display, columns of text, foot, with cuts and rules between.

use sheet::{Mm, Rect};

use super::fill::{Filled, fill};
use super::justify::{Care, THICK, spaces};
use super::{ComposeError, Hand};
use crate::border;
use crate::chance::{Chance, mixed};
use crate::fount::{Face, Founts};
use crate::layout::{Layout, Opening};
use crate::setting::{Cut, CutKind, Fill, Line, Setting, Word};
use crate::text::{Passage, Role, Style, Text, Token};

/// A page being made up, from the head down.
pub(super) struct Page<'a> {
    layout: &'a Layout,
    hand: Hand<'a>,
    chance: Chance,
    age: f64,
    seed: u64,
    lines: Vec<Line>,
    cuts: Vec<Cut>,
    /// Down to where the page is filled, in mm.
    foot: f64,
}

/// Where a line is set.
struct Stick {
    left: f64,
    width: f64,
    column: u8,
    fill: Fill,
}

impl<'a> Page<'a> {
    pub(super) fn new(founts: &'a Founts, layout: &'a Layout, age: f64, seed: u64) -> Self {
        Self {
            layout,
            hand: Hand::new(founts, layout.stock, seed, age, 0),
            chance: Chance::new(seed, "composing"),
            age,
            seed,
            lines: Vec::new(),
            cuts: Vec::new(),
            foot: 0.0,
        }
    }

    pub(super) fn made(mut self, text: &Text) -> Result<Setting, ComposeError> {
        let flowing = |p: &&Passage| matches!(p.role, Role::Body | Role::Verse(_));
        let flow: Vec<&Passage> = text.passages.iter().filter(flowing).collect();
        let mut flowed = flow.is_empty();
        let mut headed = false;
        for passage in &text.passages {
            match passage.role {
                Role::Headline => self.headline(passage)?,
                Role::Body | Role::Verse(_) if !flowed => {
                    self.head_piece_once(&mut headed);
                    self.flow(&flow)?;
                    flowed = true;
                }
                Role::Body | Role::Verse(_) => {}
                Role::Display(rank) => {
                    self.head_piece_once(&mut headed);
                    self.display(passage, usize::from(rank.min(3)), text)?;
                }
                Role::Imprint => self.imprint(passage)?,
                Role::Signature => self.under_text(passage, Fill::Centred, true)?,
                Role::Catchword => self.under_text(passage, Fill::Right, false)?,
            }
        }
        if self.lines.is_empty() {
            return Err(ComposeError::NoWords);
        }
        let mut page = Rect::new(0.0, 0.0, self.layout.measure.0, self.foot);
        if let Some(body) = self.layout.border {
            let (ornaments, outer) =
                border::around(page.grown(2.0), body.0, self.layout.stock, &mut self.chance);
            self.cuts.extend(ornaments);
            page = outer;
        }
        Ok(Setting {
            id: format!("{:016x}", mixed(self.seed, "setting")),
            layout: self.layout.clone(),
            page,
            lines: self.lines,
            cuts: self.cuts,
            age: self.age,
            seed: self.seed,
        })
    }

    fn put(&mut self, role: Role, stick: &Stick, body: Mm, top: f64, words: Vec<Word>, gaps: Vec<f64>) {
        let mut line = Line {
            role,
            column: stick.column,
            fill: stick.fill,
            left: Mm(stick.left),
            width: Mm(stick.width),
            baseline: Mm(top + 0.75 * body.0),
            body,
            words,
            gaps: gaps.into_iter().map(Mm).collect(),
        };
        line.lay();
        self.lines.push(line);
    }

    fn rule(&mut self, left: f64, top: f64, width: f64, height: f64) {
        let piece = mixed(self.seed, "rule") ^ self.cuts.len() as u64;
        let place = Rect::new(left, top, width, height);
        self.cuts.push(Cut {
            kind: CutKind::Rule,
            place,
            turn: self.chance.normal(0.08),
            piece,
            height: Mm(self.chance.normal(0.01)),
            face: None,
        });
    }

    fn head_piece_once(&mut self, headed: &mut bool) {
        let Some(height) = self.layout.head_piece.filter(|_| !*headed) else { return };
        *headed = true;
        let width = self.layout.measure.0 * 0.96;
        let place = Rect::new((self.layout.measure.0 - width) / 2.0, self.foot, width, height.0);
        self.cuts.push(Cut {
            kind: CutKind::HeadPiece,
            place,
            turn: self.chance.normal(0.15),
            piece: mixed(self.layout.stock, "head-piece"),
            height: Mm(self.chance.normal(0.015)),
            face: None,
        });
        self.foot += height.0 + 0.8 * self.layout.body.0;
    }

    fn headline(&mut self, passage: &Passage) -> Result<(), ComposeError> {
        let (measure, body) = (self.layout.measure.0, self.layout.body);
        let filled = fill(&mut self.hand, &whole(passage), self.layout.face, body, false, |_| measure)?;
        // The page number, the last word, stands at the outer end: a line of its own on the same baseline.
        for Filled { mut words, .. } in filled {
            let number = words.pop();
            let gaps = even(&words, THICK * body.0, measure);
            let stick = Stick { left: 0.0, width: measure, column: 0, fill: Fill::Centred };
            self.put(passage.role, &stick, body, self.foot, words, gaps);
            let outer = Stick { fill: Fill::Right, ..stick };
            self.put(passage.role, &outer, body, self.foot, number.into_iter().collect(), Vec::new());
        }
        self.foot += body.0;
        if self.layout.rules {
            self.rule(0.0, self.foot + 0.4, measure, 0.3);
        }
        self.foot += 0.7 * body.0;
        Ok(())
    }

    fn display(&mut self, passage: &Passage, rank: usize, text: &Text) -> Result<(), ComposeError> {
        let measure = self.layout.measure.0;
        let mut body = self.layout.display[rank];
        // A word that is wider than the page is set on a smaller body.
        let filled = loop {
            let face = display_face(body, self.layout.face);
            match fill(&mut self.hand, &whole(passage), face, body, false, |i| {
                if i % 2 == 0 { measure } else { 0.86 * measure }
            }) {
                Err(ComposeError::MeasureTooNarrow { .. }) if body.0 > 2.5 => body = Mm(body.0 * 0.86),
                other => break other?,
            }
        };
        for Filled { words, .. } in filled {
            let gaps = even(&words, 0.38 * body.0, measure);
            let stick = Stick { left: 0.0, width: measure, column: 0, fill: Fill::Centred };
            self.put(passage.role, &stick, body, self.foot, words, gaps);
            self.foot += body.0 * 1.04;
        }
        let title = text.kind == crate::text::PageKind::TitlePage;
        self.foot += if title { 2.2 } else { 0.5 } * self.layout.body.0;
        Ok(())
    }

    /// The text proper, in its columns.
    fn flow(&mut self, passages: &[&Passage]) -> Result<(), ComposeError> {
        let (column, pitch, body) = (self.layout.column().0, self.layout.pitch().0, self.layout.body);
        let (indents, mut plan) = self.opened(passages);
        let mut rows: Vec<(Role, Filled, Fill, f64, f64)> = Vec::new();
        for (number, passage) in passages.iter().enumerate() {
            let verse = matches!(passage.role, Role::Verse(_));
            let tokens = if number == 0 { std::mem::take(&mut plan) } else { whole(passage) };
            let done = rows.len();
            let indent = |i: usize| match indents.get(done + i) {
                Some(&deep) => deep,
                None if verse && i > 0 => 2.0 * body.0,
                None if !verse && number > 0 && i == 0 => body.0,
                None => 0.0,
            };
            let lines =
                fill(&mut self.hand, &tokens, self.layout.face, body, !verse, |i| column - indent(i))?;
            for (i, filled) in lines.into_iter().enumerate() {
                let fill = if filled.full && !verse { Fill::Justified } else { Fill::Left };
                rows.push((passage.role, filled, fill, indent(i), 0.0));
            }
            let stanza_ends = passages.get(number + 1).is_some_and(|next| next.role != passage.role);
            if let Some(last) = rows.last_mut().filter(|_| verse && stanza_ends) {
                last.4 = 0.55 * pitch;
            }
        }
        let columns = usize::from(self.layout.columns.max(1));
        let in_column = rows.len().div_ceil(columns);
        let (top, mut y, mut deepest) = (self.foot, self.foot, self.foot);
        for (i, (role, Filled { words, .. }, fill, indent, after)) in rows.into_iter().enumerate() {
            if i > 0 && i % in_column == 0 {
                y = top;
            }
            let number = i / in_column;
            let stick = Stick {
                left: number as f64 * (column + self.layout.gutter.0) + indent,
                width: column - indent,
                column: number as u8,
                fill,
            };
            let gaps = self.whites(&words, &stick, body);
            self.put(role, &stick, body, y, words, gaps);
            y += pitch + after;
            deepest = deepest.max(y);
        }
        if columns == 2 && self.layout.rules {
            self.rule(column + self.layout.gutter.0 / 2.0, top, 0.3, deepest - top);
        }
        self.foot = deepest + 0.3 * body.0;
        Ok(())
    }

    fn whites(&mut self, words: &[Word], stick: &Stick, body: Mm) -> Vec<f64> {
        if stick.fill != Fill::Justified {
            return even(words, THICK * body.0, stick.width);
        }
        let total = stick.width - words.iter().map(|w| w.width().0).sum::<f64>();
        let points: Vec<bool> = words
            .iter()
            .take(words.len().saturating_sub(1))
            .map(|w| w.text.ends_with([',', '.', ';', ':']))
            .collect();
        spaces(total, &points, body.0, Care::Ordinary, &mut self.chance)
    }

    /// Puts the large first letter and says how far the first lines stand back, and what is left to set.
    fn opened(&mut self, passages: &[&Passage]) -> (Vec<f64>, Vec<(Token, u8)>) {
        let Some(first) = passages.first() else { return (Vec::new(), Vec::new()) };
        let mut tokens = whole(first);
        let (deep, cut) = match self.layout.opening {
            Opening::Plain => return (Vec::new(), tokens),
            Opening::Letter(n) => (n, false),
            Opening::Cut(n) => (n, true),
        };
        let letter = tokens.first().and_then(|(t, _)| t.text.chars().next()).unwrap_or(' ');
        if !letter.is_ascii_uppercase() || tokens.first().is_some_and(|(t, _)| t.text.len() < 2) {
            return (Vec::new(), tokens);
        }
        let pitch = self.layout.pitch().0;
        let height = f64::from(deep) * pitch - self.layout.lead.0;
        let width = if cut {
            Some(self.initial_cut(letter, height))
        } else {
            self.large_letter(&tokens[0].0, letter, height)
        };
        let Some(width) = width else { return (Vec::new(), tokens) };
        // The rest of the first word begins with a second capital.
        if let Some((token, part)) = tokens.first_mut() {
            let rest: String = token.text.chars().skip(1).collect();
            let mut letters = rest.chars();
            let second = letters.next().map(|c| if c == '\u{17f}' { 'S' } else { c.to_ascii_uppercase() });
            token.text = second.into_iter().chain(letters).collect();
            *part = 1;
        }
        (vec![width + 0.35 * self.layout.body.0; usize::from(deep)], tokens)
    }

    fn initial_cut(&mut self, letter: char, height: f64) -> f64 {
        let side = height - 0.4;
        self.cuts.push(Cut {
            kind: CutKind::Initial { letter },
            place: Rect::new(0.0, self.foot + 0.2, side, side),
            turn: self.chance.normal(0.4),
            piece: mixed(self.layout.stock, "initial") ^ u64::from(u32::from(letter)),
            height: Mm(self.chance.normal(0.015)),
            face: None,
        });
        side
    }

    fn large_letter(&mut self, token: &Token, letter: char, height: f64) -> Option<f64> {
        // A two-line letter fills its body with the capital: the body is that of the cap-height.
        let face = Face::FrenchCanonRoman;
        let tall = self.hand.founts().cast(face, letter)?.outline.bounds()?;
        let drop = 0.25 * self.layout.body.0;
        let body = Mm((height - drop - 0.2) / -tall.y);
        let token = Token { id: token.id, text: letter.to_string(), style: Style::Roman };
        let word = self.hand.word(&token, 0, face, body).ok()?;
        let width = word.width().0;
        let stick = Stick { left: 0.0, width, column: 0, fill: Fill::Left };
        self.put(
            Role::Display(0),
            &stick,
            body,
            self.foot + height - drop - 0.75 * body.0,
            vec![word],
            Vec::new(),
        );
        Some(width)
    }

    fn imprint(&mut self, passage: &Passage) -> Result<(), ComposeError> {
        let (measure, body) = (self.layout.measure.0, Mm((self.layout.body.0 * 0.95).max(3.3)));
        self.foot += 0.4 * body.0;
        if self.layout.rules {
            self.rule(0.0, self.foot, measure, 0.35);
            self.foot += 0.35 + 0.4 * body.0;
        }
        let lines = fill(&mut self.hand, &whole(passage), self.layout.face, body, false, |_| 0.98 * measure)?;
        for Filled { words, .. } in lines {
            let gaps = even(&words, THICK * body.0, measure);
            let stick = Stick { left: 0.0, width: measure, column: 0, fill: Fill::Centred };
            self.put(passage.role, &stick, body, self.foot, words, gaps);
            self.foot += body.0;
        }
        Ok(())
    }

    /// Signature and catchword share the line under the text; the first of them opens it.
    fn under_text(&mut self, passage: &Passage, fill_out: Fill, opens: bool) -> Result<(), ComposeError> {
        let body = self.layout.body;
        let words = whole(passage)
            .iter()
            .map(|(token, part)| self.hand.word(token, *part, self.layout.face, body))
            .collect::<Result<Vec<_>, _>>()?;
        if opens {
            self.foot += body.0;
        }
        let gaps = even(&words, THICK * body.0, self.layout.measure.0);
        let stick = Stick { left: 0.0, width: self.layout.measure.0, column: 0, fill: fill_out };
        self.put(passage.role, &stick, body, self.foot - body.0, words, gaps);
        Ok(())
    }
}

fn whole(passage: &Passage) -> Vec<(Token, u8)> {
    passage.words.iter().map(|token| (token.clone(), 0)).collect()
}

/// Spaces of one width between words, narrower where the line would else be too long for `room`.
fn even(words: &[Word], gap: f64, room: f64) -> Vec<f64> {
    let n = words.len().saturating_sub(1);
    let left = room - words.iter().map(|w| w.width().0).sum::<f64>();
    vec![gap.min(left / n.max(1) as f64); n]
}

/// The face for a display body: the canon for large letters, great primer in the middle.
fn display_face(body: Mm, text: Face) -> Face {
    match body.0 {
        b if b > 8.0 => Face::FrenchCanonRoman,
        b if b > 5.3 => Face::GreatPrimerRoman,
        b if b > 4.3 => Face::EnglishRoman,
        _ => text,
    }
}
