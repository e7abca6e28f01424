//! From a record of blocks to what its page is told.

use super::*;
use crate::page::blocks::{Sign, Stand, page};
use crate::record::{BlockFound, DamageFound, DatesFound, OrderFound, PROGRAM, Photographed, Unplaced};
use chronology::{Dated, DatesOptions, Sighting, Table, dates, order};
use evidence::block::{Damage, DamageClass, Seen, Shows, Untold};
use sheet::decode::Format;
use sheet::{Plane, Point};

/// A record of one block: a row of signs for each damage, a column for each impression, a year for some; the photographs
/// before it are of `first` other blocks, and one after it could not be placed.
pub(crate) fn record(rows: &[&str], years: &[Dated], first: usize) -> BlocksRecord {
    let n = rows[0].len();
    let impressions: Vec<usize> = (first..first + n).collect();
    let sighting = |c| match c {
        '1' => Sighting::Present,
        '0' => Sighting::Absent,
        _ => Sighting::Unclear,
    };
    let dated = |i: usize| years.get(i).copied().unwrap_or_default();
    let table = Table::new(
        (0..n)
            .map(|i| chronology::Impression {
                name: format!("impression {}", first + i + 1),
                dated: dated(i),
            })
            .collect(),
        rows.iter()
            .enumerate()
            .map(|(d, row)| chronology::Damage {
                name: format!("damage {}", d + 1),
                seen: row.chars().map(sighting).collect(),
            })
            .collect(),
    )
    .unwrap();
    let told = order(&table, 1);
    let ranks = told.arrangement.impressions.chunk_by(|a, b| a.rank == b.rank);
    let earliest_first = ranks.map(|r| r.iter().map(|p| first + p.impression).collect()).collect();
    let years = (!years.is_empty())
        .then(|| dates(&table, &told, &DatesOptions { hold_out: 0, ..DatesOptions::default() }))
        .map(|told| vec![DatesFound { block: first, told }]);
    let alone = (0..first).map(|i| BlockFound { impressions: vec![i], frame: i, contradicted: Vec::new() });
    let found = BlockFound { impressions: impressions.clone(), frame: first, contradicted: Vec::new() };
    let file = |i: usize| format!("/folder/sheet-{}.jpg", i + 1);
    let photographed = |i: usize| Photographed {
        file: file(i),
        sha256: "00".into(),
        width_px: 500,
        height_px: 400,
        quarters_turned: 0,
        format: Format::Jpeg,
        scale: None,
        notices: Vec::new(),
    };
    BlocksRecord {
        pairs: Vec::new(),
        blocks: alone.chain([found]).collect(),
        damage: rows.iter().enumerate().map(|(d, row)| damage(d, row, &impressions, first)).collect(),
        order: vec![OrderFound { block: first, earliest_first, told }],
        dates: years,
        cuts: (0..first + n)
            .map(|i| {
                Some(CutFound {
                    box_px: [100.0, 50.0, 200.0, 160.0],
                    named: false,
                    size_mm: None,
                    hole_px: None,
                    dated: if i < first { Dated::Unknown } else { dated(i - first) },
                })
            })
            .chain([None])
            .collect(),
        unplaced: vec![Unplaced {
            copy: first + n,
            file: file(first + n),
            reason: "No cut was found".into(),
        }],
        warnings: Vec::new(),
        cautions: Vec::new(),
        photographs: (0..first + n).map(|i| Some(photographed(i))).chain([None]).collect(),
        program: PROGRAM.to_owned(),
    }
}

