//! Blocks printed alone or among type, and photographed, with the truth beside the photograph.

use std::sync::Arc;

use serde::{Deserialize, Serialize};
use sheet::{Degrees, Mm, Point, Rect};

use super::design::BlockKind;
use super::face::Lie;
use super::judged::{Judge, Shown};
use super::life::Life;
use crate::chance::Chance;
use crate::compose::compose;
use crate::error::PressError;
use crate::fount::{Face as TypeFace, Founts};
use crate::layout::{Layout, Opening};
use crate::picture::Picture;
use crate::pull::{Conditions, pulled};
use crate::setting::{Cut, CutKind, Fill, Line, Setting, Sort, Word};
use crate::text::{Commission, PageKind, Passage, Role, Spelling, Style, Text};
use crate::truth::Truth;

/// A block at a time.
#[derive(Debug, Clone, Copy)]
pub struct Standing<'a> {
    /// The block and what befell it.
    pub life: &'a Life,
    /// The year of the impression.
    pub year: f64,
}

/// What a block stands among.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Surroundings {
    /// White paper.
    Alone,
    /// Lines of type.
    Type,
}

/// The letter of type in a factotum.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct TypeLetter {
    /// The letter.
    pub letter: char,
    /// Where it is on the photograph, px.
    pub box_px: Rect,
}

/// What is true of one block on a photograph.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct CutTruth {
    /// What it is.
    pub kind: BlockKind,
    /// The year of the impression.
    pub year: f64,
    /// From the block (mm) to the forme (mm).
    pub lie: Lie,
    /// What is left of the block's outline, mm in its own frame.
    pub outline: Rect,
    /// That outline on the photograph, clockwise, with places along its sides, px.
    pub outline_px: Vec<Point>,
    /// The upright box around it, px.
    pub box_px: Rect,
    /// Share of what stands on the block that can be seen in ink on the photograph, 0..1.
    pub legible: f64,
    /// Every damage of the block's life, and whether this impression shows it.
    pub damages: Vec<Shown>,
    /// The letter in a factotum.
    pub letter: Option<TypeLetter>,
}

/// What is true of a photograph of blocks.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct BlocksTruth {
    /// The sheet, its type, its warp, its accidents.
    pub sheet: Truth,
    /// The blocks, from left to right.
    pub cuts: Vec<CutTruth>,
}

impl BlocksTruth {
    /// Where a place of a block (by its number here; mm in its own frame) is on the photograph, px; `None` of no such
    /// block.
    pub fn to_photograph(&self, cut: usize, block: Point) -> Option<Point> {
        let lie = self.cuts.get(cut)?.lie;
        Some(self.sheet.to_photograph(lie.to_forme(block)))
    }

    /// Where a place on the photograph (px) is on a block (mm in its own frame); `None` of no such block, or where no
    /// forme printed.
    pub fn to_block(&self, cut: usize, photograph: Point) -> Option<Point> {
        Some(self.cuts.get(cut)?.lie.to_block(self.sheet.to_forme(photograph)?))
    }

    /// As JSON.
    ///
    /// # Errors
    /// When a number is not finite; none of this crate's are.
    pub fn to_json(&self) -> Result<String, serde_json::Error> {
        serde_json::to_string(self)
    }
}

/// A photograph of one or more blocks, with its truth.
#[derive(Debug, Clone, PartialEq)]
pub struct BlockPull {
    /// The photograph.
    pub picture: Picture,
    /// All that is known of it.
    pub truth: BlocksTruth,
}

/// White between two blocks that stand side by side, at most, mm.
const BETWEEN: f64 = 0.4;

