//! Many photographs: each read once, laid together in pairs, grouped into settings, shown on one frame a setting.

mod copy;
mod kept;
mod seen;
mod told;

use super::Compare;
use super::opened::Opened;
use crate::cmd::{outputs, plates};
use crate::files::{Named, write_whole};
use crate::say::Progress;
use anyhow::Result;
use copy::Copy;
use evidence::cautions::CameOut;
use evidence::many::Pair;
use evidence::{Compared, Verdict};
use publish::many::many_model;
use publish::record::{ManyRecord, Unplaced};
use rayon::prelude::*;
use register::PaperMap;
use sheet::scale::ScaleRequest;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// So many copies are all laid on each other, every two. Of more, each is laid on the first copy of every setting found so
/// far, and on no other.
const ALL_PAIRS: usize = 12;
/// Pixels of the photographs that are all read before the first two are laid together, at most: while they are being
/// read, several at once, they take up to ten bytes a pixel.
const MOST_AT_ONCE: usize = 150_000_000;
/// Pixels of the first copies of settings that are kept ready to have others laid on them, at most: a reading takes 1.5
/// bytes a pixel (12 copies of 9 megapixels), so 1.2 GB.
const MOST_KEPT: usize = 800_000_000;
/// Of more copies so many, and so many pixels of them, are read before the first is laid: the best of them is the frame.
const CHOSEN_FROM: usize = 6;
const CHOSEN_FROM_PIXELS: usize = 60_000_000;

impl Compare {
    /// The result of many photographs, and the page that was written, if one was wanted.
    pub(super) fn many(
        &self,
        named: &[Named],
        asked: &[ScaleRequest],
        progress: &Progress,
    ) -> Result<(ManyRecord, Option<PathBuf>)> {
        let by_name = || outputs::page_of_many(named, "more");
        let page = self.results.page(by_name);
        let in_colour = page.is_some() || self.results.plates.is_some();
        let (study, record) = compared(named, asked, in_colour, progress);
        if let Some(page) = &page {
            progress.step("Drawing the places in every copy");
            let model = many_model(&record, study.pictures(&record)?, self.typed());
            write_whole(page, publish::page::many::page(&model).as_bytes())?;
        }
        if let Some(folder) = &self.results.plates {
            progress.step("Drawing the plates");
            let named = named.iter().enumerate();
            let notes: Vec<String> = named.map(|(i, n)| format!("copy {}: {}", i + 1, n.short())).collect();
            plates::write(folder, &self.typed(), &notes, |put| study.plates(&record, put))?;
        }
        Ok((record, page))
    }
}

/// Compares many photographs, keeping their colour where pictures are wanted. What cannot be read is named with the reason,
/// and the rest goes on.
fn compared<'n>(
    named: &'n [Named],
    asked: &[ScaleRequest],
    in_colour: bool,
    progress: &Progress,
) -> (Study<'n>, ManyRecord) {
    let mut study = Study::new(named, in_colour);
    progress.step(&format!("Reading {} photographs", named.len()));
    // Photographs of one study are about of one size.
    let first = Copy::read(&named[0], &asked[0], in_colour);
    let pixels = named.len() * first.as_ref().map_or(0, |(opened, _)| opened.pixels());
    if named.len() <= ALL_PAIRS && pixels <= MOST_AT_ONCE {
        study.every_pair(first, asked, progress);
    } else {
        study.by_first_copies(first, asked, progress);
    }
    progress.step("Looking where copies differ");
    let record = study.told();
    (study, record)
}

/// What is known of the copies so far.
struct Study<'n> {
    named: &'n [Named],
    /// Whether copies are kept in colour, too.
    in_colour: bool,
    copies: Vec<Option<Copy>>,
    /// The copies in the order in which others were laid on them.
    order: Vec<usize>,
    unread: Vec<Unplaced>,
    pairs: Vec<Pair>,
    /// How these came out.
    came_out: Vec<CameOut>,
    /// How the second of two copies of one setting lies on the first.
    maps: BTreeMap<[usize; 2], PaperMap>,
    warnings: Vec<String>,
}

/// The first copies of the settings found so far, ready to have others laid on them.
#[derive(Default)]
struct Firsts {
    copies: Vec<(usize, Opened)>,
    pixels: usize,
}

impl<'n> Study<'n> {
    fn new(named: &'n [Named], in_colour: bool) -> Self {
        Self {
            named,
            in_colour,
            copies: named.iter().map(|_| None).collect(),
            order: Vec::new(),
            unread: Vec::new(),
            pairs: Vec::new(),
            came_out: Vec::new(),
            maps: BTreeMap::new(),
            warnings: Vec::new(),
        }
    }

    /// Keeps what was read of a copy; `None`, and the reason noted, of one that could not be read.
    fn noted(&mut self, number: usize, read: Result<(Opened, Copy)>) -> Option<Opened> {
        match read {
            Ok((opened, copy)) => {
                self.copies[number] = Some(copy);
                Some(opened)
            }
            Err(error) => {
                self.unread.push(self.unplaced(number, format!("{error:#}")));
                None
            }
        }
    }

    fn unplaced(&self, copy: usize, reason: String) -> Unplaced {
        Unplaced { copy, file: self.named[copy].text(), reason }
    }