fn damage(d: usize, row: &str, impressions: &[usize], block: usize) -> DamageFound {
    let seen: Vec<Seen> = impressions
        .iter()
        .zip(row.chars())
        .map(|(&impression, c)| Seen {
            impression,
            shows: match c {
                '1' => Shows::Present,
                '0' => Shows::Absent,
                _ => Shows::Unclear,
            },
            because: (c == '?').then_some(Untold::Fold),
            chance: None,
            box_px: None,
        })
        .collect();
    let of = |shows| seen.iter().filter(|s| s.shows == shows).map(|s| s.impression).collect();
    let box_px = [120.0 + 20.0 * d as f64, 70.0 + 10.0 * d as f64, 8.0, 6.0];
    DamageFound {
        number: d + 1,
        block,
        damage: Damage {
            class: DamageClass::ALL[d % DamageClass::ALL.len()],
            box_mm: None,
            size_mm: None,
            size_px: 8.0,
            box_px,
            present: of(Shows::Present),
            absent: of(Shows::Absent),
            unclear: of(Shows::Unclear),
            seen,
        },
    }
}

/// Pictures of the block of such a record: strokes, each impression of a brightness of its own.
pub(crate) fn pictures(record: &BlocksRecord, size: (usize, usize)) -> BlocksPictures {
    let last = record.blocks.len() - 1;
    let of_block = &record.blocks[last].impressions;
    let strokes = |i: usize| {
        let mut ink = Plane::filled(size.0, size.1, 0u8);
        for y in 0..size.1 {
            for (x, v) in ink.row_mut(y).iter_mut().enumerate() {
                // Hatching that changes its slope, with some grain.
                let at = x as f64 + 0.4 * y as f64 + 8.0 * (y as f64 / 37.0).sin();
                let grain = ((x * 7919 + y * 104_729 + i * 31) % 97) as f64 / 97.0;
                *v = if (at / 6.0).fract() < 0.5 {
                    (200.0 + 50.0 * grain) as u8
                } else {
                    (12.0 * grain) as u8
                };
            }
        }
        ink
    };
    let impressions = of_block.iter().map(|&i| {
        let ink = strokes(i);
        ImpressionOnFrame {
            impression: i,
            photograph: ink.map(|v| [250u8.saturating_sub(v).max(i as u8); 3]),
            ink,
        }
    });
    let block = OneBlockPictures {
        composite: strokes(0),
        impressions: impressions.collect(),
        origin: Point::new(100.0, 50.0),
        scale: size.0 as f64 / 200.0,
    };
    let mut blocks: Vec<Option<OneBlockPictures>> = vec![None; last];
    blocks.push(Some(block));
    BlocksPictures {
        blocks,
        cuts: vec![Some(Plane::filled(220, 180, [200; 3])); record.photographs.len() - 1],
    }
}

#[test]
fn an_order_is_told_by_the_numbers_of_the_photographs() {
    // The third came first; the first and the fourth are tied; two photographs before are of other blocks.
    let record = record(&["1101", "0100", "1101", "0100"], &[], 2);
    let model = blocks_model(&record, &pictures(&record, (200, 160)), "reglet".into()).unwrap();
    let block = &model.blocks[2];
    let order = block.order.as_ref().unwrap();
    let states: Vec<_> = order.states.iter().map(|s| (s.impressions.clone(), s.new.clone())).collect();
    assert_eq!(
        states,
        [(vec![5], vec![]), (vec![3, 6], vec![1, 3]), (vec![4], vec![2, 4])],
        "states and what is new in them"
    );
    assert_eq!(block.impressions, [5, 3, 6, 4]);
    assert!(order.before[0][1] > 0.8 && order.before[1][0] < 0.2);
    assert_eq!(order.stand[1][2], Some(Stand::Tied));
    assert!(order.contradictions.is_empty(), "{:?}", order.contradictions);
    assert!(block.doubts.iter().any(|d| d.contains("parts impressions 3 and 6")), "{:?}", block.doubts);
    assert_eq!(model.findings[0], "Block 3: impressions 3 to 6; 4 damages, by which they stand in 3 states.");
    assert_eq!(model.findings[2], "Not placed: 7. No cut was found.");
}