/// Prints blocks side by side, alone or among type, and photographs them. The same arguments give the same bytes.
/// Cost: about a tenth of a second for a block of 60 mm alone at 300 ppi, on one core.
///
/// # Errors
/// [`PressError`] when the photograph would be too large, or no text goes about the blocks.
pub fn print_blocks(
    founts: &Founts,
    blocks: &[Standing<'_>],
    among: Surroundings,
    conditions: &Conditions,
    seed: u64,
) -> Result<BlockPull, PressError> {
    let mut chance = Chance::new(seed, "blocks in a forme");
    let lies = side_by_side(blocks, &mut chance);
    let whole = blocks
        .iter()
        .zip(&lies)
        .filter_map(|(b, lie)| Rect::around(b.life.outline(b.year).corners().map(|c| lie.to_forme(c))))
        .reduce(Rect::united)
        .unwrap_or(Rect::new(0.0, 0.0, 10.0, 10.0));
    let kind = blocks.first().map_or(BlockKind::Pictorial, |b| b.life.block.kind);
    let (mut setting, room, letter) = match among {
        Surroundings::Alone => alone(whole, &mut chance),
        Surroundings::Type => among_type(founts, kind, whole, &mut chance)?,
    };
    let by = Point::new(room.x - whole.x, room.y - whole.y);
    let lies: Vec<Lie> = lies.into_iter().map(|lie| Lie { at: lie.at + by, ..lie }).collect();
    let mut letters = Vec::new();
    for (block, &lie) in blocks.iter().zip(&lies) {
        let face = Arc::new(block.life.face(block.year, 0.0).lying(lie));
        let place =
            Rect::around(block.life.outline(block.year).corners().map(|c| lie.to_forme(c))).unwrap_or(room);
        setting.cuts.push(Cut {
            kind: CutKind::Block,
            place,
            turn: lie.turn.0,
            piece: block.life.block.knife,
            height: Mm(chance.normal(0.012)),
            face: Some(face),
        });
        let letter = letter.unwrap_or(char::from(b'A' + chance.below(26) as u8));
        letters.push(
            block
                .life
                .block
                .hole
                .and_then(|hole| set_letter(founts, &mut setting, letter, hole, lie, &mut chance)),
        );
    }
    let back = shows_back(conditions).then(|| page_behind(founts, &mut chance)).flatten();
    let (printed, inside) = pulled(founts, &setting, back.as_ref(), conditions, chance.seed())?;
    let truth = printed.truth;
    let cuts = blocks
        .iter()
        .zip(lies)
        .zip(letters)
        .map(|((block, lie), letter)| {
            let Standing { life, year } = *block;
            let judge = Judge { life, year, lie, truth: &truth, inside: &inside, ink: &conditions.ink };
            let outline = life.outline(year);
            let outline_px: Vec<Point> =
                along_sides(outline).map(|p| truth.to_photograph(lie.to_forme(p))).collect();
            CutTruth {
                kind: life.block.kind,
                year,
                lie,
                outline,
                box_px: Rect::around(outline_px.iter().copied()).unwrap_or(outline),
                outline_px,
                legible: judge.legible(),
                damages: judge.all(),
                letter: letter.map(|(letter, place)| TypeLetter { letter, box_px: truth.box_px(place) }),
            }
        })
        .collect();
    Ok(BlockPull { picture: printed.picture, truth: BlocksTruth { sheet: truth, cuts } })
}

fn shows_back(conditions: &Conditions) -> bool {
    conditions.paper.show_through > 0.0 || conditions.ink.set_off > 0.0
}

/// A page of type, for the other side of the sheet; `None` where none goes with its layout.
fn page_behind(founts: &Founts, chance: &mut Chance) -> Option<Setting> {
    let kind = PageKind::BookLeaf;
    let spelling = Spelling::default();
    let commission = Commission { kind, spelling, words: 220, frame: chance.seed(), body: chance.seed() };
    let text = Text::invented(&commission);
    compose(founts, &Layout::drawn(kind, chance.seed()), &text, 0.3, chance.seed()).ok()
}

/// Eight places to a side, clockwise from the top left corner.
fn along_sides(r: Rect) -> impl Iterator<Item = Point> {
    let c = r.corners();
    (0..32).map(move |i| super::curve::mixed(c[i / 8], c[(i / 8 + 1) % 4], (i % 8) as f64 / 8.0))
}

fn side_by_side(blocks: &[Standing<'_>], chance: &mut Chance) -> Vec<Lie> {
    let mut left = 0.0;
    blocks
        .iter()
        .map(|b| {
            // Damp and dry weather move the plank by a fifth of a per cent, quoins and hand turn it a little.
            let damp = if b.life.wear.shrinkage > 0.0 { chance.normal(0.0012) } else { 0.0 };
            let lie = b.life.face(b.year, damp).lie;
            let outline = b.life.outline(b.year);
            let turn = Degrees(chance.normal(0.15));
            let at = Point::new(left - outline.x, -outline.y) + lie.at + Point::new(0.0, chance.about(0.2));
            left += outline.w + chance.unit() * BETWEEN;
            Lie { at, turn, ..lie }
        })
        .collect()
}

/// A page with nothing on it but room for the blocks.
fn alone(whole: Rect, chance: &mut Chance) -> (Setting, Rect, Option<char>) {
    let mut layout = Layout::drawn(PageKind::Notice, chance.seed());
    layout.margin = Mm(chance.between(5.0, 16.0));
    layout.border = None;
    layout.measure = Mm(whole.w);
    let page = Rect::new(0.0, 0.0, whole.w, whole.h);
    let seed = chance.seed();
    let setting = Setting {
        id: format!("{seed:016x}"),
        layout,
        page,
        lines: Vec::new(),
        cuts: Vec::new(),
        age: 0.0,
        seed,
    };
    (setting, page, None)
}

/// Texts that are tried until one goes with its layout.
const TEXTS: usize = 6;

/// A page of type with room for the blocks, and the first letter of its text where they take its place.
fn among_type(
    founts: &Founts,
    kind: BlockKind,
    whole: Rect,
    chance: &mut Chance,
) -> Result<(Setting, Rect, Option<char>), PressError> {
    let mut last = None;
    for _ in 0..TEXTS {
        match typed(founts, kind, whole, chance) {
            Ok(page) => return Ok(page),
            Err(error) => last = Some(error),
        }
    }
    match last {
        Some(error) => Err(error),
        None => Ok(alone(whole, chance)),
    }
}

fn typed(
    founts: &Founts,
    kind: BlockKind,
    whole: Rect,
    chance: &mut Chance,
) -> Result<(Setting, Rect, Option<char>), PressError> {
    let page = *chance.pick(&[PageKind::Notice, PageKind::BookLeaf, PageKind::Order]);
    let opens = matches!(kind, BlockKind::Initial { .. } | BlockKind::Factotum);
    let words = chance.whole(45, 85) + if opens { 25 } else { 0 };
    let commission = Commission {
        kind: page,
        spelling: Spelling::default(),
        words,
        frame: chance.seed(),
        body: chance.seed(),
    };
    let mut text = Text::invented(&commission);
    let mut layout = Layout::drawn(page, chance.seed());
    layout.border = None;
    layout.head_piece = None;
    layout.columns = 1;
    layout.measure = Mm(layout.measure.0.clamp(whole.w, (1.6 * whole.w).max(95.0)));
    let pitch = layout.pitch().0;
    let deep = ((whole.h + 0.4 + layout.lead.0) / pitch).ceil();
    let stands_in = opens && deep <= 14.0 && whole.w < 0.6 * layout.measure.0;
    layout.opening = if stands_in { Opening::Cut(deep as u8) } else { Opening::Plain };
    if let BlockKind::Initial { letter } = kind {
        begin_with(&mut text, letter);
    }
    let first = first_body(&mut text).and_then(|p| p.words.first()).and_then(|w| w.text.chars().next());
    let mut setting = compose(founts, &layout, &text, chance.between(0.0, 0.6), chance.seed())?;
    let initial = setting.cuts.iter().position(|c| matches!(c.kind, CutKind::Initial { .. }));
    if let Some(i) = initial {
        let cut = setting.cuts.remove(i);
        let slack = (cut.place.h - whole.h).max(0.0);
        return Ok((setting, Rect::new(cut.place.x, cut.place.y + slack / 2.0, whole.w, whole.h), first));
    }
    let room = made_room(&mut setting, kind, whole, chance);
    Ok((setting, room, None))
}

fn first_body(text: &mut Text) -> Option<&mut Passage> {
    text.passages.iter_mut().find(|p| matches!(p.role, Role::Body | Role::Verse(_)))
}

/// The text begins with the letter that the block shows.
fn begin_with(text: &mut Text, letter: char) {
    if let Some(word) = first_body(text).and_then(|p| p.words.first_mut()) {
        let rest: String = word.text.chars().skip(1).collect();
        word.text = format!("{letter}{rest}");
        if word.text.chars().count() < 2 {
            word.text.push('t');
        }
    }
}

/// Moves the lines apart and says where the blocks go.
fn made_room(setting: &mut Setting, kind: BlockKind, whole: Rect, chance: &mut Chance) -> Rect {
    let body = setting.layout.body.0;
    let baselines: Vec<(f64, Role, f64)> =
        setting.lines.iter().map(|l| (l.baseline.0, l.role, l.body.0)).collect();
    let lowest = baselines.iter().map(|b| b.0).fold(0.0, f64::max);
    // Between two passages, or at either end.
    let mut places: Vec<f64> = baselines
        .windows(2)
        .filter(|w| w[0].1 != w[1].1 && w[1].0 > w[0].0 + 0.5)
        .map(|w| w[0].0 + 0.3 * w[0].2)
        .collect();
    places.push(lowest + 0.3 * body);
    let level = match kind {
        BlockKind::HeadPiece => -0.01,
        BlockKind::TailPiece => lowest + 0.3 * body,
        _ => *chance.pick(&places),
    };
    let gap = body * chance.between(0.4, 1.1);
    let by = whole.h + 2.0 * gap;
    for line in setting.lines.iter_mut().filter(|l| l.baseline.0 > level) {
        line.baseline = Mm(line.baseline.0 + by);
        line.lay();
    }
    for cut in setting.cuts.iter_mut().filter(|c| c.place.centre().y > level) {
        cut.place.y += by;
    }
    setting.page.h = (setting.page.h + by).max(level + by);
    let left = (setting.layout.measure.0 - whole.w) / 2.0;
    Rect::new(left, level + gap, whole.w, whole.h)
}

/// Share of the hole that the letter fills in height, at least and at most.
const FILLS: [f64; 2] = [0.62, 0.84];

/// Sets a letter of type into a hole; also the box of what it prints, mm in the forme.
fn set_letter(
    founts: &Founts,
    setting: &mut Setting,
    letter: char,
    hole: Rect,
    lie: Lie,
    chance: &mut Chance,
) -> Option<(char, Rect)> {
    let face = *chance.pick(&[TypeFace::FrenchCanonRoman, TypeFace::GreatPrimerRoman]);
    let cast = founts.cast(face, letter)?;
    let prints = cast.outline.bounds()?;
    let high = hole.h * chance.between(FILLS[0], FILLS[1]);
    let body = (high / prints.h).min(0.9 * hole.w / prints.w);
    let middle = lie.to_forme(hole.centre()) + Point::new(chance.normal(0.25), chance.normal(0.25));
    let at = middle - prints.centre() * body;
    let id = setting.sorts().map(|(_, _, s)| s.id + 1).max().unwrap_or(0);
    let token = setting.lines.iter().flat_map(|l| &l.words).map(|w| w.token + 1).max().unwrap_or(0);
    let sort = Sort {
        id,
        glyph: letter,
        face,
        body: Mm(body),
        piece: chance.seed(),
        width: Mm(cast.width * body),
        at,
        turn: Degrees(chance.normal(0.6)),
        upside_down: false,
        height: Mm(chance.normal(0.02)),
        shift: Point::new(0.0, 0.0),
    };
    let place = Rect::around(cast.outline.0.iter().flatten().map(|&p| sort.to_forme(p)))?;
    setting.lines.push(Line {
        role: Role::Display(0),
        column: 0,
        fill: Fill::Left,
        left: Mm(at.x),
        width: sort.width,
        baseline: Mm(at.y),
        body: Mm(body),
        words: vec![Word {
            token,
            part: 0,
            text: letter.to_string(),
            style: Style::Capitals,
            sorts: vec![sort],
        }],
        gaps: Vec::new(),
    });
    Some((letter, place))
}
