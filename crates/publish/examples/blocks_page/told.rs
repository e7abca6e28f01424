//! What is told of the invented block: the record, with its order and its years.

use chronology::{Dated, DatesOptions, Sighting, Table, dates, order};
use evidence::WeightBasis;
use evidence::block::{
    BlockComparison, BlockSigns, BlockVerdict, Damage, DamageClass, DesignSigns, LineSigns, PlacesKept, Seen,
    Shows, Untold,
};
use publish::record::{
    BlockFound, BlocksRecord, CutFound, CutPairFound, DamageFound, DatesFound, OrderFound, PROGRAM,
    Photographed, Unplaced,
};
use sheet::Ppi;
use sheet::decode::Format;
use sheet::scale::{Scale, ScaleSource, TagSource};

/// The corner of the cut on every photograph, pixels.
pub(crate) const CORNER: [f64; 2] = [210.0, 340.0];
/// The photograph without a cut, and that of another block.
pub(crate) const UNPLACED: usize = 7;
const ALONE: usize = 6;
const PX_PER_MM: f64 = 300.0 / 25.4;

/// What each impression shows of each damage: 1 there, 0 whole, ? not clear. The fifth came by the second impression, and the
/// sixth, over-inked, has it filled: no order explains that.
pub(crate) const SEEN: [&str; 7] = ["111111", "110111", "0101?1", "110111", "010100", "000101", "000100"];

const NAMES: [&str; 8] = [
    "Harrowgate_box-3_leaf-12.jpg",
    "quarto-1663-B4r.jpg",
    "tower & sea <first>.jpg",
    "Aldermouth-almanack-1688-title.tif",
    "ballad-II-91.jpg",
    "Corran-sermons-1679_A1v_very-long-name-of-a-file.jpg",
    "shield-of-arms.jpg",
    "blank-leaf.jpg",
];

const CLASSES: [DamageClass; 7] = [
    DamageClass::FrameNick,
    DamageClass::Wormhole,
    DamageClass::Crack,
    DamageClass::Break,
    DamageClass::WornLine,
    DamageClass::LostEdge,
    DamageClass::Wormhole,
];

const YEARS: [Dated; 6] = [
    Dated::Exactly { year: 1651 },
    Dated::Exactly { year: 1663 },
    Dated::NotAfter { year: 1655 },
    Dated::Exactly { year: 1688 },
    Dated::Unknown,
    Dated::Between { from: 1676, to: 1681 },
];

/// Whether the wood had lost it: what over-inking filled and what was not clear is drawn as it was.
pub(crate) fn is_lost(damage: usize, impression: usize) -> bool {
    SEEN[damage].as_bytes()[impression] == b'1'
}

pub(crate) fn record() -> anyhow::Result<BlocksRecord> {
    let damage: Vec<DamageFound> = (0..SEEN.len()).map(one_damage).collect();
    let impressions = (0..6)
        .map(|i| chronology::Impression { name: format!("impression {}", i + 1), dated: YEARS[i] })
        .collect();
    let table = Table::new(
        impressions,
        (0..SEEN.len())
            .map(|d| chronology::Damage {
                name: format!("damage {}", d + 1),
                seen: SEEN[d].bytes().map(|c| sighting(shows(c))).collect(),
            })
            .collect(),
    )?;
    let told = order(&table, 1);
    let dates = dates(&table, &told, &DatesOptions::default());
    let ranks = told.arrangement.impressions.chunk_by(|a, b| a.rank == b.rank);
    let earliest_first = ranks.map(|tied| tied.iter().map(|p| p.impression).collect()).collect();
    Ok(BlocksRecord {
        pairs: pairs(),
        blocks: vec![
            BlockFound { impressions: (0..6).collect(), frame: 0, contradicted: Vec::new() },
            BlockFound { impressions: vec![ALONE], frame: ALONE, contradicted: Vec::new() },
        ],
        damage,
        order: vec![OrderFound { block: 0, earliest_first, told }],
        dates: Some(vec![DatesFound { block: 0, told: dates }]),
        cuts: (0..NAMES.len()).map(cut).collect(),
        unplaced: vec![Unplaced {
            copy: UNPLACED,
            file: NAMES[UNPLACED].to_owned(),
            reason: "No cut was found on it; name one with --box, or leave it out.".to_owned(),
        }],
        warnings: vec!["Impression 4: the scale is from a tag of the file, which may be wrong.".to_owned()],
        cautions: [
            "Casts of a block and facsimiles lie together just as well.",
            "Too little ink can feign a break, and too much can fill one.",
            "Dates from wear are disputed: a block is no clock.",
        ]
        .map(str::to_owned)
        .into(),
        photographs: (0..NAMES.len()).map(|i| Some(photographed(i))).collect(),
        program: PROGRAM.to_owned(),
    })
}

fn shows(c: u8) -> Shows {
    match c {
        b'1' => Shows::Present,
        b'0' => Shows::Absent,
        _ => Shows::Unclear,
    }
}

fn sighting(shows: Shows) -> Sighting {
    match shows {
        Shows::Present => Sighting::Present,
        Shows::Absent => Sighting::Absent,
        Shows::Unclear => Sighting::Unclear,
    }
}