#[test]
fn a_cell_that_no_order_explains_is_marked_and_named() {
    let record = record(&["011111", "001111", "001111", "000111", "010111"], &[], 0);
    let model = blocks_model(&record, &pictures(&record, (200, 160)), String::new()).unwrap();
    let block = &model.blocks[0];
    let odd: Vec<(usize, usize)> = block
        .damages
        .iter()
        .flat_map(|d| d.seen.iter().filter(|s| s.is_odd).map(|s| (d.number, s.impression)))
        .collect();
    assert!(odd.iter().all(|(damage, _)| *damage == 5) && !odd.is_empty(), "{odd:?}");
    let said = &block.order.as_ref().unwrap().contradictions;
    assert!(said[0].contains("damage 5 is"), "{said:?}");
    // The same without that cell is explained.
    let sound = self::record(&["011111", "001111", "001111", "000111", "011111"], &[], 0);
    let model = blocks_model(&sound, &pictures(&sound, (200, 160)), String::new()).unwrap();
    assert!(model.blocks[0].damages.iter().all(|d| d.seen.iter().all(|s| !s.is_odd)));
}

#[test]
fn a_damage_lies_where_it_is_on_reduced_pictures_too() {
    let record = record(&["011", "001"], &[], 0);
    for size in [(200, 160), (100, 80)] {
        let model = blocks_model(&record, &pictures(&record, size), String::new()).unwrap();
        let place = model.blocks[0].damages[1].frame;
        assert!((place.x - 0.2).abs() < 1e-9 && (place.y - 30.0 / 160.0).abs() < 1e-9, "{place:?}");
        assert!((place.w - 0.04).abs() < 1e-9);
        assert!(model.blocks[0].damages[1].seen.iter().all(|s| s.crop.is_some()));
    }
}

#[test]
fn what_many_places_do_not_tell_is_a_doubt() {
    let record = record(&["0?11", "0?01", "0011"], &[], 0);
    let model = blocks_model(&record, &pictures(&record, (200, 160)), String::new()).unwrap();
    let said = "Impression 2 does not tell of 2 of 3 damages: a fold runs through it (2).";
    assert!(model.blocks[0].doubts.iter().any(|d| d == said), "{:?}", model.blocks[0].doubts);
    assert_eq!(model.blocks[0].damages[0].seen.iter().filter(|s| s.sign == Sign::Unclear).count(), 1);
}

#[test]
fn years_go_to_their_impressions() {
    let years = [Dated::Exactly { year: 1600 }, Dated::Unknown, Dated::Exactly { year: 1640 }];
    let record = record(&["011", "011", "001", "001"], &years, 1);
    let model = blocks_model(&record, &pictures(&record, (200, 160)), String::new()).unwrap();
    let dates = model.blocks[1].dates.as_ref().unwrap();
    let told: Vec<usize> = dates.rows.iter().filter(|r| r.by_order.is_some()).map(|r| r.impression).collect();
    assert_eq!(told, [3]);
    let year = dates.rows.iter().find(|r| r.impression == 3).unwrap();
    let median = year.by_order.unwrap().median;
    assert!((1600.0..1640.0).contains(&median), "{median}");
    assert!(year.bounds_words.contains("(impression 2)"), "{}", year.bounds_words);
    assert!(dates.rate_words.contains("damages a year"));
}

#[test]
fn the_page_of_twelve_impressions_stays_small() {
    let rows: Vec<String> =
        (0..20).map(|d| (0..12).map(|i| if i > d / 2 { '1' } else { '0' }).collect()).collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    let record = record(&rows, &[], 0);
    let model = blocks_model(&record, &pictures(&record, (1000, 1000)), String::new()).unwrap();
    let page = page(&model);
    assert!(page.len() < 4_000_000, "{} bytes", page.len());
    assert_eq!(page, again(&record), "the same input gives the same bytes");
}

fn again(record: &BlocksRecord) -> String {
    page(&blocks_model(record, &pictures(record, (1000, 1000)), String::new()).unwrap())
}