    /// Reads copies after the first, which is read already; those that can be read, the best first to lay others on.
    fn read_best_first(
        &mut self,
        first: Result<(Opened, Copy)>,
        count: usize,
        asked: &[ScaleRequest],
    ) -> Vec<(usize, Opened)> {
        let in_colour = self.in_colour;
        let others: Vec<_> = self.named[1..count]
            .par_iter()
            .zip(&asked[1..count])
            .map(|(named, scale)| Copy::read(named, scale, in_colour))
            .collect();
        let read = std::iter::once(first).chain(others).enumerate();
        let mut opened: Vec<(usize, Opened)> =
            read.filter_map(|(copy, read)| Some((copy, self.noted(copy, read)?))).collect();
        opened.sort_by(|p, q| q.1.reading.text_shown().total_cmp(&p.1.reading.text_shown()));
        self.order = opened.iter().map(|(copy, _)| *copy).collect();
        opened
    }

    /// Lays every two together, the first copy being read already.
    fn every_pair(&mut self, first: Result<(Opened, Copy)>, asked: &[ScaleRequest], progress: &Progress) {
        let opened = self.read_best_first(first, self.named.len(), asked);
        let all = opened.len() * opened.len().saturating_sub(1) / 2;
        for (i, (a, first)) in opened.iter().enumerate() {
            for (b, second) in &opened[i + 1..] {
                progress.step(&format!("Laying every two together: {} of {all}", self.pairs.len() + 1));
                let compared = evidence::compare(&first.reading, &second.reading);
                self.note_pair([*a, *b], [first, second], compared);
            }
        }
    }

    /// Lays each copy on the first copies of the settings found before it, the best of some first, and then each while the
    /// next is being read.
    fn by_first_copies(
        &mut self,
        first: Result<(Opened, Copy)>,
        asked: &[ScaleRequest],
        progress: &Progress,
    ) {
        let all = self.named.len();
        let pixels = first.as_ref().map_or(1, |(opened, _)| opened.pixels().max(1));
        let chosen_from = CHOSEN_FROM.min(CHOSEN_FROM_PIXELS / pixels).clamp(1, all);
        let mut firsts = Firsts::default();
        for (done, (copy, opened)) in self.read_best_first(first, chosen_from, asked).into_iter().enumerate()
        {
            progress.step(&format!("Reading and laying copies: {} of {all}", done + 1));
            let opened = self.without_a_setting(copy, opened, &firsts);
            self.add_first(copy, opened, &mut firsts);
        }
        let in_colour = self.in_colour;
        let read = |copy: usize| {
            let next = self.named.get(copy).zip(asked.get(copy));
            next.map(|(named, scale)| Copy::read(named, scale, in_colour))
        };
        let mut at_hand = read(chosen_from);
        for copy in chosen_from..all {
            progress.step(&format!("Reading and laying copies: {} of {all}", copy + 1));
            let opened = at_hand.take().and_then(|read| self.noted(copy, read));
            self.order.push(copy);
            let (next, opened) = rayon::join(
                || read(copy + 1),
                || opened.and_then(|opened| self.without_a_setting(copy, opened, &firsts)),
            );
            at_hand = next;
            self.add_first(copy, opened, &mut firsts);
        }
    }

    /// Keeps a copy that is of none of the settings found before it, if it is one and there is room.
    fn add_first(&mut self, copy: usize, opened: Option<Opened>, firsts: &mut Firsts) {
        let Some(opened) = opened else { return };
        if firsts.copies.is_empty() || firsts.pixels + opened.pixels() <= MOST_KEPT {
            firsts.pixels += opened.pixels();
            firsts.copies.push((copy, opened));
        } else {
            self.warnings.push(format!(
                "{} agrees with none of the {} settings found before it, and there was no room to keep it: later \
                 copies were not laid on it. Compare fewer settings at once.",
                self.named[copy].short(),
                firsts.copies.len()
            ));
        }
    }

    /// The copy of a setting on which its others were laid.
    fn frame(&self, setting: &[usize]) -> usize {
        let laid = self.order.iter().find(|copy| setting.contains(copy));
        laid.or(setting.first()).copied().unwrap_or(0)
    }

    /// Lays a copy on the first copies of the settings found before; the copy itself where it is of none of these.
    fn without_a_setting(&mut self, copy: usize, opened: Opened, firsts: &Firsts) -> Option<Opened> {
        let mut on_one = firsts.copies.iter().map(|(first, of_first)| {
            let compared = evidence::compare(&of_first.reading, &opened.reading);
            self.note_pair([*first, copy], [of_first, &opened], compared)
        });
        (!on_one.any(Verdict::is_one_setting)).then_some(opened)
    }

    /// Keeps what was found of two copies; the verdict.
    fn note_pair(&mut self, copies: [usize; 2], opened: [&Opened; 2], compared: Compared) -> Verdict {
        let Compared { mut comparison, laid, .. } = compared;
        if opened[0].is_the_same_as(opened[1]) {
            let [a, b] = copies.map(|c| self.named[c].short());
            self.warnings.push(format!("{a} and {b} are the same file, byte for byte."));
        }
        let verdict = comparison.verdict;
        let has_scale = opened[0].about.scale.is_some();
        self.came_out.push(CameOut { verdict, is_laid: comparison.placement.is_some(), has_scale });
        if let Some(laid) = laid.filter(|_| verdict.is_one_setting()) {
            self.maps.insert(copies, laid.map);
        }
        // Of hundreds of pairs nobody asks for each node and each word.
        comparison.placement = None;
        comparison.straight_edge = Vec::new();
        for line in &mut comparison.lines {
            line.drift = Vec::new();
        }
        self.pairs.push(Pair { copies, comparison });
        verdict
    }
}