fn one_damage(d: usize) -> DamageFound {
    let [x, y, w, h] = crate::drawn::losses()[d].place;
    let box_px = [x + CORNER[0], y + CORNER[1], w, h];
    let seen: Vec<Seen> = SEEN[d]
        .bytes()
        .enumerate()
        .map(|(impression, c)| Seen {
            impression,
            shows: shows(c),
            because: (c == b'?').then_some(Untold::TooLittleInk),
            chance: Some(match c {
                b'1' => 0.97,
                b'0' => 0.03,
                _ => 0.46,
            }),
            box_px: Some(box_px),
        })
        .collect();
    let of = |shows| seen.iter().filter(|s| s.shows == shows).map(|s| s.impression).collect();
    DamageFound {
        number: d + 1,
        block: 0,
        damage: Damage {
            class: CLASSES[d],
            box_mm: Some([x, y, w, h].map(|v| v / PX_PER_MM)),
            size_mm: Some(w.max(h) / PX_PER_MM),
            size_px: w.max(h),
            box_px,
            present: of(Shows::Present),
            absent: of(Shows::Absent),
            unclear: of(Shows::Unclear),
            seen,
        },
    }
}

fn cut(i: usize) -> Option<CutFound> {
    let [w, h] = if i == ALONE { [300.0, 220.0] } else { [crate::SIZE.0 as f64, crate::SIZE.1 as f64] };
    (i != UNPLACED).then(|| CutFound {
        box_px: [CORNER[0], CORNER[1], w, h],
        named: i == 1,
        size_mm: Some([w, h].map(|v| v / PX_PER_MM)),
        hole_px: None,
        dated: YEARS.get(i).copied().unwrap_or_default(),
    })
}

fn photographed(i: usize) -> Photographed {
    let source = ScaleSource::Metadata { tag: TagSource::Jfif };
    Photographed {
        file: format!("/somewhere/{}", NAMES[i]),
        sha256: format!("{i}9f2c4e17a05bd3886e1f7ac04d52b9e3310c8f66d7a94be25f0183ca6d7e4b1"),
        width_px: 1600,
        height_px: 2300,
        quarters_turned: 0,
        format: Format::Jpeg,
        scale: (i != ALONE).then_some(Scale { ppi: Ppi(300.0), relative_sd: 0.02, source }),
        notices: Vec::new(),
    }
}

fn pairs() -> Vec<CutPairFound> {
    let all = (0..=ALONE).flat_map(|a| (a + 1..=ALONE).map(move |b| (a, b)));
    all.map(|(a, b)| CutPairFound { a, b, comparison: comparison(a, b) }).collect()
}

/// Forks and ends of lines of the invented block.
const PLACES: PlacesKept = PlacesKept { kept: 51, moved: 3, gone: 4 };

fn comparison(a: usize, b: usize) -> BlockComparison {
    let (verdict, weight, likeness) = match (a, b) {
        (_, ALONE) => (BlockVerdict::DifferentDesign, None, 0.21),
        (4, 5) => (BlockVerdict::Undetermined, Some(0.4), 0.74),
        _ => (BlockVerdict::SameBlock, Some(1.6 - 0.05 * (a + b) as f64), 0.95 - 0.01 * (a + b) as f64),
    };
    let is_one = verdict.is_one_block();
    BlockComparison {
        verdict,
        weight_log10: weight,
        weight_basis: weight.map(|_| WeightBasis {
            simulated_pairs: 286,
            real_pairs: 0,
            largest: 2.1,
            resembles: true,
        }),
        sentence: verdict.sentence().to_owned(),
        reasons: vec![format!(
            "The median correlation of 812 windows is {likeness:.2}{}.",
            if is_one { ", and none wanders by more than 0.3 px" } else { "" }
        )],
        signs: weight.map(|_| BlockSigns {
            windows: 812,
            likeness,
            poorest: likeness - 0.1,
            found: 0.97,
            wandering_px: 0.24,
            wandering_sd: Some(1.0),
            drift_px: Some(0.05),
            drift_sd: Some(1.4),
            bolder_px: Some(0.06),
            windows_say: 1.2,
            sight: 3.0 * if likeness > 0.8 { 1.0 } else { -1.0 },
            sight_poorest: if likeness > 0.8 { 1.0 } else { -4.0 },
            longer_px: 700.0,
            lines: LineSigns { forks: PLACES, ends: PLACES, fields: 24, fields_equal: 23 },
            shown: 0.98,
        }),
        composition: likeness,
        design: DesignSigns {
            composition: likeness,
            masses: [likeness; 4],
            aspect: 0.01,
            grey: 0.3,
            longer_px: 600.0,
        },
        design_log10: if is_one { 1.5 } else { -1.0 },
        edges_per_mille: None,
        wandering: None,
        size_doubt: None,
        perhaps_a_cast: None,
        is_mirrored: false,
        size_ratio: weight.map(|_| [0.993, 1.004]),
        size_is_true: true,
        pieces: Vec::new(),
        altered: Vec::new(),
    }
}
